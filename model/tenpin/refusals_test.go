package tenpin_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"coach.settee/model/tenpin"
)

// perfectly is twelve strikes and more.
func perfectly(more ...tenpin.Ball) []tenpin.Ball {
	balls := slices.Repeat([]tenpin.Ball{fell(10)}, 12)
	return append(balls, more...)
}

var impossibleBalls = []struct {
	name  string
	balls []tenpin.Ball
	want  tenpin.Error
	text  string
}{
	{"eleven on the first ball", []tenpin.Ball{fell(11)},
		tenpin.Error{Frame: 1, InFrame: 1, Ball: 1, Reason: "11 pins cannot fall where 10 stand"},
		"frame 1, ball 1: 11 pins cannot fall where 10 stand"},
	{"eleven in a frame", []tenpin.Ball{fell(10), fell(9), fell(2)},
		tenpin.Error{Frame: 2, InFrame: 2, Ball: 3, Reason: "2 pins cannot fall where 1 stands"},
		"frame 2, ball 2: 2 pins cannot fall where 1 stands"},
	{"fewer than none", []tenpin.Ball{fell(-1)},
		tenpin.Error{Frame: 1, InFrame: 1, Ball: 1, Reason: "-1 pins cannot fall"},
		"frame 1, ball 1: -1 pins cannot fall"},
	{"after the end", perfectly(fell(1)),
		tenpin.Error{Frame: 10, InFrame: 0, Ball: 13, Reason: "a ball after the game's end"},
		"ball 13: a ball after the game's end"},
	{"a third ball that was not earned in the tenth", append(perfectly()[:9], fell(3), fell(4), fell(1)),
		tenpin.Error{Frame: 10, InFrame: 0, Ball: 12, Reason: "a ball after the game's end"},
		"ball 12: a ball after the game's end"},
	{"pins with a foul", []tenpin.Ball{{Pins: 3, Foul: true}},
		tenpin.Error{Frame: 1, InFrame: 1, Ball: 1, Reason: "pins that fall with a foul do not count"},
		"frame 1, ball 1: pins that fall with a foul do not count"},
	{"a pin that was not standing", []tenpin.Ball{leaving(8, 4, 10), leaving(1, 7)},
		tenpin.Error{Frame: 1, InFrame: 2, Ball: 2, Reason: "pin 7 was not standing"},
		"frame 1, ball 2: pin 7 was not standing"},
	{"a pin beyond ten", []tenpin.Ball{{Pins: 9, After: tenpin.Standing(1 << 10)}},
		tenpin.Error{Frame: 1, InFrame: 1, Ball: 1, Reason: "the leave names a pin beyond 10"},
		"frame 1, ball 1: the leave names a pin beyond 10"},
	{"more named than are left", []tenpin.Ball{leaving(8, 4, 7, 10)},
		tenpin.Error{Frame: 1, InFrame: 1, Ball: 1, Reason: "8 pins fell of 10, which leaves 2 standing, and 3 are named"},
		"frame 1, ball 1: 8 pins fell of 10, which leaves 2 standing, and 3 are named"},
	{"fewer named than are left, after an unknown leave", []tenpin.Ball{fell(4), leaving(1, 4)},
		tenpin.Error{Frame: 1, InFrame: 2, Ball: 2, Reason: "1 pin fell of 6, which leaves 5 standing, and 1 is named"},
		"frame 1, ball 2: 1 pin fell of 6, which leaves 5 standing, and 1 is named"},
	{"a foul that changes the rack", []tenpin.Ball{{Foul: true, After: only(7)}},
		tenpin.Error{Frame: 1, InFrame: 1, Ball: 1, Reason: "0 pins fell of 10, which leaves 10 standing, and 1 is named"},
		"frame 1, ball 1: 0 pins fell of 10, which leaves 10 standing, and 1 is named"},
	{"a pin left by a strike", []tenpin.Ball{leaving(10, 7)},
		tenpin.Error{Frame: 1, InFrame: 1, Ball: 1, Reason: "10 pins fell of 10, which leaves 0 standing, and 1 is named"},
		"frame 1, ball 1: 10 pins fell of 10, which leaves 0 standing, and 1 is named"},
	{"a split on a second ball", []tenpin.Ball{fell(4), {Pins: 4, Split: tenpin.SplitYes}},
		tenpin.Error{Frame: 1, InFrame: 2, Ball: 2, Reason: "only a ball at a full rack leaves a split"},
		"frame 1, ball 2: only a ball at a full rack leaves a split"},
	{"a split of one pin", []tenpin.Ball{{Pins: 9, Split: tenpin.SplitYes}},
		tenpin.Error{Frame: 1, InFrame: 1, Ball: 1, Reason: "fewer than two pins are no split"},
		"frame 1, ball 1: fewer than two pins are no split"},
	{"a split of all ten", []tenpin.Ball{{Split: tenpin.SplitYes}},
		tenpin.Error{Frame: 1, InFrame: 1, Ball: 1, Reason: "it is no split while the head pin stands"},
		"frame 1, ball 1: it is no split while the head pin stands"},
}

