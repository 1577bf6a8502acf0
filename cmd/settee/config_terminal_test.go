//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// settingsIn gives the environment of a person with a settings file.
func settingsIn(t *testing.T, text string) (env, file string) {
	t.Helper()
	home := t.TempDir()
	file = filepath.Join(home, "settee", "settee.conf")
	if err := os.Mkdir(filepath.Dir(file), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return "XDG_CONFIG_HOME=" + home, file
}

// The settings say which background is drawn for, before what the terminal says of itself and after what the coach says
// in the environment or by a flag.
func TestBoardFollowsItsSettings(t *testing.T) {
	settings, _ := settingsIn(t, "theme = light\n")
	dark, _ := settingsIn(t, "theme = dark\n")
	inks := map[string][]string{}
	for name, o := range map[string]terminalOptions{
		"--light":         {args: []string{"--light"}},
		"--dark":          {args: []string{"--dark"}},
		"light in it":     {env: []string{settings, "COLORFGBG=15;0"}},
		"dark in it":      {env: []string{dark, "COLORFGBG=0;15"}},
		"a flag":          {env: []string{settings}, args: []string{"--dark"}},
		"the environment": {env: []string{settings, "SETTEE_BACKGROUND=dark"}},
	} {
		o.args = append([]string{"demo"}, o.args...)
		c := startTerminal(t, o)
		c.contains("racks left")
		inks[name] = c.inks()
		c.quit()
	}
	for name, like := range map[string]string{
		"light in it": "--light", "dark in it": "--dark", "a flag": "--dark", "the environment": "--dark",
	} {
		if diff := cmp.Diff(inks[like], inks[name]); diff != "" {
			t.Errorf("%s and %s are drawn in other colours: %s", like, name, diff)
		}
	}
	if cmp.Equal(inks["--light"], inks["--dark"]) {
		t.Errorf("light and dark are both drawn in %v", inks["--light"])
	}
}

// A new evening begins as the settings say; the next one is where the last one was, unless the settings name a place.
func TestANewEveningBeginsAsTheSettingsSay(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lessons.db")
	for _, evening := range []struct{ settings, place string }{
		{"place = Quillbrook Lanes\nrotate = no\nblock = yes\narrows_ft = 14\n", "Quillbrook Lanes"},
		{"", "Quillbrook Lanes"},
		{"place = Marlow Bowl\n", "Marlow Bowl"},
	} {
		env, _ := settingsIn(t, evening.settings)
		c := openBoard(t, path, terminalOptions{env: []string{env}})
		c.contains("lanes tonight")
		c.press("7<enter><enter>")
		c.contains(evening.place)
		c.press("exx")
		// A slow disk has it asked first.
		c.until("closed or asked", func(screen string) bool {
			return strings.Contains(screen, "the evening is closed") || strings.Contains(screen, "close anyway?")
		})
		if strings.Contains(c.screen(), "close anyway?") {
			c.press("y")
		}
		c.contains("the evening is closed")
		c.quit()
	}
	sessions := objects(t, path, "session")
	if len(sessions) != 3 {
		t.Fatalf("%d evenings", len(sessions))
	}
	for i, want := range []map[string]any{
		{"place": "Quillbrook Lanes", "rotate": false, "block": true, "arrows_ft": 14.0},
		{"place": "Quillbrook Lanes", "rotate": true, "block": nil, "arrows_ft": nil},
		{"place": "Marlow Bowl", "rotate": true, "block": nil, "arrows_ft": nil},
	} {
		for key, value := range want {
			if sessions[i][key] != value {
				t.Errorf("evening %d: %s is %v, want %v", i, key, sessions[i][key], value)
			}
		}
	}
}

// Settings with something wrong in them are told at the start and left as they are, and the board opens all the same.
func TestTheBoardTellsWhatIsWrongWithItsSettings(t *testing.T) {
	const text = "ascii = yes\ntheme = purple\n"
	env, file := settingsIn(t, text)
	c := startTerminal(t, terminalOptions{args: []string{"demo"}, env: []string{env}})
	c.contains("settee.conf line 2: theme = purple: use light, dark, none or auto")
	if !strings.Contains(c.screen(), "●") {
		t.Errorf("what is right in the file was taken:\n%s", c.screen())
	}
	c.quit()
	if now, err := os.ReadFile(file); err != nil || string(now) != text {
		t.Errorf("the file is now %q, %v", now, err)
	}
}
