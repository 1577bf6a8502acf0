package tui

import (
	"fmt"
	"strings"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// aimWords names the parts of a line that are known: "target 17, slide 34, breakpoint 8@43".
func aimWords(l model.Line) string {
	if l.IsZero() {
		return "no line set: c sets it"
	}
	var words []string
	say := func(before string, v model.Optional[float64], after string) {
		if v.Known {
			words = append(words, before+number(v.Value)+after)
		}
	}
	say("target ", l.Arrows, "")
	say("slide ", l.Slide, "")
	at := ""
	if l.BreakpointFt.Known {
		at = "@" + number(l.BreakpointFt.Value)
	}
	say("breakpoint ", l.Breakpoint, at)
	return strings.Join(words, ", ")
}

// aimLabel asks for a line.
func (k lineKnown) aimLabel(name string) string {
	label := fmt.Sprintf("%s on lane %d: arrows slide breakpoint", name, k.lane)
	if !k.aimed.IsZero() {
		label += " (. or left out as now: " + lineWords(k.aimed) + ")"
	}
	return label
}

// words says the move and what it goes by, the most needed first, in w cells.
func (p linePicture) words(w int) []string {
	t, a := p.theme, p.k.advice
	lines := p.big(w)
	for _, s := range []struct {
		with ink
		text string
	}{
		{t.strong, a.Reason}, {t.alert, warned(p.k.lineFirst())}, {t.alert, warned(a.Warning)}, {ink{}, chanceWords(a)}, {t.quiet, a.Rests}, {t.quiet, a.Note},
	} {
		lines = append(lines, told(s.with, s.text, w)...)
	}
	lines = append(lines, "")
	lines = append(lines, p.lanes(w)...)
	if a.Hint != "" {
		lines = append(lines, told(t.quiet, "the last leave: "+a.Hint, w)...)
	}
	lines = append(lines, "")
	lines = append(lines, p.legend(w)...)
	return append(lines, p.pathWords(w)...)
}

// big is the move for the hand.
func (p linePicture) big(w int) []string {
	with := p.theme.accent
	if p.k.advisesMove() {
		with = p.theme.alert
	}
	if p.k.advice.Silent {
		return told(p.theme.strong, strings.ToUpper(p.k.advice.Big), w)
	}
	drawn := bigWords(p.k.advice.Big, w, p.room()/3, p.theme.ascii)
	lines := make([]string, len(drawn))
	for i, line := range drawn {
		lines[i] = with.on(cut(line, w))
	}
	return lines
}

// lineFirst says what to do where a move is advised and no line is set that it would move.
func (k lineKnown) lineFirst() string {
	if !k.advisesMove() || !k.nothingToMove() {
		return ""
	}
	return "c sets the line first: there is none that enter could move"
}

// chanceWords says of what the chances are.
func chanceWords(a lane.Advice) string {
	if a.Chances == "" {
		return ""
	}
	return "within a board of the pocket: " + a.Chances
}

func warned(words string) string {
	if words == "" {
		return ""
	}
	return "! " + words
}

// told gives words in lines of w cells.
func told(with ink, words string, w int) []string {
	if words == "" {
		return nil
	}
	lines := wrap(clean(words), w)
	for i := range lines {
		lines[i] = with.on(lines[i])
	}
	return lines
}

// lanes says of both lanes what they and the student do, and what the evening has done to them.
func (p linePicture) lanes(w int) []string {
	t, k := p.theme, p.k
	lines := told(ink{}, k.advice.Here.Words(), w)
	if !k.alone {
		lines = append(lines, told(ink{}, k.advice.Other.Words(), w)...)
		lines = append(lines, told(ink{}, k.advice.PairWords, w)...)
	}
	for _, wear := range k.wear {
		if wear.Moved.Known {
			lines = append(lines, told(t.alert, warned(wear.Moved.Value.Words), w)...)
		}
	}
	lines = append(lines, told(t.quiet, k.wear[0].TransitionWords, w)...)
	thrown := fmt.Sprintf("balls tonight: lane %d %d, lane %d %d", k.wear[0].Lane, k.wear[0].Balls, k.wear[1].Lane, k.wear[1].Balls)
	return append(lines, told(t.quiet, thrown, w)...)
}

// legend says what the signs on the lane are.
func (p linePicture) legend(w int) []string {
	t, d := p.theme, p.k.drawn
	var lines []string
	add := func(with ink, sign rune, words string) {
		lines = append(lines, with.on(string(sign))+" "+t.quiet.on(cut(words, w-2)))
	}
	if d.Aimed != nil {
		add(t.accent, aimedSign, "the line aimed at")
	}
	if d.Moved != nil {
		add(t.alert, movedSign, "after the move; "+string(bothSign)+" both")
	}
	if len(d.Thrown) > 0 {
		add(t.quiet, thrownSign, fmt.Sprintf("the last %s, as read", plural(len(d.Thrown), "ball", "balls")))
	}
	if d.Computed != nil {
		add(ink{}, computedSign, "a path computed from the record")
	}
	below := fmt.Sprintf("below: %s's boards; over which boards balls went at the arrows", firstWord(p.name))
	return append(lines, told(t.quiet, below+p.k.notRead(), w)...)
}

// notRead tells of how many of the balls counted at the arrows only the aim is known, "" for none.
func (k lineKnown) notRead() string {
	placed, aimed := 0, 0
	for _, wear := range k.wear {
		placed, aimed = placed+wear.Placed, aimed+wear.Aimed
	}
	if aimed == 0 {
		return ""
	}
	return fmt.Sprintf(", %d of %d as aimed, not read", aimed, placed)
}

// pathWords says what the computed path leaves out, or what is missing for one.
func (p linePicture) pathWords(w int) []string {
	if missing := p.k.drawn.Missing; len(missing) > 0 {
		return told(p.theme.quiet, "no path is computed without "+strings.Join(missing, ", "), w)
	}
	return told(p.theme.quiet, lane.LeftOut, w)
}
