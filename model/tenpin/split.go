package tenpin

// Verdict says whether something is a split, as far as it is known.
type Verdict uint8

const (
	SplitUnknown Verdict = iota // the record does not say
	SplitYes
	SplitNo
)

// IsSplit tells whether the set, left standing by a ball at a full rack, is a
// split. The rule (USBC playing rule 2h, read literally): the head pin is down,
// and either a pin is down between pins that stand (7-9, 3-10), or a pin is
// down immediately ahead of at least two that stand (5-6). The head pin counts
// as a pin ahead, so 2-3 is a split. Of the 1,023 leaves 459 are splits.
func (s PinSet) IsSplit() bool {
	s &= AllPins
	return !s.Has(1) && (s.hasGap() || s.hasPairBehind())
}

// hasGap tells whether standing pins have a fallen one between them: seen from
// the foul line the pins stand in seven columns, and an empty column parts
// columns that are not.
func (s PinSet) hasGap() bool {
	var columns uint
	for i, c := range column {
		if s&(1<<i) != 0 {
			columns |= 1 << c
		}
	}
	if columns == 0 {
		return false
	}
	run := columns / (columns & -columns)
	return run&(run+1) != 0
}

// hasPairBehind tells whether both pins right behind a fallen one stand.
func (s PinSet) hasPairBehind() bool {
	for i, pair := range behind {
		if s&(1<<i) == 0 && pair.Within(s) {
			return true
		}
	}
	return false
}

// column holds at n-1 the column of pin n, from the 7 pin's (0) to the 10 pin's
// (6): half a pin spacing, 6 inches, each.
var column = [10]uint{3, 2, 4, 1, 3, 5, 0, 2, 4, 6}

// behind holds at n-1 the two pins right behind pin n, for pins 1 to 6: the last
// row has none behind it.
var behind = [6]PinSet{
	Pins(2, 3), Pins(4, 5), Pins(5, 6), Pins(7, 8), Pins(8, 9), Pins(9, 10),
}
