package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// placesToPress are the keys that lead to every screen and to what lies over one.
var placesToPress = []string{
	"", "x", "7", "b", "x,", "=", "d", "e", "eE", "ex", "g", "xg", "xgb", "xgm", "gm", "xgk", "y", "ys", "ym", "s", "si", "s/", "sh", "xsh",
	"c", "cS", "v", "xvv", "xgv", "gv", "M", "Mt", "?", "?/", "<esc>", "C", "Cslow", "q", "cE", "xexx", "exxy<nul>", "exxy<nul>s",
	"exxy<nul>c", "exxy<nul>M", "exxy<nul>E", "exxy<nul>g",
}

// keysToPress are the keys of a keyboard, but for those that end the program, suspend it or draw it anew.
func keysToPress() []tea.KeyMsg {
	var keys []tea.KeyMsg
	for r := ' '; r < 0x7f; r++ {
		keys = append(keys, single(r))
	}
	for _, r := range "é§çàèß€" {
		keys = append(keys, single(r))
	}
	for t := tea.KeyCtrlAt; t <= tea.KeyCtrlUnderscore; t++ {
		if t != tea.KeyCtrlC && t != tea.KeyCtrlL && t != tea.KeyCtrlZ {
			keys = append(keys, tea.KeyMsg{Type: t})
		}
	}
	for _, t := range []tea.KeyType{
		tea.KeyUp, tea.KeyDown, tea.KeyLeft, tea.KeyRight, tea.KeyHome, tea.KeyEnd, tea.KeyPgUp, tea.KeyPgDown, tea.KeyInsert,
		tea.KeyDelete, tea.KeyBackspace, tea.KeyShiftTab, tea.KeyF1, tea.KeyF3, tea.KeyF5, tea.KeyF12, tea.KeyShiftUp, tea.KeyCtrlHome,
	} {
		keys = append(keys, tea.KeyMsg{Type: t})
	}
	return keys
}

// TestEveryKeySaysWhatItDid presses every key on every screen: what is shown has changed, or it is said on the screen why not.
func TestEveryKeySaysWhatItDid(t *testing.T) {
	keys := keysToPress()
	for _, place := range append(placesToPress, introPlace) {
		t.Run(place, func(t *testing.T) {
			open := func() *appTest {
				if place == introPlace {
					return startApp(t, &fakeReader{})
				}
				d := onBoard(t, "Ada 120", "Bo 172").press(place)
				if d.question == nil {
					d.status = status{}
				}
				return d
			}
			d := open()
			before := d.show()
			for _, k := range keys {
				d.send(k)
				after := d.show()
				said := after != before || d.quit || d.question != nil || d.board.lettered || d.board.counting
				if !said {
					t.Errorf("%s changes nothing and says nothing", keyName(k))
				}
				if after != before || d.quit || d.board.lettered || d.board.counting {
					d = open()
				}
			}
		})
	}
}

const introPlace = "the introduction"

// TestEmptyScreensSayWhatToPress looks for a key in what each screen says that has nothing to show, and presses it.
func TestEmptyScreensSayWhatToPress(t *testing.T) {
	for _, c := range []struct{ what, keys, words, then, leads string }{
		{"nothing kept", "<esc>", "n   begins one", "n", "lanes tonight"},
		{"nobody on the board", "7<enter><enter>", "A adds a student", "A", "student on 7/8"},
		{"nobody in the evening", "7<enter><enter>e", "a adds a student", "a", "student on 7/8"},
		{"nobody on the strip", "7<enter><enter>g", "esc goes to the board, A there", "<esc>A", "student on 7/8"},
		{"nothing on the strip", "7<enter>Ada 120<enter><enter>g", "esc goes to the board, where", "<esc>", "strike"},
		{"nobody on the line", "7<enter><enter>y", "esc goes to the board, A there", "<esc>A", "student on 7/8"},
		{"no student", "7<enter><enter>s", "n   takes one in", "n", "name, average"},
		{"no cue", "7<enter><enter>c", "a adds a cue", "a", "axis"},
		{"no evening on the lane", "<esc>y", "e and then n begins one", "en", "lanes tonight"},
		{"no earlier evening", "<esc>E", "n begins one", "n", "lanes tonight"},
	} {
		t.Run(c.what, func(t *testing.T) {
			startApp(t, &fakeReader{}).press(c.keys).says(c.words).press(c.then).says(c.leads)
		})
	}
}

func TestGoalReached(t *testing.T) {
	// Ada's level has a goal of four.
	reached := "Ada: goal of 4 reached"
	d := onBoard(t, "Ada 130").press("xxbbx").silent("goal of")
	d.press("x").silent("goal of").press("x").says(reached)
	d.press("x").silent(reached)
	t.Run("taken back and bowled again it is said again", func(t *testing.T) {
		d := onBoard(t, "Ada 130").press("xxxx").says(reached)
		d.press("<bs>x").says(reached)
	})
	t.Run("a good spare shot is not what reaches it", func(t *testing.T) {
		d := onBoard(t, "Ada 130").press("xxx")
		d.press("bb7<enter>").silent(reached).press("x").silent(reached)
		d.press("x").says(reached)
	})
	t.Run("once in each game, said with the game's end", func(t *testing.T) {
		d := onBoard(t, "Ada 130").press("xxxxzxzxzxzxzxzxzxzx").says("is over").silent(reached)
		d.press("xxx").silent(reached).press("x").says(reached)
	})
	t.Run("not in a drill", func(t *testing.T) {
		onBoard(t, "Ada 130").press("G9<enter>xxxx").silent(reached)
	})
}
