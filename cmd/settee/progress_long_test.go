package main

import (
	"bytes"
	"context"
	"errors"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"coach.settee/store"
)

// said gathers the words of a command, whoever says them.
type said struct {
	mu   sync.Mutex
	text strings.Builder
}

func (s *said) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.Write(p)
}

func (s *said) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

// watched runs a command by a clock that goes on two seconds at each look, so that all takes long, and gives what it says of
// its progress.
func watched(t *testing.T, args ...string) string {
	t.Helper()
	var words said
	var looks atomic.Int64
	begun := time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)
	clock := func() time.Time { return begun.Add(time.Duration(looks.Add(1)) * 2 * quietTime) }
	ctx := context.WithValue(context.Background(), watchingKey{}, watching{&words, clock})
	var out, errOut bytes.Buffer
	if code := run(ctx, args, strings.NewReader(""), &out, &errOut); code != exitDone || errOut.Len() > 0 {
		t.Fatalf("%q ends with %d: %s", args, code, errOut.String())
	}
	return words.String()
}

// Whatever takes long with a large store says how far it is, and of how much where that is known.
func TestEveryLongCommandSaysHowFarItIs(t *testing.T) {
	dir := t.TempDir()
	path, lines := filepath.Join(dir, "lessons.db"), filepath.Join(dir, "lessons.jsonl")
	s, err := demoStore(path, 1)
	if err != nil {
		t.Fatal(err)
	}
	students, errStudents := s.Students()
	if err := errors.Join(errStudents, s.Close()); err != nil {
		t.Fatal(err)
	}
	who := string(students[0].ID)
	for _, test := range []struct {
		args  string
		wants []string
	}{
		{"backup " + filepath.Join(dir, "copy.db"), []string{`\d of 1 MB copied`, `\d of 1 MB read back`}},
		{"restore " + filepath.Join(dir, "copy.db"), []string{
			`\d of 1 MB looked over`, `\d of 1 MB copied`, `(\d+) of \d+ deliveries read back`, `\d of 1 MB read back`,
		}},
		{"stats " + who, []string{"still reading what was bowled, and reckoning"}},
		{"export --anonymous " + lines, []string{`\d MB written so far`}},
		{"import " + lines, []string{`\d of 1 MB read`}},
		{"check", []string{`\d MB read so far`}},
		{"check --repair " + filepath.Join(dir, "saved.db"), []string{`\d MB read so far`}},
		{"erase --yes --backups " + who, []string{
			"still looking for what is kept of the student", `\d of \d MB looked through beside the store`,
			`\d+ of \d+ deliveries copied`, `\d+ of \d+ deliveries read back`, `\d of 1 MB read back`,
		}},
	} {
		words := watched(t, append([]string{"--store", path}, strings.Fields(test.args)...)...)
		for _, want := range test.wants {
			if !regexp.MustCompile(`(?m)^` + want + `$`).MatchString(words) {
				t.Errorf("%s does not say %q:\n%s", test.args, want, words)
			}
		}
	}
}

// A count never goes beyond the whole, and small numbers are not told as nothing of nothing.
func TestHowFarATaskIs(t *testing.T) {
	for want, part := range map[string]store.Part{
		"40 of 81 MB copied":              {Verb: "copied", Done: 40_900_000, Of: 81_200_000},
		"81 of 81 MB copied":              {Verb: "copied", Done: 99_000_000, Of: 81_200_000},
		"0 of 1 MB copied":                {Verb: "copied", Done: 900, Of: 1000},
		"7 of 1000 deliveries read back":  {Verb: "read back", Done: 7, Of: 1000, Deliveries: true},
		"3 MB written so far":             {Verb: "written", Done: 3_100_000},
		"1000 of 1000 deliveries counted": {Verb: "counted", Done: 20_000, Of: 1000, Deliveries: true},
	} {
		if got := partWords(part); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// What is no terminal is told nothing, however long it takes.
func TestNothingIsSaidIntoAPipe(t *testing.T) {
	root := newRoot()
	var errOut bytes.Buffer
	root.SetErr(&errOut)
	root.SetContext(context.Background())
	p := newProgress(root, "copied")
	for passed := range 5 {
		p.now = func() time.Time { return time.Now().Add(time.Duration(passed+1) * time.Hour) }
		p.told(store.Part{Verb: "copied", Done: 1, Of: 2})
		p.still("reckoning")
	}
	if errOut.Len() > 0 {
		t.Errorf("it says %q", errOut.String())
	}
}
