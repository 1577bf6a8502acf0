//go:build unix

package main

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"

	"coach.settee/store"
)

// On a terminal it is asked, and anything but a yes or the name leaves the store as it is.
func TestErasingAsks(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lessons.db")
	s, err := demoStore(path, 1)
	if err != nil {
		t.Fatal(err)
	}
	students, err := s.Students()
	if err = errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	for i, test := range []struct {
		answer string
		code   int
	}{
		{"", exitFailed}, {"n", exitFailed}, {students[0].Name + "s", exitFailed},
		{"y", exitDone}, {strings.ToUpper(students[1].Name), exitDone},
	} {
		who := students[max(0, i-3)]
		c := startTerminal(t, terminalOptions{args: []string{"erase", "--store", path, string(who.ID)}})
		c.contains("Erase " + who.Name + "? Type y or the name:")
		c.send(test.answer + "\r")
		if code := c.wait(); code != test.code {
			t.Errorf("to %q it ends with %d:\n%s", test.answer, code, c.screen())
		}
		left, err := store.Open(path, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		now, err := left.Students()
		if err = errors.Join(err, left.Close()); err != nil {
			t.Fatal(err)
		}
		if want := len(students) - max(0, i-2); len(now) != want {
			t.Errorf("after %q %d students are kept, not %d", test.answer, len(now), want)
		}
	}
}
