package store

import (
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"pgregory.net/rapid"
)

// newerAt is when newer files are imported.
var newerAt = time.Date(2026, 3, 5, 9, 0, 0, 0, time.UTC)

// However evenings go and wherever the disk begins to refuse, what was written elsewhere makes the store what it would
// have been. Of the first steps the disk may have some after all.
func TestWhatTheDiskRefusedIsBroughtIn(t *testing.T) {
	replaced, gone := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		dir := t.TempDir()
		whole, path := filepath.Join(dir, "whole.db"), filepath.Join(dir, "settee.db")
		c := &wanderer{t: rt, s: mustOpen(t, whole), clock: time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)}
		for n := range rapid.IntRange(1, 2).Draw(rt, "evenings") {
			c.evening(n)
		}
		// Most evenings end with calls that are corrected while the disk refuses.
		for range 3 {
			c.keep(c.e.RecordAllDown(c.now()))
		}
		kept := len(c.steps)
		for range rapid.IntRange(0, 3).Draw(rt, "taken back") {
			c.keep(c.e.Undo())
		}
		c.reopen()
		c.call()
		c.keep(c.e.RecordNamed(c.now()))
		c.e.Leave()
		c.keep(c.e.RecordAllDown(c.now()))
		if rapid.Bool().Draw(rt, "anywhere") {
			kept = rapid.IntRange(0, len(c.steps)).Draw(rt, "kept")
		}
		doubtful := rapid.IntRange(0, min(3, kept)).Draw(rt, "kept after all")
		s := mustOpen(t, path)
		keepEach(t, s, c.steps[:kept])
		var lines bytes.Buffer
		if err := errors.Join(WriteUnkept(&lines, c.steps[kept-doubtful:]), s.Close(), c.s.Close()); err != nil {
			rt.Fatal(err)
		}
		file := lines.String()
		got, err := ImportNewer(path, &lines, newerAt)
		if err != nil {
			rt.Fatalf("%v\n%s", err, file)
		}
		want := exported(t, whole)
		if have := exported(t, path); !bytes.Equal(have, want) {
			rt.Fatalf("kept are\n%snot\n%sfrom\n%s", have, want, file)
		}
		if e := examined(t, path); !e.Sound() {
			rt.Fatal(e.Faults)
		}
		if (got.Copy != "") != (got.Replaced != Imported{} || got.Gone != Imported{}) {
			rt.Fatalf("%+v", got)
		}
		replaced, gone = replaced+got.Replaced.Deliveries, gone+got.Gone.Deliveries
		again, err := ImportNewer(path, strings.NewReader(file), newerAt)
		if want := (Renewed{Taken: Imported{Known: records(file)}}); err != nil || again != want {
			rt.Fatalf("once more %+v, %v", again, err)
		}
	})
	t.Logf("%d deliveries were replaced and %d went", replaced, gone)
	if replaced == 0 || gone == 0 {
		t.Errorf("%d deliveries were replaced and %d went: no run was worth it", replaced, gone)
	}
}

// records counts the records that a file speaks of.
func records(file string) int {
	return strings.Count(file, "\n") - 1 - strings.Count(file, `"type":"was"`)
}

// correctedEvening gives the steps of an evening in which, after the first kept ones, a ball is corrected, another taken
// back and called anew, and the pair moved.
func correctedEvening(t *testing.T) (steps []model.Step, kept int) {
	c := newCoach(t, 9, func(step model.Step) { steps = append(steps, step) })
	c.begin(2)
	for range 4 {
		c.do(c.evening.RecordCount(c.at, 3))
	}
	kept = len(steps)
	c.do(c.evening.Undo())
	c.do(c.evening.RecordCount(c.at, 5))
	c.ok(c.evening.Reopen())
	c.ok(c.evening.Lower(model.Balance))
	c.do(c.evening.RecordCount(c.at, 4))
	c.do(c.evening.MovePair(21, true))
	c.do(c.evening.RecordCount(c.at, 2))
	return steps, kept
}

