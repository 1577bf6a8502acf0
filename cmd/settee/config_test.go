package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"coach.settee/model"
)

// configOf reads a settings file with that text.
func configOf(t *testing.T, text string) (config, error) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "settee.conf")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	c, err := readConfig(path)
	if now, readErr := os.ReadFile(path); readErr != nil || string(now) != text {
		t.Errorf("reading changed the file: %q, %v", now, readErr)
	}
	return c, err
}

func TestConfigIsRead(t *testing.T) {
	got, err := configOf(t, "\ufeff# my hall\r\ntheme=light\r\n\r\n  density = tight\r\nascii = yes\nmouse = no\n"+
		"place = Quillbrook Lanes # 2\nrotate = no\nblock = yes\narrows_ft = 15.5")
	if err != nil {
		t.Fatal(err)
	}
	want := config{
		theme: "light", density: "tight", ascii: "yes", block: true, place: "Quillbrook Lanes # 2", arrowsFt: model.Known(15.5),
		lines: map[string]int{"theme": 2, "density": 4, "ascii": 5, "mouse": 6, "place": 7, "rotate": 8, "block": 9, "arrows_ft": 10},
	}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(config{})); diff != "" {
		t.Error(diff)
	}
}

func TestConfigThatSaysNothing(t *testing.T) {
	for name, path := range map[string]string{
		"no place for it": "", "no file": filepath.Join(t.TempDir(), "none", "settee.conf"),
	} {
		if c, err := readConfig(path); err != nil || !cmp.Equal(usualConfig(), c, cmp.AllowUnexported(config{})) {
			t.Errorf("%s: %+v, %v", name, c, err)
		}
	}
	if c, err := configOf(t, "# theme = light\nplace =\narrows_ft =\n"); err != nil || c.theme != "auto" || c.place != "" || c.arrowsFt.Known {
		t.Errorf("%+v, %v", c, err)
	}
}

// What is wrong is told with its line, and nothing of the file is taken, not what is right in it either.
func TestConfigThatIsWrong(t *testing.T) {
	for text, says := range map[string]string{
		"ascii = yes\n\ntheme = purple": "settee.conf line 3: theme = purple: use light, dark, none or auto",
		"theme = Light":                 "line 1: theme = Light: use light, dark, none or auto",
		"theme =":                       "line 1: theme = : use light, dark, none or auto",
		"density = thick":               "line 1: density = thick: use roomy or tight",
		"ascii = 1":                     "line 1: ascii = 1: use yes, no or auto",
		"mouse = off":                   "line 1: mouse = off: use yes or no",
		"rotate = maybe":                "line 1: rotate = maybe: use yes or no",
		"block = true":                  "line 1: block = true: use yes or no",
		"arrows_ft = 99":                `line 1: arrows_ft = 99: "99" is no distance of the arrows: 12 to 18 feet`,
		"arrows_ft = NaN":               "line 1: arrows_ft = NaN: ",
		"colour = red":                  "line 1: colour: no such key; settee config lists them",
		"= light":                       "line 1: : no such key",
		"theme light":                   "line 1: theme light: write it as key = value",
		"theme = light\ntheme = dark":   "line 2: theme is in line 1 already: keep one of them",
		"place = a\x1b[2Jb":             "line 1: the text holds the control character U+001B",
		"ascii = yes\nx = 1\ny = 2\nmouse = no\nz": "line 2: x: no such key; settee config lists them; wrong too: line 3, 5",
		"place = \xff":                     "settee.conf cannot be read: it is no text of settings in UTF-8",
		strings.Repeat("# note\n", 10_000): "settee.conf cannot be read: it is no text of settings in UTF-8",
	} {
		c, err := configOf(t, text)
		if err == nil || !strings.Contains(err.Error(), says) || !strings.HasSuffix(err.Error(), "is used") {
			t.Errorf("%.40q: %v, want %s", text, err, says)
		}
		if diff := cmp.Diff(usualConfig(), c, cmp.AllowUnexported(config{})); diff != "" {
			t.Errorf("%.40q: %s", text, diff)
		}
	}
}

