package model

import "testing"

func TestAxesAreReadAsTyped(t *testing.T) {
	of := func(axes ...Axis) (s AxisSet) {
		for _, a := range axes {
			s = s.With(a)
		}
		return s
	}
	for text, want := range map[string]AxisSet{
		"": 0, "b": of(Balance), "bt": of(Balance, Target), "r f": of(Release, Finish), "Balance, finish": of(Balance, Finish),
		"b t r f": AllAxes, "all": AllAxes, "release": of(Release),
	} {
		if got, err := ParseAxes(text); got != want || err != nil {
			t.Errorf("%q is %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"x", "bx", "power", ",", "7"} {
		if got, err := ParseAxes(text); err == nil {
			t.Errorf("%q is %v", text, got)
		}
	}
}