func TestScoreRefuses(t *testing.T) {
	for _, test := range impossibleBalls {
		t.Run(test.name, func(t *testing.T) {
			card, err := tenpin.Score(test.balls)
			var refused *tenpin.Error
			if !errors.As(err, &refused) {
				t.Fatalf("got %v, no refusal", err)
			}
			if *refused != test.want || err.Error() != test.text {
				t.Errorf("got %+v, %q", *refused, err)
			}
			if card.Frames != nil || card.Score != 0 {
				t.Errorf("a card all the same: %+v", card)
			}
		})
	}
}

func TestNextRefusesAndStays(t *testing.T) {
	p := parse(t, "X 8").At
	got, points, err := p.Next(fell(3))
	if err == nil || err.Error() != "frame 2, ball 2: 3 pins cannot fall where 2 stand" {
		t.Errorf("got %v", err)
	}
	if got != p || points != 0 {
		t.Errorf("moved to %+v with %d", got, points)
	}
	if _, _, err := parse(t, strings.Repeat("X", 12)).At.Next(fell(0)); err == nil || err.Error() != "a ball after the game's end" {
		t.Errorf("after the end: %v", err)
	}
}

func TestParseRefuses(t *testing.T) {
	tests := []struct {
		name, game    string
		frame, inGame int
		text          string
	}{
		{"eleven pins", "X 74", 2, 3, "frame 2, ball 2: 4 pins cannot fall where 3 stand (character 4)"},
		{"ten pins as two counts", "73", 1, 2, "frame 1, ball 2: '3' at character 2 is all that stands; a spare is /"},
		{"a spare on a first ball", "9- /", 2, 3, "frame 2, ball 1: '/' at character 4 is a spare on a first ball; a strike is X"},
		{"a spare after a strike in the tenth", strings.Repeat("X", 10) + "/", 10, 11,
			"frame 10, ball 2: '/' at character 11 is a spare on a first ball; a strike is X"},
		{"a strike on a second ball", "7X", 1, 2, "frame 1, ball 2: 'X' at character 2 is no strike: 3 stand"},
		{"a strike at one pin", "9x", 1, 2, "frame 1, ball 2: 'x' at character 2 is no strike: 1 stands"},
		{"a strike after a foul", "FX", 1, 2, "frame 1, ball 2: 'X' at character 2 is no strike: ten on a spare shot are a spare, /"},
		{"a ball after the end", strings.Repeat("X", 12) + " X", 10, 13,
			"ball 13: 'X' at character 14 is a ball after the game's end"},
		{"two games", strings.Repeat("9-", 10) + "\n" + strings.Repeat("9-", 10), 10, 21,
			"ball 21: '9' at character 22 is a ball after the game's end"},
		{"a third ball that was not earned", strings.Repeat("X", 9) + "721", 10, 12,
			"ball 12: '1' at character 12 is a ball after the game's end"},
		{"an unknown sign", "X 7?", 2, 3,
			"frame 2, ball 2: '?' at character 4 is no sign of the notation: X / - F, 1 to 9, or a split's count in parentheses"},
		{"characters, not bytes", "9\u20137", 1, 2,
			"frame 1, ball 2: '\u2013' at character 2 is no sign of the notation: X / - F, 1 to 9, or a split's count in parentheses"},
		{"a control character", "X\x1b[2J", 2, 2,
			`frame 2, ball 1: '\x1b' at character 2 is no sign of the notation: X / - F, 1 to 9, or a split's count in parentheses`},
		{"ten in figures", "10", 1, 2,
			"frame 1, ball 2: '0' at character 2 is no sign of the notation: X / - F, 1 to 9, or a split's count in parentheses"},
		{"parentheses left open", "X (8", 2, 2, "frame 2, ball 1: '(' at character 3 is not closed after the count"},
		{"parentheses open at the end", "X (", 2, 2, "frame 2, ball 1: '(' at character 3 is not closed"},
		{"parentheses open over the next ball", "(8/", 1, 1, "frame 1, ball 1: '(' at character 1 is not closed after the count"},
		{"parentheses closed only", "8)", 1, 2,
			"frame 1, ball 2: ')' at character 2 is no sign of the notation: X / - F, 1 to 9, or a split's count in parentheses"},
		{"a strike in parentheses", "(X)", 1, 1, "frame 1, ball 1: 'X' at character 2 is no count of a split: 1 to 8"},
		{"one pin left in parentheses", "X (9)", 2, 2, "frame 2, ball 1: fewer than two pins are no split (character 3)"},
		{"a second ball in parentheses", "7(2)", 1, 2, "frame 1, ball 2: only a ball at a full rack leaves a split (character 2)"},
		{"more than stands in parentheses", "7(8)", 1, 2, "frame 1, ball 2: 8 pins cannot fall where 3 stand (character 2)"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			card, err := tenpin.Parse(test.game)
			var refused *tenpin.Error
			if !errors.As(err, &refused) {
				t.Fatalf("got %v and %+v, no refusal", err, card)
			}
			if err.Error() != test.text || refused.Frame != test.frame || refused.Ball != test.inGame {
				t.Errorf("got frame %d, ball %d of the game: %q", refused.Frame, refused.Ball, err)
			}
		})
	}
}

