package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/google/go-cmp/cmp"
)

func TestUnroll(t *testing.T) {
	typed := func(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s)} }
	alt := func(k tea.KeyMsg) tea.KeyMsg { k.Alt = true; return k }
	pasted := func(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s), Paste: true} }
	space := tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	for name, c := range map[string]struct {
		msg   tea.KeyMsg
		want  []string
		paste bool
	}{
		"one key":                    {typed("x"), []string{"x"}, false},
		"joined keys":                {typed("bbx"), []string{"b", "b", "x"}, false},
		"joined keys of any script":  {typed("é中1"), []string{"é", "中", "1"}, false},
		"space":                      {space, []string{" "}, false},
		"space among joined keys":    {typed("1 2"), []string{"1", " ", "2"}, false},
		"named key":                  {tea.KeyMsg{Type: tea.KeyEnter}, []string{"enter"}, false},
		"esc":                        {tea.KeyMsg{Type: tea.KeyEsc}, []string{"esc"}, false},
		"alt and a rune":             {alt(typed("x")), []string{"esc", "x"}, false},
		"alt and space":              {alt(space), []string{"esc", " "}, false},
		"alt and a named key":        {alt(tea.KeyMsg{Type: tea.KeyUp}), []string{"esc", "up"}, false},
		"alt and esc":                {alt(tea.KeyMsg{Type: tea.KeyEsc}), []string{"esc", "esc"}, false},
		"no runes":                   {typed(""), nil, false},
		"paste":                      {pasted("12345"), nil, true},
		"paste of one rune":          {pasted("x"), nil, true},
		"empty paste":                {pasted(""), nil, true},
		"burst":                      {pasted("\x00b x/"), []string{"b", " ", "x", "/"}, false},
		"burst with keys of control": {pasted("\x00-\r1\t2\x7f\n\b"), []string{"-", "enter", "1", "tab", "2", "backspace", "ctrl+j", "ctrl+h"}, false},
	} {
		t.Run(name, func(t *testing.T) {
			keys, paste := unroll(c.msg)
			var got []string
			for _, key := range keys {
				got = append(got, key.String())
				if key.Alt || key.Paste || len(key.Runes) > 1 || key.String() == " " && key.Type != tea.KeySpace {
					t.Errorf("%#v is not a key of its own", key)
				}
			}
			if diff := cmp.Diff(c.want, got); diff != "" || paste != c.paste {
				t.Errorf("paste %v, want %v; keys (-want +got):\n%s", paste, c.paste, diff)
			}
		})
	}
}
