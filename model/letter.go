package model

import "fmt"

// Letter is the judgement of one axis, worth 4 points for A down to 0 for F. The zero Letter is no letter: the axis
// was not watched.
type Letter uint8

// The letters, worst first, so that a better letter compares greater.
const (
	NoLetter Letter = iota
	F
	D
	C
	B
	A
)

var letterNames = [...]string{"", "F", "D", "C", "B", "A"}

// Points gives 4 for A, 3 for B, 2 for C, 1 for D, 0 for F and for no letter.
func (l Letter) Points() int {
	if l == NoLetter {
		return 0
	}
	return int(l - F)
}

// Lower gives the letter steps steps down, F at the lowest. Without a letter it stays without.
func (l Letter) Lower(steps int) Letter {
	if l == NoLetter {
		return l
	}
	return max(F, l-Letter(min(steps, int(l-F))))
}

// Raise gives the next better letter, A at the highest. Without a letter it stays without.
func (l Letter) Raise() Letter {
	if l == NoLetter || l == A {
		return l
	}
	return l + 1
}

// String gives "A" to "F", "" for no letter.
func (l Letter) String() string {
	if int(l) < len(letterNames) {
		return letterNames[l]
	}
	return fmt.Sprintf("letter(%d)", uint8(l))
}

// ParseLetter reads "A", "B", "C", "D", "F" or "" for an axis that was not watched.
func ParseLetter(s string) (Letter, error) {
	for i, name := range letterNames {
		if s == name {
			return Letter(i), nil
		}
	}
	return NoLetter, fmt.Errorf("%q is no letter: use A, B, C, D or F", s)
}

// Letters are one delivery's letters by axis.
type Letters [AxisCount]Letter

// Watched gives the axes that have a letter.
func (l Letters) Watched() AxisSet {
	var s AxisSet
	for _, a := range Axes {
		if l[a] != NoLetter {
			s = s.With(a)
		}
	}
	return s
}

// String joins the letters in axis order, with "·" for an axis that was not watched.
func (l Letters) String() string {
	out := make([]rune, 0, AxisCount)
	for _, a := range Axes {
		if l[a] == NoLetter {
			out = append(out, '·')
			continue
		}
		out = append(out, []rune(l[a].String())...)
	}
	return string(out)
}

// Weights are whole per cents by axis; they sum to 100.
type Weights [AxisCount]int

// Validate tells what is wrong with the weights, or nil.
func (w Weights) Validate() error {
	sum := 0
	for _, a := range Axes {
		if w[a] < 0 {
			return fmt.Errorf("the weight of %s is %d: weights are 0 to 100", a, w[a])
		}
		sum += w[a]
	}
	if sum != 100 {
		return fmt.Errorf("the weights sum to %d: they must sum to 100", sum)
	}
	return nil
}
