package insight

import (
	"fmt"
	"slices"
	"strings"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// SparesMethod names how the spares were parted.
const SparesMethod = "cleared of tried; splits by the pins that stood"

// Spares are the spare shots made of those tried, seen or not.
type Spares struct {
	// Single, Multi and Split part them by what stood, ten pins after a gutter ball or a foul as Multi; Unknown are leaves of
	// more than one pin that were not named. A split is one by tenpin.PinSet.IsSplit.
	Single, Multi, Split, Unknown Part
	// Leaves are the named leaves, the most frequent first, those equally frequent by their pins. Ten pins are one of them.
	Leaves []LeaveCount
	// Open are the open frames, without a strike or a spare, of those that were finished.
	Open Part
}

// LeaveCount is one leave.
type LeaveCount struct {
	Leave tenpin.PinSet
	Made  Part
}

// All gives all spare shots.
func (s Spares) All() Part {
	var all Part
	for _, p := range []Part{s.Single, s.Multi, s.Split, s.Unknown} {
		all.N += p.N
		all.Of += p.Of
	}
	return all
}

// Words gives the spares made by kind of leave: "spares 9 of 14: single pins 6 of 8, more 3 of 5, splits 0 of 1".
func (s Spares) Words() string {
	all := s.All()
	if all.Of == 0 {
		return "no spare shots"
	}
	var kinds []string
	for _, k := range []struct {
		name string
		made Part
	}{{"single pins", s.Single}, {"more", s.Multi}, {"splits", s.Split}, {"unnamed", s.Unknown}} {
		if k.made.Of > 0 {
			kinds = append(kinds, k.name+" "+k.made.String())
		}
	}
	return fmt.Sprintf("spares %s: %s", all, strings.Join(kinds, ", "))
}

// leastMisses are the misses from which a leave is told of as missed: once is no habit (invented).
const leastMisses = 2

// WordsMissed names the leave missed most often, "missed most: the 10 pin, 3 times of 5"; "" where none was missed twice.
// Ten pins after a gutter ball are no leave to practise.
func (s Spares) WordsMissed() string {
	var worst LeaveCount
	for _, l := range s.Leaves {
		if l.Leave != tenpin.AllPins && l.missed() > worst.missed() {
			worst = l
		}
	}
	if worst.missed() < leastMisses {
		return ""
	}
	return fmt.Sprintf("missed most: %s, %d times of %d", worst.Leave.Words(), worst.missed(), worst.Made.Of)
}

// WordsOpen gives the open frames: "open frames 4 of 10".
func (s Spares) WordsOpen() string {
	if s.Open.Of == 0 {
		return "no finished frames"
	}
	return "open frames " + s.Open.String()
}

func (l LeaveCount) missed() int { return l.Made.Of - l.Made.N }

func sparesOf(games []model.DatedSheet) Spares {
	var s Spares
	leaves := map[tenpin.PinSet]Part{}
	for x := range eachShot(games) {
		if x.rack.Full {
			continue
		}
		kind := s.kind(x.rack)
		*kind = kind.with(x.cleared(), true)
		if stood := x.rack.Standing; stood.Known {
			leaves[stood.Pins] = leaves[stood.Pins].with(x.cleared(), true)
		}
	}
	for leave, made := range leaves {
		s.Leaves = append(s.Leaves, LeaveCount{leave, made})
	}
	slices.SortFunc(s.Leaves, func(a, b LeaveCount) int {
		if a.Made.Of != b.Made.Of {
			return b.Made.Of - a.Made.Of
		}
		return slices.Compare(a.Leave.Numbers(), b.Leave.Numbers())
	})
	for _, g := range games {
		s.addFrames(g.Card)
	}
	return s
}

func (s *Spares) kind(r model.Rack) *Part {
	switch {
	case r.Count == 1:
		return &s.Single
	case !r.Standing.Known:
		return &s.Unknown
	case r.Standing.Pins.IsSplit():
		return &s.Split
	}
	return &s.Multi
}

// addFrames counts the finished frames of a card.
func (s *Spares) addFrames(c tenpin.Card) {
	for i, f := range c.Frames {
		if !c.Complete && i+1 >= c.At.Frame() {
			return
		}
		fell := 0
		for _, b := range f.Balls[:min(2, len(f.Balls))] {
			fell += b.Pins
		}
		s.Open = s.Open.with(fell < 10, true)
	}
}
