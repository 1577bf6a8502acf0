package tui

import (
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"coach.settee/model"
)

// everyTable gives the bindings of a screen that are asked for the same keys at once: its own keys hide the letters of other
// screens.
func everyTable(d *appTest, s screen) table {
	letters := slices.DeleteFunc(screenKeys(d.screens), func(b binding) bool {
		_, own := s.table().find(b.keys[0])
		return own
	})
	return slices.Concat(alwaysKeys, anywhereKeys, letters, s.table())
}

func TestBindings(t *testing.T) {
	d := onBoard(t, "Ada 120")
	for _, s := range d.screens {
		t.Run(s.title()+" has no key twice", func(t *testing.T) {
			owner := map[string]string{}
			for _, b := range everyTable(d, s) {
				for _, k := range b.keys {
					if other, twice := owner[k]; twice {
						t.Errorf("%s is %q and %q", k, other, b.help)
					}
					owner[k] = b.help
				}
			}
		})
		t.Run(s.title()+" has whole records", func(t *testing.T) {
			for _, b := range everyTable(d, s) {
				if len(b.keys) == 0 || b.help == "" || b.act == nil || !slices.Contains(groups, b.group) {
					t.Errorf("the record of %v is not whole", b.keys)
				}
			}
		})
	}
	t.Run("letters of the menu are free on the board", func(t *testing.T) {
		for _, s := range d.screens {
			if _, taken := d.board.table().find(s.letter()); taken {
				t.Errorf("%s of %s is a key of the board", s.letter(), s.title())
			}
		}
	})
	t.Run("letters of the menu are free on the evening's screen, but for the glance's", func(t *testing.T) {
		for _, s := range d.screens {
			if _, taken := d.session.table().find(s.letter()); taken && s != screen(d.glance) {
				t.Errorf("%s of %s is a key of the evening", s.letter(), s.title())
			}
		}
	})
	t.Run("the board has every key of grading", func(t *testing.T) {
		keys := strings.Split("btrfBTRFioph lx/1234567890-=!z,OCNLZ@WPAVGUD", "")
		for i, k := range keys {
			if k == " " {
				keys[i] = "space"
			}
		}
		for _, k := range append(keys, "enter", "backspace", "tab", "shift+tab", "up", "down", "left", "right", "esc") {
			if _, ok := d.board.table().find(k); !ok {
				t.Errorf("%s does nothing", k)
			}
		}
	})
}

// TestHints looks at the hint line of every moment in the narrowest window.
func TestHints(t *testing.T) {
	for _, c := range []struct {
		moment      moment
		names, keys string
		words       []string
	}{
		{momentFullRack, "Ada 120", "", []string{"x strike", "1-0 left", "- none", "lower", "? keys"}},
		{momentSpareShot, "Ada 120", "7<enter>", []string{"x spare", "= count", "? keys"}},
		{momentFree, "Ada 120", "Gw<enter>", []string{"x all down", "enter no pins", "? keys"}},
		{momentNamed, "Ada 120", "7", []string{"enter records", "esc clears", "? keys"}},
		{momentEdit, "Ada 120", "x,", []string{"enter keeps", "esc leaves", "@ hands over", ", back", "? keys"}},
		{momentCount, "Ada 120", "=", []string{"pins felled; any other key drops the ="}},
		{momentNobody, "", "", []string{"A add a student", "? keys"}},
		{momentMenu, "Ada 120", "<esc>", []string{"esc board"}},
		{momentHelp, "Ada 120", "?", []string{"scroll", "? esc close"}},
		{momentStrip, "Ada 120", "xg", []string{"esc board", "b t r f correct", "m figures", "v student", "? keys"}},
		{momentStripOpen, "Ada 120", "xgb", []string{"enter keeps", "esc leaves it", "1-0 left", "? keys"}},
		{momentFigures, "Ada 120", "xgm", []string{"esc back", "m more", "k numbers", "turn", "? keys"}},
		{momentNumbers, "Ada 120", "xgk", []string{"esc back", "m more", "k short", "turn", "? keys"}},
		{momentStudent, "Ada 120", "xgv", []string{"v esc back", "arrows games"}},
		{momentLine, "Ada 120", "y", []string{"c line", "esc board", "left right lane", "? keys"}},
		{momentLinePage, "Ada 120", "ys", []string{"esc lane", "s spares", "m moves", "? keys"}},
		{momentSession, "Ada 120", "e", []string{"a students", "x close", "esc board", "? keys"}},
		{momentEvenings, "Ada 120", "eE", []string{"enter turns to it", "esc back", "? keys"}},
		{momentNone, "Ada 120", "exxy<nul>", []string{"n new evening", "= same again", "E earlier", "? keys"}},
	} {
		t.Run(string(c.moment), func(t *testing.T) {
			var names []string
			if c.names != "" {
				names = []string{c.names}
			}
			d := onBoard(t, names...)
			if len(names) == 0 {
				d = startApp(t, &fakeReader{}).press("7<enter><enter>")
			}
			d.send(sizeMsg(minWidth, minHeight))
			d.press(c.keys)
			if d.moment() != c.moment {
				t.Fatalf("the moment is %s", d.moment())
			}
			lines := strings.Split(d.show(), "\n")
			line := lines[len(lines)-1]
			if width(line) != minWidth {
				t.Errorf("%d cells", width(line))
			}
			for _, w := range c.words {
				if !strings.Contains(line, w) {
					t.Errorf("%q is not in %q", w, line)
				}
			}
		})
	}
}