func TestACorrectedBallAndAMovedPairAreBroughtIn(t *testing.T) {
	steps, kept := correctedEvening(t)
	dir := t.TempDir()
	path, file := filepath.Join(dir, "settee.db"), filepath.Join(dir, "unkept.jsonl")
	s, all := openTemp(t, Options{NoSync: true}), mustOpen(t, path)
	keepEach(t, s, steps)
	keepEach(t, all, steps[:kept])
	if _, err := SaveUnkept(file, steps[kept:]); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(all.Close(), s.Close()); err != nil {
		t.Fatal(err)
	}
	before := exported(t, path)
	lines := read(t, file)
	if _, err := Import(path, bytes.NewReader(lines)); err == nil || !strings.Contains(err.Error(), "--newer takes the file's") {
		t.Errorf("without being told: %v", err)
	}
	got, err := ImportNewer(path, bytes.NewReader(lines), newerAt)
	if err != nil {
		t.Fatal(err)
	}
	if got.Replaced.Sessions != 1 || got.Gone != (Imported{Deliveries: 1}) || got.Taken.Deliveries != 2 {
		t.Errorf("%+v of\n%s", got, lines)
	}
	same(t, exported(t, path), exported(t, s.Path()))
	same(t, exported(t, got.Copy), before)
	if e := examined(t, path); !e.Sound() {
		t.Error(e.Faults)
	}

	// The evening goes on on the pair it was moved to, and has nothing to take back.
	again := mustOpen(t, path)
	k, err := again.Evening(steps[0].Session)
	if err != nil {
		t.Fatal(err)
	}
	e, err := model.Resume(k)
	if err != nil {
		t.Fatal(err)
	}
	if len(k.Log) != 0 || k.Up.OnPair[9] != "" || k.Up.OnPair[21] == "" || e.Deliveries() != 5 {
		t.Errorf("%d actions, up are %v, %d deliveries", len(k.Log), k.Up, e.Deliveries())
	}
}

// Taking back what was done before would bring the student's earlier record back.
func TestANewerStudentEndsWhatCanBeTakenBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	s := mustOpen(t, path)
	steps := evening(t, 10)
	keepEach(t, s, steps)
	if actionsOf(t, s, steps[0].Session) == 0 {
		t.Fatal("nothing can be taken back")
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	student := invented(1)
	student.Notes = "newer"
	got, err := ImportNewer(path, strings.NewReader(firstLine+"\n"+string(encodeLine(nil, student))), newerAt)
	if err != nil || got.Replaced != (Imported{Students: 1}) {
		t.Errorf("%+v, %v", got, err)
	}
	if n := actionsOf(t, mustOpen(t, path), steps[0].Session); n != 0 {
		t.Errorf("%d actions can be taken back", n)
	}
}

