package tenpin

import (
	"math/bits"
	"strconv"
	"strings"
)

// PinSet is a set of pins. Bit n-1 is pin n, 1 to 10; the zero value is no pin.
type PinSet uint16

// AllPins is the full rack.
const AllPins PinSet = 1<<10 - 1

// Pins is the set of the pins with these numbers, each 1 to 10. A number
// outside that range names no pin and adds none; numbers that come from outside
// the program are to be checked before.
func Pins(numbers ...int) PinSet {
	var s PinSet
	for _, n := range numbers {
		s |= pin(n)
	}
	return s
}

// Has tells whether pin n, 1 to 10, is in the set.
func (s PinSet) Has(n int) bool { return s&pin(n) != 0 }

// Toggle is the set with pin n, 1 to 10, put in if it was not there and taken
// out if it was.
func (s PinSet) Toggle(n int) PinSet { return s ^ pin(n) }

// Count is the number of pins in the set, 0 to 10.
func (s PinSet) Count() int { return bits.OnesCount16(uint16(s)) }

// Numbers lists the pins in ascending order. It is empty, never nil, for no pin.
func (s PinSet) Numbers() []int {
	numbers := make([]int, 0, 10)
	for n := 1; n <= 10; n++ {
		if s.Has(n) {
			numbers = append(numbers, n)
		}
	}
	return numbers
}

// Within tells whether every pin of the set is in t too.
func (s PinSet) Within(t PinSet) bool { return s&^t == 0 }

// Mirror is the set seen from the other hand: 2 and 3, 4 and 6, 7 and 10, 8 and
// 9 change places; 1 and 5 stay.
func (s PinSet) Mirror() PinSet {
	var m PinSet
	for n, other := range mirrored {
		if s&(1<<n) != 0 {
			m |= pin(other)
		}
	}
	return m
}

// String writes the pins in ascending order with hyphens, as a leave is usually
// written: "2-8", and "" for no pin.
func (s PinSet) String() string {
	var b strings.Builder
	for n := 1; n <= 10; n++ {
		if !s.Has(n) {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte('-')
		}
		b.WriteString(strconv.Itoa(n))
	}
	return b.String()
}

// mirrored holds at n-1 the pin that stands where pin n does, seen in a mirror.
var mirrored = [10]int{1, 3, 2, 6, 5, 4, 10, 9, 8, 7}

func pin(n int) PinSet {
	if n < 1 || n > 10 {
		return 0
	}
	return 1 << (n - 1)
}
