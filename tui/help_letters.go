package tui

import "coach.settee/model"

// lettersInGeneral, axisHelp and cautions are common practice, no source.
const lettersInGeneral = "Letters are given against the student's level, whatever fell: A is what a player of that level does on " +
	"a good day. A fault is called once, on the axis where it began."

// axisHelp says what each letter means on each axis.
var axisHelp = []struct {
	name, sees string
	letters    []letterHelp
}{
	{"Balance", "from the first step up to the slide", []letterHelp{
		{model.A, "arrives at the line in balance, in time, as on a good day"},
		{model.B, "a small sway or a hurried step, gathered again before the line"},
		{model.C, "off balance at the line, and it costs the shot"},
		{model.D, "badly off balance: a saving step, a hand, the swing pulled along"},
		{model.F, "no balance: falls off the shot or stops"},
	}},
	{"Target", "where the ball crosses the arrows, against where it was meant", []letterHelp{
		{model.A, "across the board that was meant, as near as the level does on a good day"},
		{model.B, "a small miss: one step of the level (new 5 boards, developing 3, regular 2, above 1)"},
		{model.C, "two steps off: it costs"},
		{model.D, "three steps off: another line altogether"},
		{model.F, "nowhere near where it was meant"},
	}},
	{"Release", "the hand at the bottom of the swing", []letterHelp{
		{model.A, "leaves the hand clean and as the student means it, as on a good day"},
		{model.B, "a shade early, late or around the ball"},
		{model.C, "clearly early, late or turned, and the ball goes otherwise than meant"},
		{model.D, "badly off: grabbed, dropped or thrown up"},
		{model.F, "no release: the ball slips off or hangs"},
	}},
	{"Finish", "from the release until the ball is past the arrows", []letterHelp{
		{model.A, "held and quiet, then a step straight back"},
		{model.B, "held, with a small move before the ball is past the arrows"},
		{model.C, "not held: a step or a turn away too soon"},
		{model.D, "badly off: spun round or walked off with the swing"},
		{model.F, "no finish at all"},
	}},
}

// sizingUp says what the words of an intake go by; common practice, no source. Nobody is asked for a percentage.
var sizingUp = []string{
	"Swing or throw: with the usual picture about 70% of the effort comes from the legs; where more than half of it comes from " +
		"the upper body the ball is thrown; the best are near 90% legs.",
	"The first ten full racks seen after the warm-up are the student's baseline.",
}

// keptFacts say what a coach used to saving looks for.
var keptFacts = []string{
	"Every call is on disk before the header counts it: there is no key to save. An … is one that is not there yet.",
}

type letterHelp struct {
	letter model.Letter
	words  string
}

var cautions = []string{
	"Pain ends the exercise. What it is, and when to go on, is for a physician to say, not for the coach or for this program.",
	"A limit on how many balls a student throws is kept: the load counts every ball, warm-up and dead balls too.",
	"Power comes last: neither speed nor revs are asked of a student who is not yet in balance.",
	"Nobody goes past the foul line or reaches into the ball return or the pins. A lane that fails is for the center's staff.",
	"Others read this screen. Limits, levels and notes are not for every eye; a beginner is never told anything unkind.",
}