// Of a newer file all is taken or nothing, as of any.
func TestANewerFileIsRefusedByTheLine(t *testing.T) {
	line := func(with string) string {
		for line := range bytes.Lines(sample(t)) {
			if bytes.Contains(line, []byte(with)) {
				return string(line)
			}
		}
		t.Fatalf("no line has %s", with)
		return ""
	}
	const first = `"id":"01HWA000000000000000000000-`
	ball, game := line(first+`5"`), line(first+`4"`)
	change := func(line, old, new string) string {
		t.Helper()
		if !strings.Contains(line, old) {
			t.Fatalf("%s has no %s", line, old)
		}
		return strings.Replace(line, old, new, 1)
	}
	gone := func(record, id string) string {
		return `{"type":"gone","record":"` + record + `","id":"` + id + `"}` + "\n"
	}
	// told puts before a line that the store may hold the record as another line has it.
	told := func(record, id, as, line string) string {
		sum := fmt.Sprintf("%08x", crc32.Checksum([]byte(as), castagnoli))
		return `{"type":"was","record":"` + record + `","id":"` + id + `","sums":["` + sum + `"]}` + "\n" + line
	}
	const evening = "01HWA000000000000000000000"
	for name, c := range map[string]struct{ lines, why string }{
		"a ball that makes the next impossible": {change(ball, `"standing":[10],"pins":9`, `"standing":[],"pins":10`), "line 2: "},
		"a game that becomes a drill":           {change(game, `"kind":"game"`, `"kind":"drill"`), "line 2: "},
		"a ball taken back before others": {told("delivery", evening+"-5", ball, gone("delivery", evening+"-5")),
			"line 3: the game 01HWA000000000000000000000-4 has no delivery with the seq 1 before this one"},
		"a game taken back with its balls": {told("game", evening+"-4", game, gone("game", evening+"-4")),
			"line 3: the game 01HWA000000000000000000000-4 cannot go: the delivery 01HWA000000000000000000000-5 is of it"},
		"a session taken back with games": {told("session", evening, line(`"type":"session","id":"`+evening+`"`), gone("session", evening)),
			"line 3: the session 01HWA000000000000000000000 cannot go: it has games"},
		"a game of another evening": {change(game, `"session":"01HWA000000000000000000000"`, `"session":"open"`),
			"line 2: the game 01HWA000000000000000000000-4 is kept in the session 01HWA000000000000000000000, it cannot be in"},
		"a ball in another evening": {told("delivery", evening+"-5", ball, change(ball, `"game":"01HWA000000000000000000000-4"`, `"game":"open-1"`)),
			"line 3: the delivery 01HWA000000000000000000000-5 is kept in the session 01HWA000000000000000000000, it cannot be in"},
		"a student who is not there": {change(game, `"student":"`, `"student":"nobody-`), "line 2: the student nobody-"},
		"two lines that differ": {change(ball, `"lane":7`, `"lane":8`) + ball,
			"line 3: the delivery 01HWA000000000000000000000-5 is in the file twice, and line 2 says something else of its lane"},
		"two games that differ": {change(game, `"note":"`, `"note":"x `) + game,
			"line 3: the game 01HWA000000000000000000000-4 is in the file twice, and line 2 says something else of its note"},
		"another ball under the id": {change(ball, `"at":"2026-03-04T18:0`, `"at":"2026-03-04T19:0`),
			"line 2: under the id 01HWA000000000000000000000-5 the file has the ball of Zuzana Kvetáková, game 2, frame 1, ball 1, "},
		"a ball of another student": {change(ball, `"game":"01HWA000000000000000000000-4"`, `"game":"open-1"`),
			"line 2: under the id 01HWA000000000000000000000-5 the file has the ball of Bo, game 1, frame 1, ball 1, "},
		"a ball changed since": {told("delivery", evening+"-5", change(ball, `"lane":7`, `"lane":8`), change(ball, `"lane":7`, `"lane":9`)),
			"line 3: the ball of Zuzana Kvetáková, game 2, frame 1, ball 1, "},
		"a game changed since": {told("game", evening+"-4", ball, change(game, `"note":"`, `"note":"x `)), "line 3: the game "},
		"a ball taken back since": {told("delivery", evening+"-999", ball, change(ball, evening+`-5"`, evening+`-999"`)),
			"line 3: the delivery 01HWA000000000000000000000-999 is not kept any more"},
		"a ball that came since": {told("delivery", evening+"-5", game, gone("delivery", evening+"-5")),
			"line 3: the file takes the delivery 01HWA000000000000000000000-5 back, under which the ball of Zuzana Kvetáková, "},
		"taken back without a word of what": {gone("delivery", evening+"-5"), "line 2: the file takes the ball of Zuzana Kvetáková, "},
		"a record of no kind":               {gone("lane", "7"), `line 2: record: "lane" is none of`},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "settee.db")
			mustImport(t, path, sample(t))
			before := read(t, path)
			got, err := ImportNewer(path, strings.NewReader(firstLine+"\n"+c.lines), newerAt)
			if err == nil || !strings.HasPrefix(err.Error(), c.why) || got != (Renewed{}) {
				t.Errorf("got %v, %+v, want %s", err, got, c.why)
			}
			if left, err := os.ReadDir(dir); err != nil || len(left) != 1 || !bytes.Equal(read(t, path), before) {
				t.Errorf("the store has changed, or there are %v, %v", left, err)
			}
		})
	}
	t.Run("what was taken back is not taken away unless it is said", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "settee.db")
		mustImport(t, path, sample(t))
		_, err := Import(path, strings.NewReader(firstLine+"\n"+gone("cue", "cue-3")+gone("cue", "none")))
		if err == nil || err.Error() != "line 2: the cue cue-3 was taken back and is kept here: --newer takes it away" {
			t.Error(err)
		}
	})
}

// Where the copy of the store as it was cannot be made, nothing is taken.
func TestANewerFileIsNotTakenWithoutACopy(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "settee.db")
	mustImport(t, path, []byte(mineHere))
	write(t, filepath.Join(dir, "settee-backups"), nil)
	before := read(t, path)
	if _, err := ImportNewer(path, strings.NewReader(mineThere), newerAt); err == nil || !strings.Contains(err.Error(), "cop") {
		t.Error(err)
	}
	if !bytes.Equal(read(t, path), before) {
		t.Error("the store has changed")
	}
	if err := os.Remove(filepath.Join(dir, "settee-backups")); err != nil {
		t.Fatal(err)
	}
	got, err := ImportNewer(path, strings.NewReader(mineThere), newerAt)
	if err != nil || got.Replaced != (Imported{Cues: 1, Students: 1}) || got.Taken != (Imported{Students: 1, Sessions: 1}) {
		t.Errorf("%+v, %v", got, err)
	}
	if want := BackupName(path, newerAt); filepath.Base(got.Copy) != want {
		t.Errorf("the copy is %s, not %s", got.Copy, want)
	}
	same(t, exported(t, path), []byte(mineThere))
}
