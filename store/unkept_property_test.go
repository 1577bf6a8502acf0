package store

import (
	"bytes"
	"errors"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"pgregory.net/rapid"
)

// However an evening goes on after a restart without what the disk refused, the file of that takes nothing from it: it is
// taken in or refused as a whole, and what was kept since is as it was, unless it is again what it was when the file was
// written. Serial ids are given anew then, and are other balls.
func TestWhatIsKeptSinceIsNeverReplaced(t *testing.T) {
	taken, refused := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		dir := t.TempDir()
		c := &wanderer{t: rt, s: mustOpen(t, filepath.Join(dir, "whole.db")), clock: time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)}
		c.evening(0)
		c.keep(c.e.RecordAllDown(c.now()))
		kept := rapid.IntRange(1, len(c.steps)).Draw(rt, "kept")
		doubtful := rapid.IntRange(0, min(3, kept-1)).Draw(rt, "kept after all")
		path := filepath.Join(dir, "settee.db")
		s := mustOpen(t, path)
		keepEach(t, s, c.steps[:kept])
		var lines bytes.Buffer
		if err := errors.Join(WriteUnkept(&lines, c.steps[kept-doubtful:]), c.s.Close()); err != nil {
			rt.Fatal(err)
		}
		atRestart, refusedTo := recordsOf(t, s), len(c.steps)

		// The evening is resumed from what is kept, an hour later.
		k, err := s.Evening(c.steps[0].Session)
		if err != nil {
			rt.Fatal(err)
		}
		if c.e, err = model.Resume(k); err != nil {
			rt.Fatal(err)
		}
		c.s, c.clock, c.students = s, c.clock.Add(time.Hour), nil
		c.students = append(c.students, k.Students...)
		for range rapid.IntRange(0, 12).Draw(rt, "actions since") {
			rapid.SampledFrom(c.actions()).Draw(rt, "since").do()
		}
		since := recordsOf(t, s)
		if err := s.Close(); err != nil {
			rt.Fatal(err)
		}
		before := exported(t, path)

		file := lines.String()
		_, err = ImportNewer(path, &lines, newerAt)
		if err != nil {
			refused++
			if !strings.HasPrefix(err.Error(), "line ") || !bytes.Equal(exported(t, path), before) {
				rt.Fatalf("refused (%v), and the store has changed", err)
			}
			return
		}
		taken++
		again := mustOpen(t, path)
		now := recordsOf(t, again)
		if err := again.Close(); err != nil {
			rt.Fatal(err)
		}
		hadThen := formsIn(c.steps[kept-doubtful : refusedTo])
		for ref, line := range since {
			if line != atRestart[ref] && now[ref] != line && !hadThen[ref][line] {
				rt.Fatalf("kept since was\n%snow it is\n%sby\n%s", line, now[ref], file)
			}
		}
		for ref := range atRestart {
			if _, there := since[ref]; !there && now[ref] != "" && !hadThen[ref][""] {
				rt.Fatalf("taken back since, and there again:\n%sby\n%s", now[ref], file)
			}
		}
	})
	t.Logf("%d files were taken, %d refused", taken, refused)
	if taken == 0 || refused == 0 {
		t.Errorf("%d files were taken, %d refused: no run was worth it", taken, refused)
	}
}

// formsIn gives the lines of the forms that records had in some steps, "" for none.
func formsIn(steps []model.Step) map[model.Ref]map[string]bool {
	forms := map[model.Ref]map[string]bool{}
	for _, step := range steps {
		for _, c := range step.Changes {
			if forms[c.Ref] == nil {
				forms[c.Ref] = map[string]bool{}
			}
			for _, r := range []model.Record{c.Before, c.After} {
				line := ""
				if r != nil {
					line = string(encodeLine(nil, r))
				}
				forms[c.Ref][line] = true
			}
		}
	}
	return forms
}

// recordsOf gives the lines of an export by what they tell of.
func recordsOf(t testing.TB, s *Store) map[model.Ref]string {
	t.Helper()
	var out bytes.Buffer
	if err := s.Export(&out); err != nil {
		t.Fatal(err)
	}
	lines := map[model.Ref]string{}
	err := eachLine(&out, func(line []byte, r model.Record) error {
		if r != nil {
			lines[r.Ref()] = string(line)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return lines
}