func TestConfigThatIsNoFile(t *testing.T) {
	if _, err := readConfig(t.TempDir()); err == nil || !strings.Contains(err.Error(), "settee.conf cannot be read: ") {
		t.Error(err)
	}
}

// What settee config prints sets what it says.
func TestConfigPageIsASettingsFile(t *testing.T) {
	c, err := configOf(t, "theme = dark\nplace = Quillbrook Lanes\narrows_ft = 14\nrotate = no\n")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []config{usualConfig(), c} {
		page := configPage("/home/coach/settee.conf", want, errors.New("none"))
		got, faults := parseConfig(page)
		if len(faults) > 0 || len(got.lines) != len(settings) {
			t.Errorf("%v, %d keys of %d\n%s", faults, len(got.lines), len(settings), page)
		}
		if diff := cmp.Diff(want, got, cmp.AllowUnexported(config{}), cmpopts.IgnoreFields(config{}, "lines")); diff != "" {
			t.Error(diff)
		}
	}
}

// The flags win over what the settings say, in both directions.
func TestFlagsWinOverSettings(t *testing.T) {
	for args, want := range map[string]looks{
		"":                               {ascii: true, tight: true},
		"--ascii=false --no-mouse=false": {tight: true, mouse: true},
		"--ascii --no-mouse":             {ascii: true, tight: true},
	} {
		cmd := demoCommand()
		if err := cmd.ParseFlags(strings.Fields(args)); err != nil {
			t.Fatal(err)
		}
		set := usualConfig()
		set.ascii, set.mouse, set.density, set.theme = "yes", false, "tight", "dark"
		got, err := looksOf(cmd, set)
		want.dark = got.dark // that of the test's own environment; on a terminal: TestBoardFollowsItsSettings
		if err != nil || got != want {
			t.Errorf("%s: %+v, want %+v, %v", args, got, want, err)
		}
	}
}

// Nobody has to say that a terminal lacks characters: its name and the locale do, unless flag or settings say otherwise. The
// order of the variables is that of POSIX.1-2017, Base Definitions, 8.2; an empty one is as good as none there.
func TestASCIIByItself(t *testing.T) {
	for env, want := range map[string]bool{
		"":                                    false,
		"TERM=xterm-256color LANG=C.UTF-8":    false,
		"TERM=linux LANG=C.UTF-8":             true,
		"LANG=C":                              true,
		"LANG=POSIX":                          true,
		"LANG=de_DE.ISO-8859-1":               true,
		"LANG=de_DE.utf8":                     false,
		"LC_CTYPE=UTF-8":                      false,
		"LC_CTYPE=C LANG=de_DE.UTF-8":         true,
		"LC_ALL=C.UTF-8 LC_CTYPE=C":           false,
		"LC_ALL=C LANG=de_DE.UTF-8":           true,
		"LC_ALL= LC_CTYPE= LANG=de_DE.UTF-8":  false,
		"LC_MESSAGES=C LANG=de_DE.UTF-8":      false,
		"TERM=linux-16color LANG=en_GB.UTF-8": true,
	} {
		for _, name := range []string{"TERM", "LC_ALL", "LC_CTYPE", "LANG", "LC_MESSAGES"} {
			t.Setenv(name, "")
		}
		for _, pair := range strings.Fields(env) {
			name, value, _ := strings.Cut(pair, "=")
			t.Setenv(name, value)
		}
		for _, c := range []struct {
			args, setting string
			want          bool
		}{
			{"", "auto", want}, {"", "yes", true}, {"", "no", false}, {"--ascii", "no", true}, {"--ascii=false", "yes", false},
			{"--ascii=false", "auto", false}, {"--ascii", "auto", true},
		} {
			cmd := demoCommand()
			if err := cmd.ParseFlags(strings.Fields(c.args)); err != nil {
				t.Fatal(err)
			}
			set := usualConfig()
			set.ascii = c.setting
			if got, err := looksOf(cmd, set); err != nil || got.ascii != c.want {
				t.Errorf("%s, ascii = %s, %s: ascii %v, want %v, %v", env, c.setting, c.args, got.ascii, c.want, err)
			}
		}
	}
}
