//go:build unix

package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
)

// story is what is typed on an evening and what is kept of it.
type story struct {
	keys []string
	kept []map[string]any
}

// readStory reads a story of testdata/stories; its form is said at its head.
func readStory(t *testing.T, name string) story {
	t.Helper()
	archive, err := txtar.ParseFile(filepath.Join("..", "..", "testdata", "stories", name))
	if err != nil {
		t.Fatal(err)
	}
	var s story
	for _, file := range archive.Files {
		for line := range strings.Lines(strings.TrimSpace(string(file.Data))) {
			switch line = strings.TrimSuffix(line, "\n"); file.Name {
			case "keys":
				keys, _, _ := strings.Cut(line, "  # ")
				s.keys = append(s.keys, keysOf(strings.TrimSpace(keys))...)
			case "kept":
				var o map[string]any
				decode(t, line, &o)
				s.kept = append(s.kept, o)
			}
		}
	}
	if len(s.keys) == 0 || len(s.kept) == 0 {
		t.Fatalf("%s has no keys or keeps nothing", name)
	}
	return s
}

// However the keys of an evening come, what is kept is what was bowled.
func TestALateHandEndsInTheTrueRecord(t *testing.T) {
	s := readStory(t, "late_hand.txt")
	for _, by := range []struct {
		name string
		send func(c *terminal, keys []string)
	}{
		{"key by key, waiting for nothing", func(c *terminal, keys []string) {
			for _, key := range keys {
				c.send(key)
			}
		}},
		{"all in one write", func(c *terminal, keys []string) { c.send(strings.Join(keys, "")) }},
		{"byte by byte, each read for itself", func(c *terminal, keys []string) { c.sendApart(strings.Split(strings.Join(keys, ""), "")...) }},
	} {
		t.Run(by.name, func(t *testing.T) {
			store := filepath.Join(t.TempDir(), "evening.db")
			c := openBoard(t, store, terminalOptions{})
			c.contains("lanes tonight")
			by.send(c, s.keys)
			if code := c.wait(); code != exitDone {
				t.Errorf("it ended with %d", code)
			}
			c.sane()
			if diff := cmp.Diff(s.kept, keptIn(t, store)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// keptIn gives a store's games and deliveries field by field as a story tells them: with names for ids, without times.
func keptIn(t *testing.T, store string) []map[string]any {
	t.Helper()
	name := map[any]any{}
	for _, o := range objects(t, store, "student") {
		name[o["id"]] = o["name"]
	}
	for _, o := range objects(t, store, "session") {
		name[o["id"]] = "evening"
	}
	var kept []map[string]any
	for _, line := range exportLines(t, store) {
		var o map[string]any
		switch decode(t, line, &o); o["type"] {
		case "game":
			o["student"], o["session"] = name[o["student"]], name[o["session"]]
			name[o["id"]] = fmt.Sprint(o["student"], " ", o["number"])
			o["id"] = name[o["id"]]
			kept = append(kept, o)
		case "delivery":
			o["game"] = name[o["game"]]
			delete(o, "id")
			delete(o, "at")
			kept = append(kept, o)
		}
	}
	return kept
}