func TestParseFromRefuses(t *testing.T) {
	tests := []struct {
		name, before, game string
		inGame             int
		text               string
	}{
		{"eleven pins", "X X 7", "2 X 8 9", 4, "frame 5, ball 2: 9 pins cannot fall where 2 stand (character 7)"},
		{"a first ball where a second is due", "X X 7", "X", 1, "frame 3, ball 2: 'X' at character 1 is no strike: 3 stand"},
		{"after the end", strings.Repeat("X", 11), "9 8", 2, "ball 2: '8' at character 3 is a ball after the game's end"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			balls, err := tenpin.ParseFrom(parse(t, test.before).At, test.game)
			var refused *tenpin.Error
			if !errors.As(err, &refused) {
				t.Fatalf("got %v and %+v, no refusal", err, balls)
			}
			if err.Error() != test.text || refused.Ball != test.inGame || balls != nil {
				t.Errorf("got %+v, ball %d: %q", balls, refused.Ball, err)
			}
		})
	}
}

func TestParseFromReads(t *testing.T) {
	got, err := tenpin.ParseFrom(parse(t, "X X 7").At, "/ (8) - F")
	want := []tenpin.Ball{fell(3), {Pins: 8, Split: tenpin.SplitYes}, fell(0), foul}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("got %+v, %v", got, err)
	}
}

func TestParseReads(t *testing.T) {
	const worked = "X X X 72 (8)/ F9 X 7/ 9- XX8"
	tests := []struct{ name, game, want string }{
		{"frames parted by spaces", worked, worked},
		{"balls parted by spaces", "X X X 7 2 (8) / F 9 X 7 / 9 - X X 8", worked},
		{"no spaces", "XXX72(8)/F9X7/9-XX8", worked},
		{"small letters", "xxx72(8)/f9x7/9-xx8", worked},
		{"spaces of every kind", "\tX\u00a0X\nX  72 ( 8 )/F9X7/9-XX8 ", worked},
		{"gutter balls", "G/ gG 9g", "-/ -- 9-"},
		{"a game in progress", "X 7", "X 7"},
		{"no ball yet", " ", ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := parse(t, test.game).Notation(); got != test.want {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}

// Marks of a frame that was put together by hand stop where no ball can follow.
func TestMarksOfNoFrame(t *testing.T) {
	f := tenpin.Frame{Balls: []tenpin.Ball{fell(7), fell(4)}}
	if got := f.Notation(); got != "7" {
		t.Errorf("got %q", got)
	}
}
