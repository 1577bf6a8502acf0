package model_test

import (
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"coach.settee/model"
)

// closing gives a student's line of the closing.
func (l *lesson) closing(id model.ID) model.ClosingLine {
	l.t.Helper()
	for _, line := range l.Closing() {
		if line.Student == id {
			return line
		}
	}
	l.t.Fatalf("no line of %s", id)
	return model.ClosingLine{}
}

func (l *lesson) asks(id model.ID, want string) {
	l.t.Helper()
	if got := strings.Join(l.closing(id).Asks(), ", "); got != want {
		l.t.Errorf("of %s is asked %q, want %q", id, got, want)
	}
}

// aGameOf is a whole game of 12 strikes with letters.
const aGame = "x x x x x x x x x x x x"

func TestTheClosing(t *testing.T) {
	l := beginLesson(t, "Ada 172")
	l.press("Gw⏎ x x x").press("Gg⏎").press(aGame)
	// The second game is a strike, an open frame not seen, a spare with one fault and a full rack with two.
	l.press("x z=7 z=2 r=9 / rrx D")
	got := l.closing("Ada")
	want := model.ClosingLine{
		Student: "Ada", Seat: l.seat("Ada"), Load: 3 + 12 + 7, Goal: 10, Good: 12 + 2, Seen: 12 + 3, Unseen: 1,
		Games: []model.ClosingGame{
			{Title: "game 1", Total: model.Known(300), Finished: true},
			// 19 after the strike, 28 after the open frame; the spare waits for a strike and is 20 more.
			{Title: "game 2", Total: model.Known(48)},
		},
		NoCue: true, NoNote: true,
	}
	if diff := gocmp.Diff(want, got); diff != "" {
		t.Errorf("the line (-want +got):\n%s", diff)
	}
	l.asks("Ada", "game 2 unfinished, 1 not seen, no homework, no date, no cue, no note, no sentence")
	l.press("G10 because a knee⏎ x")
	got = l.closing("Ada")
	if g := got.Games[1]; len(got.Games) != 2 || g.Finished || !g.Stopped || got.Load != 23 || got.Seen != 15 {
		t.Errorf("with the game stopped for a drill the line is %+v", got)
	}
	l.asks("Ada", "1 not seen, no homework, no date, no cue, no note, no sentence")
}

func TestWhatTheClosingAsks(t *testing.T) {
	t.Run("nothing where all is there", func(t *testing.T) {
		l := beginLesson(t, "Ada 172")
		l.press("Cslow⏎ Nwell held⏎").press(aGame)
		l.mustKeep(l.SetHomework("Ada", "ten at the 10 pin"))
		l.mustKeep(l.SetNext("2026-03-11", "Ada"))
		l.asks("Ada", "no sentence")
		l.mustKeep(l.SetSentence("Ada", "well held"))
		l.asks("Ada", "")
		if got := l.closing("Ada").Asks(); got != nil {
			t.Errorf("asked is %v", got)
		}
	})
	t.Run("a cue taken off and a note on one ball are there", func(t *testing.T) {
		l := beginLesson(t, "Ada 172")
		l.press("Cslow⏎ x C⏎ Nlate⏎ x")
		if line := l.closing("Ada"); line.NoCue || line.NoNote {
			t.Errorf("the line is %+v", line)
		}
	})
	t.Run("a cue for the next ball is there", func(t *testing.T) {
		l := beginLesson(t, "Ada 172")
		l.press("x Cslow⏎")
		if line := l.closing("Ada"); line.NoCue || !line.NoNote {
			t.Errorf("the line is %+v", line)
		}
	})
	t.Run("a total is not known before the first frame's", func(t *testing.T) {
		l := beginLesson(t, "Ada 172")
		l.press("x")
		if got := l.closing("Ada").Games[0].Total; got.Known {
			t.Errorf("after a strike the total is %d", got.Value)
		}
		l.press("-⏎ -⏎")
		if got := l.closing("Ada").Games[0].Total; got != model.Known(10) {
			t.Errorf("after a strike and nothing the total is %v", got)
		}
	})
	t.Run("who did not bowl", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo")
		l.press("Gg⏎")
		l.asks("Ada", "no date")
		l.mustKeep(l.SetNext("2026-03-11", "Bo"))
		l.asks("Bo", "")
		if got := l.closing("Ada").Games; len(got) != 0 {
			t.Errorf("games without a ball: %v", got)
		}
	})
	t.Run("the goal is of the level in force, the lines in screen order", func(t *testing.T) {
		l := beginLesson(t, "Ada 100, Bo 215 | Cy")
		var ids []string
		for _, line := range l.Closing() {
			ids = append(ids, string(line.Student))
		}
		if got := strings.Join(ids, " "); got != "Ada Bo Cy" {
			t.Errorf("the lines are of %s", got)
		}
		if a, b := l.closing("Ada").Goal, l.closing("Bo").Goal; a != 6 || b != 14 {
			t.Errorf("the goals are %v and %v", a.Shots(), b.Shots())
		}
	})
	t.Run("who has no seat any more", func(t *testing.T) {
		l := beginLesson(t, "Ada, Bo, Cy")
		l.press("x x x")
		k := l.asKept()
		k.Log = nil
		k.Session.Roster = k.Session.Roster[1:2]
		e, err := model.Resume(k)
		if err != nil {
			t.Fatal(err)
		}
		var said []string
		for _, line := range e.Closing() {
			said = append(said, string(line.Student)+": "+strings.Join(line.Asks(), ", "))
		}
		want := "Bo: game 1 unfinished, no homework, no date, no cue, no note, no sentence; " +
			"Ada: game 1 unfinished, no cue, no note; Cy: game 1 unfinished, no cue, no note"
		if got := strings.Join(said, "; "); got != want {
			t.Errorf("asked is %s, want %s", got, want)
		}
	})
}

