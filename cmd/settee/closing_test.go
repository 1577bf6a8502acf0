package main

import (
	"encoding/base64"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"coach.settee/model"
	"coach.settee/store"
)

// TestHandoutsBeside writes the pages of the invented evening into the folder beside the store, where only its owner reads
// them, and again over those that are there.
func TestHandoutsBeside(t *testing.T) {
	dir := t.TempDir()
	s, err := demoStore(filepath.Join(dir, "demo.db"), 1)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	sessions, err := s.Sessions()
	if err != nil {
		t.Fatal(err)
	}
	tonight := sessions[len(sessions)-1]
	for range 2 {
		var told []int
		folder, err := handoutsBeside{s, " (soon gone)"}.all(tonight.ID, func(n, of int) { told = append(told, n, of) })
		if err != nil || folder != filepath.Join(dir, "handouts")+" (soon gone)" {
			t.Fatalf("%q, %v", folder, err)
		}
		if want := []int{1, 6, 2, 6, 3, 6, 4, 6, 5, 6, 6, 6}; !slices.Equal(told, want) {
			t.Errorf("told %v, want %v", told, want)
		}
	}
	pages, err := os.ReadDir(filepath.Join(dir, "handouts"))
	if err != nil || len(pages) != 6 {
		t.Fatalf("%v, %v", pages, err)
	}
	if info, err := os.Stat(filepath.Join(dir, "handouts")); err != nil || othersMayRead(info) {
		t.Errorf("the folder: %v, %v", info.Mode(), err)
	}
	words := map[string]string{
		"ilva-corrandt": "Two of those strikes were gifts", "odo-marchwick": "Tuesday and Saturday", "wren": "You walked so straight tonight",
	}
	for _, p := range pages {
		info, err := p.Info()
		if err != nil || othersMayRead(info) {
			t.Errorf("%s: %v, %v", p.Name(), info.Mode(), err)
		}
		page, err := os.ReadFile(filepath.Join(dir, "handouts", p.Name()))
		if err != nil {
			t.Fatal(err)
		}
		for name, said := range words {
			if strings.HasPrefix(p.Name(), name+"-2026-03-04") {
				if !strings.Contains(string(page), said) || !strings.Contains(string(page), "Wednesday 11 March 2026") {
					t.Errorf("%s does not say %q", p.Name(), said)
				}
				delete(words, name)
			}
		}
	}
	if len(words) > 0 {
		t.Errorf("no page of %v", words)
	}
}

// One page is what `settee handout --text` writes.
func TestOneHandoutBeside(t *testing.T) {
	s, err := demoStore(filepath.Join(t.TempDir(), "demo.db"), 1)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	students, err := s.Students()
	if err != nil {
		t.Fatal(err)
	}
	session, err := lastSession(s, students[0])
	if err != nil {
		t.Fatal(err)
	}
	path, err := handoutsBeside{s: s}.one(session, students[0].ID, true)
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var want strings.Builder
	if err := oneHandout(&want, s, handoutWanted{who: string(students[0].ID), text: true, out: "-", named: true}); err != nil {
		t.Fatal(err)
	}
	if string(got) != want.String() {
		t.Errorf("%s\nwant\n%s", got, want.String())
	}
	if _, err := (handoutsBeside{s: s}).one(session, "nobody", true); err == nil {
		t.Error("a page of nobody")
	}
}

// An evening in which nobody bowled has no pages, and that is no failure.
func TestHandoutsOfNobody(t *testing.T) {
	dir := t.TempDir()
	s, err := store.Open(filepath.Join(dir, "s.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	_, step, err := model.NewEvening(model.Session{ID: "s", At: lastEvening, Pairs: []model.Pair{{7, 8}}})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(step); err != nil {
		t.Fatal(err)
	}
	folder, err := handoutsBeside{s: s}.all("s", func(int, int) { t.Error("a page is told") })
	if folder != "" || err != nil {
		t.Errorf("%q, %v", folder, err)
	}
	if _, err := os.Stat(filepath.Join(dir, "handouts")); err == nil {
		t.Error("there is a folder for nothing")
	}
}

func othersMayRead(info os.FileInfo) bool {
	return runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0
}

func TestClipboard(t *testing.T) {
	const text = "Ada\nfeet 28, eyes 14\n"
	plain := "\x1b]52;c;" + base64.StdEncoding.EncodeToString([]byte(text)) + "\a"
	doubled := strings.ReplaceAll(plain, "\x1b", "\x1b\x1b")
	for _, test := range []struct{ term, tmux, want string }{
		{"xterm-256color", "", plain},
		{"tmux-256color", "", plain + "\x1bPtmux;" + doubled + "\x1b\\"},
		{"screen-256color", "/tmp/tmux-0/default,1,0", plain + "\x1bPtmux;" + doubled + "\x1b\\"},
		{"screen", "", "\x1bP" + plain + "\x1b\\"},
	} {
		if got := handed(t, test.term, test.tmux, text); got != test.want {
			t.Errorf("TERM=%s: %q, want %q", test.term, got, test.want)
		}
	}
	for _, term := range []string{"linux", "dumb", ""} {
		if clipboardOf(os.Stdout, terminalNamed(term)) != nil {
			t.Errorf("TERM=%s has a clipboard", term)
		}
	}
}

// terminalNamed is the environment of a terminal of that name, without a multiplexer.
func terminalNamed(term string) func(string) string {
	return func(name string) string { return map[string]string{"TERM": term}[name] }
}

// handed gives what a terminal gets for a text.
func handed(t *testing.T, term, tmux, text string) string {
	t.Helper()
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	env := func(name string) string { return map[string]string{"TERM": term, "TMUX": tmux}[name] }
	if err := clipboardOf(w, env)(text); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	got, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(got)
}

// A frame and what is handed to the clipboard come out one after the other, however large they are and however little of
// them the terminal takes at a time.
func TestClipboardTearsNoFrame(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	const large = 300_000
	frame := strings.Repeat("f", large)
	clipboard := clipboardOf(w, terminalNamed("xterm"))
	var writers sync.WaitGroup
	for range 4 {
		writers.Go(func() {
			if _, err := w.WriteString(frame); err != nil {
				t.Error(err)
			}
		})
		writers.Go(func() {
			if err := clipboard(strings.Repeat("c", large)); err != nil {
				t.Error(err)
			}
		})
	}
	go func() {
		writers.Wait()
		w.Close()
	}()
	got, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	seq := "\x1b]52;c;" + base64.StdEncoding.EncodeToString([]byte(strings.Repeat("c", large))) + "\a"
	if rest := strings.ReplaceAll(strings.ReplaceAll(string(got), frame, ""), seq, ""); rest != "" || len(got) != 4*(len(frame)+len(seq)) {
		t.Errorf("%d bytes of %d are torn", len(rest), len(got))
	}
}