// helpText gives the help as text, in lines that nothing of it has to be wrapped for.
func helpText(d *appTest) string { return ansi.Strip(strings.Join(d.helpLines(400), "\n")) }

func TestHelp(t *testing.T) {
	for _, keys := range []string{"", "e", "eE", "g", "y"} {
		d := onBoard(t, "Ada 120").press(keys + "?")
		t.Run(d.screen.title()+" has every key in the help", func(t *testing.T) {
			text := strings.Join(strings.Fields(helpText(d)), " ")
			for _, b := range append(everyTable(d, d.screen), promptKeys...) {
				if !strings.Contains(text, strings.Join(strings.Fields(b.label()+" "+b.help), " ")) {
					t.Errorf("%s, %s is not in the help", b.label(), b.help)
				}
			}
		})
	}
	t.Run("a letter that the screen's own key hides is not listed as another screen's", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("y?")
		for _, hidden := range []screen{d.student, d.cues} {
			if _, own := d.line.table().find(hidden.letter()); !own {
				t.Fatalf("the lane has no key %s", hidden.letter())
			}
			if text := helpText(d); strings.Contains(text, hidden.about()) {
				t.Errorf("%s, %s is in the help of the lane", hidden.letter(), hidden.about())
			}
		}
	})
	d := onBoard(t, "Ada 120").press("?")
	t.Run("a line for each letter of each axis, and cautions", func(t *testing.T) {
		if len(axisHelp) != model.AxisCount {
			t.Fatalf("%d axes", len(axisHelp))
		}
		text := helpText(d)
		for i, axis := range axisHelp {
			if !strings.EqualFold(axis.name, model.Axes[i].String()) {
				t.Errorf("%s stands where %s belongs", axis.name, model.Axes[i])
			}
			want := model.A
			for _, l := range axis.letters {
				if l.letter != want || !strings.Contains(text, "\n  "+l.letter.String()+"  "+l.words) {
					t.Errorf("%s %s is not a line of its own", axis.name, l.letter)
				}
				want--
			}
			if want != model.NoLetter {
				t.Errorf("%s has %d letters", axis.name, len(axis.letters))
			}
		}
		for _, c := range cautions {
			if !strings.Contains(text, c) {
				t.Errorf("%q is missing", c)
			}
		}
	})
	t.Run("arrows and pages show all of it", func(t *testing.T) {
		all := d.helpLines(d.w)
		for _, key := range []string{"<down>", "<pgdown>"} {
			d.press("<home>")
			seen := map[int]bool{}
			for range len(all) + 1 {
				for i := d.helpTop; i < d.helpTop+d.bodyHeight()-1; i++ {
					seen[i] = true
				}
				d.press(key)
			}
			if len(seen) != len(all) {
				t.Errorf("%s shows %d of %d lines", key, len(seen), len(all))
			}
		}
		top := d.helpTop
		d.press("<home><end>")
		if d.helpTop != top {
			t.Errorf("end shows line %d, paging down %d", d.helpTop, top)
		}
		d.press("<pgup><up>")
		if d.helpTop >= top {
			t.Error("pgup and up do not go back")
		}
	})
	t.Run("a key that is not listed leaves it open", func(t *testing.T) {
		d.press("k").says("k has no meaning here", "lines")
	})
}

func TestMenu(t *testing.T) {
	d := onBoard(t, "Ada 120").press("<esc>")
	for _, s := range d.screens {
		d.says(s.title(), s.about())
	}
	d.press("e").says("student", "pairs 7/8")
	d.press("<esc>").says("balance")
	d.press("e").says("pairs 7/8")
	d.press("<esc><esc><esc>").says("balance")
	d.press("<esc>?").says("The pins")
}

func TestSmallWindow(t *testing.T) {
	for _, size := range [][2]int{{59, 24}, {80, 15}, {1, 1}} {
		d := onBoard(t, "Ada 120").press("b")
		steps := len(d.recorder.steps)
		d.send(sizeMsg(size[0], size[1]))
		d.press("xb<enter>7Cxx<enter>?e<esc>")
		if len(d.recorder.steps) != steps || d.prompt != nil || d.over != nothingOver || d.evening.Call().Letters.String() != "BAAA" {
			t.Errorf("keys act in a window of %dx%d", size[0], size[1])
		}
		if size[0] > 20 && !strings.Contains(strings.Join(strings.Fields(d.show()), " "), "needs a window of 60x16") {
			t.Errorf("it is not said:\n%s", d.show())
		}
		d.press("qq")
		if !d.quit {
			t.Error("there is no way out")
		}
	}
	t.Run("a line begun waits for the window to be larger", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("Cslow")
		d.send(sizeMsg(40, 10))
		d.press(" dance")
		d.send(sizeMsg(80, 24))
		d.press(" feet<enter>x")
		if got := d.spoken(); len(got) != 1 || got[0] != "Ada 1.1 10 AAAA slow feet" {
			t.Error(got)
		}
	})
	t.Run("an unknown size is 80x24", func(t *testing.T) {
		d := onBoard(t, "Ada 120")
		d.send(sizeMsg(0, 0))
		if d.w != 80 || d.h != 24 {
			t.Errorf("%dx%d", d.w, d.h)
		}
	})
}