func TestAgainstTheOverhead(t *testing.T) {
	game := func(title string, total int) model.ClosingGame {
		return model.ClosingGame{Title: title, Total: model.Known(total), Finished: true}
	}
	open := model.ClosingGame{Title: "game 3", Total: model.Known(48)}
	unknown := model.ClosingGame{Title: "game 2"}
	one, two := game("game 1", 143), game("game 2", 152)
	for _, c := range []struct {
		games []model.ClosingGame
		text  string
		words string
		agree bool
	}{
		{[]model.ClosingGame{one}, "143", "it agrees", true},
		{[]model.ClosingGame{one, two}, "143 152", "both agree", true},
		{[]model.ClosingGame{one, two}, " 143, 152 ", "both agree", true},
		{[]model.ClosingGame{one, two, open}, "143 152 48", "all 3 agree", true},
		{[]model.ClosingGame{one, two, open}, "143 152", "both agree", true},
		{[]model.ClosingGame{one, two}, "143 157", "game 2: 152 here, 157 on the overhead", false},
		{[]model.ClosingGame{one, two}, "0 300", "game 1: 143 here, 0 on the overhead; game 2: 152 here, 300 on the overhead", false},
		{[]model.ClosingGame{one, two}, "143", "game 2: 152 here, nothing typed", false},
		{[]model.ClosingGame{one, unknown}, "143 9", "game 2: not known here, 9 on the overhead", false},
		{[]model.ClosingGame{one, unknown}, "143 0", "game 2: not known here, 0 on the overhead", false},
		{[]model.ClosingGame{one}, "143 152", "1 game here, 2 on the overhead", false},
		{nil, "143", "0 games here, 1 on the overhead", false},
	} {
		words, agree, err := model.ClosingLine{Games: c.games}.Against(c.text)
		if words != c.words || agree != c.agree || err != nil {
			t.Errorf("%q against %v is %q, %v, %v, want %q", c.text, c.games, words, agree, err, c.words)
		}
	}
	for text, want := range map[string]string{
		"": "no total is typed", " , ": "no total is typed", "143 x": `"x" is no total`, "301": `"301" is no total`,
		"-1": `"-1" is no total`, "143.5": `"143.5" is no total`, "99999999999999999999": "is no total",
	} {
		words, agree, err := model.ClosingLine{Games: []model.ClosingGame{one}}.Against(text)
		if words != "" || agree || err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is %q, %v, %v, want words like %q", text, words, agree, err, want)
		}
	}
}

// What the closing counts is what the deliveries say.
func TestTheClosingCounts(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := beginLesson(rt, "Ada 172, Bo | Cy 215")
		l.run(evenings(rt))
		for _, line := range l.Closing() {
			var load, good, seen, unseen int
			for _, s := range l.Sheets(line.Student) {
				load += len(s.Deliveries)
				for i, d := range s.Deliveries {
					if s.Game.Kind != model.KindGame || d.Dead || !s.Racks[i].Full {
						continue
					}
					switch {
					case !d.Seen:
						unseen++
					case d.Good():
						good++
						fallthrough
					default:
						seen++
					}
				}
			}
			if got := [4]int{line.Load, line.Good, line.Seen, line.Unseen}; got != [4]int{load, good, seen, unseen} {
				rt.Fatalf("%s: %v, want %v", line.Student, got, [4]int{load, good, seen, unseen})
			}
			for _, g := range line.Games {
				if g.Finished && !g.Total.Known || g.Finished && g.Stopped {
					rt.Fatalf("%s: %+v", line.Student, g)
				}
			}
		}
	})
}
