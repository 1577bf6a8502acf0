package tenpin_test

import (
	"slices"
	"testing"

	"coach.settee/model/tenpin"
)

func TestPinSet(t *testing.T) {
	tests := []struct {
		name    string
		pins    tenpin.PinSet
		numbers []int
		written string
		mirror  tenpin.PinSet
	}{
		{"none", tenpin.Pins(), []int{}, "", tenpin.Pins()},
		{"the head pin", tenpin.Pins(1), []int{1}, "1", tenpin.Pins(1)},
		{"in any order", tenpin.Pins(10, 7), []int{7, 10}, "7-10", tenpin.Pins(7, 10)},
		{"one named twice", tenpin.Pins(8, 2, 8), []int{2, 8}, "2-8", tenpin.Pins(3, 9)},
		{"one side", tenpin.Pins(2, 4, 7, 8), []int{2, 4, 7, 8}, "2-4-7-8", tenpin.Pins(3, 6, 9, 10)},
		{"the middle", tenpin.Pins(5), []int{5}, "5", tenpin.Pins(5)},
		{"all", tenpin.AllPins, []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}, "1-2-3-4-5-6-7-8-9-10", tenpin.AllPins},
		{"numbers of no pin", tenpin.Pins(-1, 0, 11, 1<<20), []int{}, "", tenpin.Pins()},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := test.pins.Numbers()
			if got == nil || !slices.Equal(got, test.numbers) {
				t.Errorf("numbers %#v, want %v", got, test.numbers)
			}
			if n := test.pins.Count(); n != len(test.numbers) {
				t.Errorf("count %d, want %d", n, len(test.numbers))
			}
			if s := test.pins.String(); s != test.written {
				t.Errorf("written %q, want %q", s, test.written)
			}
			if m := test.pins.Mirror(); m != test.mirror {
				t.Errorf("mirror %v, want %v", m, test.mirror)
			}
			for n := -1; n <= 12; n++ {
				if has := test.pins.Has(n); has != slices.Contains(test.numbers, n) {
					t.Errorf("has pin %d: %v", n, has)
				}
			}
		})
	}
}

func TestToggle(t *testing.T) {
	s := tenpin.Pins(7)
	if got := s.Toggle(10); got != tenpin.Pins(7, 10) {
		t.Errorf("10 put in: %v", got)
	}
	if got := s.Toggle(7); got != 0 {
		t.Errorf("7 taken out: %v", got)
	}
	if got := s.Toggle(11); got != s {
		t.Errorf("no pin 11: %v", got)
	}
}

func TestWithin(t *testing.T) {
	tests := []struct {
		s, of tenpin.PinSet
		want  bool
	}{
		{tenpin.Pins(), tenpin.Pins(), true},
		{tenpin.Pins(7), tenpin.Pins(7, 10), true},
		{tenpin.Pins(7, 10), tenpin.Pins(7, 10), true},
		{tenpin.Pins(7, 9), tenpin.Pins(7, 10), false},
		{tenpin.Pins(1), tenpin.Pins(), false},
	}
	for _, test := range tests {
		if got := test.s.Within(test.of); got != test.want {
			t.Errorf("%v within %v: %v", test.s, test.of, got)
		}
	}
}
