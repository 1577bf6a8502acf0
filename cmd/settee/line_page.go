package main

import (
	"fmt"
	"io"
	"math"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// writePage writes a path for people. Friction is a guess, so that boards are told to a tenth and angles to a degree.
func (a lineAsked) writePage(w io.Writer, r lane.Release, path lane.Path) error {
	hand := model.Hand(a.hand)
	inside, outside := lane.Sides(hand)
	var p textPage
	p.flow("", "A %s-hander's line. Boards are counted from the %s, the student's own side, feet from the foul line.",
		hand, outside)
	p.WriteString("\n")
	row := func(of, format string, args ...any) {
		fmt.Fprintf(&p, "  %-12s %s\n", of, fmt.Sprintf(format, args...))
	}
	row("laydown", "board %.1f", r.Laydown)
	launch := heading(r.LaunchDeg, outside, inside)
	if a.byArrows {
		launch += fmt.Sprintf(", over board %.1f at %g ft", a.arrows, a.arrowsFt)
	}
	row("launch", "%s", launch)
	ft, board := path.Breakpoint()
	isOff := !lane.OnLane(board)
	for _, ft := range lineFt {
		row(fmt.Sprintf("at %g ft", ft), "%s", boardWords(path.BoardAt(ft)))
		isOff = isOff || !lane.OnLane(path.BoardAt(ft))
	}
	row("breakpoint", "%s", breakpointWords(ft, board))
	row("hit", "%s", hitWords(path))
	row("entry", "%s", heading(path.EntryDeg(), inside, outside))
	row("rolls", "%s", rollWords(path.RollFt()))
	row("at the pins", "%.1f mph, %.1f s after the foul line", path.SpeedAtPinsMPH(), path.Seconds())
	p.WriteString("\n")
	if isOff {
		p.flow("", "Off the lane is the gutter, and the ball stays there: nothing told beyond it happens.")
	}
	p.flow("", "%s", lane.LeftOut)
	p.flow("", "A board at the pins reckoned cold like this is worth little. How far two such lines lie apart is good to "+
		"tenths of a board: reckon both and compare.")
	_, err := io.WriteString(w, p.String())
	return err
}

// heading tells an angle to the boards by the side it goes to. A launch that was found by the arrows is not exactly 0.
func heading(deg float64, plus, minus string) string {
	switch {
	case math.Abs(deg) < 1e-6:
		return "along the boards"
	case deg < 0:
		return degreesWords(deg) + " to the " + minus
	}
	return degreesWords(deg) + " to the " + plus
}

// degreesWords tells the size of an angle, in whole degrees.
func degreesWords(deg float64) string {
	size := int(math.Round(math.Abs(deg)))
	if size == 0 {
		return "less than half a degree"
	}
	return "about " + model.NumberOf(size, "degree")
}

func boardWords(board float64) string {
	words := fmt.Sprintf("board %.1f", board)
	if !lane.OnLane(board) {
		words += ", off the lane"
	}
	return words
}

func breakpointWords(ft, board float64) string {
	switch ft {
	case 0:
		return "none, the ball is furthest out at the foul line"
	case lane.PinsFt:
		return "none, the ball is furthest out at the pins"
	}
	return fmt.Sprintf("%s, at %.0f ft", boardWords(board), ft)
}

func hitWords(path lane.Path) string {
	offset := path.PocketOffset()
	size := fmt.Sprintf("%.1f boards ", math.Abs(offset))
	switch {
	case !lane.OnLane(path.BoardAt(lane.PinsFt)):
		return "none, off the lane"
	case size == "0.0 boards ":
		return "the pocket"
	case offset < 0:
		return size + "light of the pocket"
	}
	return size + "high of the pocket"
}

func rollWords(ft float64) string {
	switch {
	case ft > lane.PinsFt:
		return "not yet at the pins, where it still slips"
	case ft == 0:
		return "from the foul line"
	}
	return fmt.Sprintf("from about %.0f ft", ft)
}
