package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// drawSetting draws a key of the settings file with a value that it takes.
func drawSetting(t *rapid.T, name string) (key, value string) {
	values := map[string][]string{
		"theme": {"auto", "light", "dark", "none"}, "density": {"roomy", "tight"}, "ascii": {"yes", "no", "auto"},
		"mouse": {"yes", "no"}, "rotate": {"yes", "no"}, "block": {"yes", "no"},
		"place": {"", "Quillbrook Lanes", "a = b # c"}, "arrows_ft": {"", "14", "15.5"},
	}
	key = rapid.SampledFrom(settings).Draw(t, name).key
	return key, rapid.SampledFrom(values[key]).Draw(t, name+" value")
}

// drawConfigText draws the text of a settings file in which nothing is wrong.
func drawConfigText(t *rapid.T) string {
	end := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "end of line")
	var lines []string
	has := map[string]bool{}
	for range rapid.IntRange(0, 12).Draw(t, "lines") {
		if rapid.Bool().Draw(t, "note") {
			lines = append(lines, rapid.SampledFrom([]string{"", "  ", "# my hall", "#theme = purple", " # é = 東京"}).Draw(t, "note"))
			continue
		}
		key, value := drawSetting(t, "key")
		if has[key] {
			continue
		}
		has[key] = true
		lines = append(lines, rapid.SampledFrom([]string{"%s = %s", "%s=%s", "  %s  =   %s  ", "%s =%s"}).Draw(t, "form"))
		lines[len(lines)-1] = fmt.Sprintf(lines[len(lines)-1], key, value)
	}
	text := strings.Join(lines, end)
	if rapid.Bool().Draw(t, "mark of the byte order") {
		text = "\ufeff" + text
	}
	if rapid.Bool().Draw(t, "last line ends") {
		text += end
	}
	return text
}

// Whatever is in a settings file, what is kept in it is read again, all else as before, and no other line has changed.
func TestKeptSettingIsReadAgain(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		path := filepath.Join(dir, "settee.conf")
		text := drawConfigText(t)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		want, err := readConfig(path)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		for range rapid.IntRange(1, 4).Draw(t, "settings kept") {
			key, value := drawSetting(t, "kept")
			before, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			line := want.lines[key]
			if err := keepSetting(path, key, value); err != nil {
				t.Fatalf("%q, %s = %s: %v", before, key, value, err)
			}
			for _, s := range settings {
				if s.key == key {
					if err := s.set(&want, value); err != nil {
						t.Fatal(err)
					}
				}
			}
			got, err := readConfig(path)
			if diff := cmp.Diff(want, got, cmp.AllowUnexported(config{}), cmpopts.IgnoreFields(config{}, "lines")); diff != "" || err != nil {
				t.Fatalf("%q, %s = %s: %v\n%s", before, key, value, err, diff)
			}
			now, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			onlyLine(t, string(before), string(now), line)
			want.lines = got.lines
		}
	})
	if left, err := filepath.Glob(filepath.Join(dir, ".*")); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

// onlyLine tells that two texts differ in nothing but one line, or for 0 in a line more at the end.
func onlyLine(t *rapid.T, before, now string, line int) {
	was, is := strings.SplitAfter(before, "\n"), strings.SplitAfter(now, "\n")
	for i := range was {
		switch {
		case i == line-1:
		case line == 0 && i == len(was)-1 && strings.HasPrefix(is[i], was[i]):
		case i >= len(is) || was[i] != is[i]:
			t.Fatalf("line %d was changed, not only line %d: %q is now %q", i+1, line, before, now)
		}
	}
	if line > 0 && len(was) != len(is) {
		t.Fatalf("%d lines are %d: %q is now %q", len(was), len(is), before, now)
	}
}

// A file with anything wrong in it, or one that is none, stays as it is, and the error names the line.
func TestABadConfigIsNeverOverwritten(t *testing.T) {
	for text, says := range map[string]string{
		"# mine\ntheme = purple\n":      "settee.conf line 2: theme = purple: use light, dark, none or auto",
		"density = tight\ncolour = 1\n": "settee.conf line 2: colour: no such key",
		"place = \xff":                  "it is no text of settings in UTF-8",
		strings.Repeat("# n\n", 20_000): "it is no text of settings in UTF-8",
	} {
		path := filepath.Join(t.TempDir(), "settee.conf")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if err := keepSetting(path, "density", "roomy"); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%.30q: %v, want %s", text, err, says)
		}
		if now, err := os.ReadFile(path); err != nil || string(now) != text {
			t.Errorf("%.30q is now %.30q, %v", text, now, err)
		}
	}
	full := strings.Repeat("#", mostConfig)
	path := filepath.Join(t.TempDir(), "settee.conf")
	if err := os.WriteFile(path, []byte(full), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := keepSetting(path, "density", "tight"); err == nil || !strings.Contains(err.Error(), "it is as it was") {
		t.Errorf("a file that is full: %v", err)
	}
	for name, err := range map[string]error{
		"no place":  keepSetting("", "theme", "dark"),
		"a folder":  keepSetting(t.TempDir(), "theme", "dark"),
		"no key":    keepSetting(filepath.Join(t.TempDir(), "settee.conf"), "colour", "red"),
		"no choice": keepSetting(filepath.Join(t.TempDir(), "settee.conf"), "theme", "red"),
	} {
		if err == nil {
			t.Errorf("%s: it is kept", name)
		}
	}
}

// What is usual needs no file; what is not makes one, for its owner alone. A link leads to the same file as before.
func TestConfigFileIsMade(t *testing.T) {
	home := t.TempDir()
	path := filepath.Join(home, "config", "settee", "settee.conf")
	if err := keepSetting(path, "theme", "auto"); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("a file was made that says nothing")
	}
	if err := keepSetting(path, "theme", "dark"); err != nil {
		t.Fatal(err)
	}
	if text, err := os.ReadFile(path); err != nil || string(text) != "theme = dark\n" {
		t.Errorf("%q, %v", text, err)
	}
	if runtime.GOOS == "windows" {
		return
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	link := filepath.Join(home, "settee.conf")
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	if err := keepSetting(link, "theme", "light"); err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(link)
	text, readErr := os.ReadFile(path)
	if err != nil || readErr != nil || info.Mode()&os.ModeSymlink == 0 || string(text) != "theme = light\n" {
		t.Errorf("%v, %q, %v, %v", info.Mode(), text, err, readErr)
	}
}
