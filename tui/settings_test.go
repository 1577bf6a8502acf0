package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
)

// keepingSettings writes down what is handed over to be kept.
func keepingSettings(d *appTest) *[]string {
	kept := new([]string)
	d.conf.KeepSetting = func(key, value string) (string, error) {
		*kept = append(*kept, key+" = "+value)
		return "/home/coach/settee.conf", nil
	}
	return kept
}

func TestSettings(t *testing.T) {
	open := func() *appTest { return onBoard(t, "Ada 120", "Bo 172").press("x") }
	t.Run("the letter leads there from every screen but where a line is typed, and esc back", func(t *testing.T) {
		for _, place := range []string{"", "e", "eE", "g", "y", "s", "c", "v", "ex", "sh", "<esc>", "?"} {
			d := open().press(place)
			d.press("M")
			if place == "ex" || place == "sh" || place == "eE" {
				d.press("<esc><esc>M")
			}
			d.says("Settings", "theme", "rotation", "esc board")
			if d.press("<esc>"); d.screen != screen(d.board) {
				t.Errorf("from %q it leads to %s", place, d.screen.title())
			}
		}
	})
	t.Run("each takes effect at once, is kept, and can be taken back", func(t *testing.T) {
		d := open()
		kept := keepingSettings(d)
		d.press("Md<esc>")
		if strings.Contains(d.show(), "  game 1") || !d.conf.Tight {
			t.Errorf("the board is not tight:\n%s", d.show())
		}
		d.press("Ma").says("ASCII only: no, was auto").press("a")
		if !d.conf.ASCII || strings.Contains(d.show(), "─") {
			t.Error("it is not ASCII")
		}
		if d.press("m"); d.conf.Mouse || !slices.ContainsFunc(d.seen, func(m tea.Msg) bool { return fmt.Sprintf("%T", m) == fmt.Sprintf("%T", tea.DisableMouse()) }) {
			t.Error("the mouse is not left to the terminal")
		}
		if d.press("r"); !d.conf.Beginning.ByHand {
			t.Error("a new evening rotates")
		}
		d.press("t").says("theme: light, was auto", "[light]", "kept in /home/coach/settee.conf")
		want := []string{"density = tight", "ascii = no", "ascii = yes", "mouse = no", "rotate = no", "theme = light"}
		if !slices.Equal(*kept, want) {
			t.Errorf("kept %v, want %v", *kept, want)
		}
		d.press("<bs>").says("taken back: theme is auto again").press("<bs>").says("taken back: rotation is yes again")
		d.press("<bs>").says("taken back: mouse is yes again").press("U").says("done again: mouse is no")
		d.press("<bs><bs><bs><bs>").says("taken back: density is roomy again").press("<bs>").says("nothing to take back")
		if d.conf.Tight || d.conf.ASCII || !d.conf.Mouse || d.conf.Beginning.ByHand {
			t.Errorf("it is not as it was: %+v", d.settings.values)
		}
		if d.press("UU"); !d.conf.Tight || d.conf.ASCII {
			t.Error("it is not done again")
		}
		d.press("<esc><bs>").says("taken back:", "Ada")
	})
	t.Run("the deliveries' undo and the settings' are apart", func(t *testing.T) {
		d := open().press("Mt<bs><bs>").says("nothing to take back")
		if len(d.spoken()) != 1 {
			t.Error("a delivery is gone")
		}
	})
	t.Run("where it cannot be kept it says why, and holds until the end", func(t *testing.T) {
		d := open()
		d.conf.KeepSetting = func(string, string) (string, error) { return "", errors.New("settee.conf line 3: no such key") }
		d.press("Md").says("not kept, holds until you leave: settee.conf line 3: no such key", "[tight]")
		if !d.conf.Tight {
			t.Error("it does not hold")
		}
		keepingSettings(d)
		d.press("a").silent("not kept").says("kept in")
	})
	t.Run("a settings file with a fault keeps nothing, which is said from the start", func(t *testing.T) {
		d := open()
		keepingSettings(d)
		d.conf.SettingsFault = "settee.conf line 3: no such key"
		d.press("M").says("not kept, holds until you leave: settee.conf line 3: no such key").silent("is kept in")
		d.press("d").silent("not kept").says("kept in /home/coach/settee.conf")
	})
	t.Run("without a place for a settings file it says so from the start", func(t *testing.T) {
		open().press("M").says("not kept: there is no place here for a settings file").silent("is kept in")
	})
	t.Run("what a flag says holds until something is chosen", func(t *testing.T) {
		d := open()
		d.conf.Overruled = "this start: drawn for dark"
		d.press("M").says("this start: drawn for dark").press("t").silent("this start")
	})
}

// TestThemeOnTheSpot looks at the colours that each theme is drawn in.
func TestThemeOnTheSpot(t *testing.T) {
	d := onBoard(t, "Ada 120")
	d.conf.Renderer.SetColorProfile(termenv.TrueColor)
	d.conf.AutoDark = true
	d.press("M")
	pictures := map[string]string{}
	for _, name := range []string{"light", "dark", "none", "auto"} {
		d.press("t").says("[" + name + "]")
		d.press("<esc>")
		pictures[name] = d.picture()
		d.press("M")
	}
	if pictures["auto"] != pictures["dark"] || pictures["light"] == pictures["dark"] || pictures["none"] == pictures["dark"] {
		t.Error("the themes are not drawn as they are chosen")
	}
	if strings.Contains(pictures["none"], "38;2;") || !strings.Contains(pictures["light"], "38;2;") {
		t.Error("none has colours, or light has not")
	}
}

// Errands are run in the order in which they were sent, one after the other, and the program ends after the last.
func TestErrands(t *testing.T) {
	d := startApp(t, &fakeReader{}).press("<esc>M")
	var kept []string
	d.conf.KeepSetting = func(key, value string) (string, error) { kept = append(kept, key+value); return "", nil }
	var waiting []tea.Cmd
	for _, keys := range []string{"d", "a", "d", "q"} {
		_, cmd := d.Update(keysOf(keys)[0])
		waiting = append(waiting, cmd)
	}
	if d.quit || len(kept) > 0 {
		t.Fatalf("quit %v, kept %v before anything was run", d.quit, kept)
	}
	d.says("leaving as soon as everything is kept")
	for _, cmd := range waiting {
		d.run(cmd)
	}
	if want := []string{"densitytight", "asciino", "densityroomy"}; !slices.Equal(kept, want) || !d.quit {
		t.Errorf("kept %v, want %v, quit %v", kept, want, d.quit)
	}
}

func TestSettingsScreens(t *testing.T) {
	for _, s := range [][2]int{{60, 16}, {80, 24}, {160, 50}} {
		t.Run(fmt.Sprintf("%dx%d", s[0], s[1]), func(t *testing.T) {
			d := onBoard(t, "Ada Marsh 120")
			keepingSettings(d)
			d.press("Mt")
			d.send(sizeMsg(s[0], s[1]))
			golden(t, fmt.Sprintf("settings_%dx%d", s[0], s[1]), d.View())
		})
	}
}
