package store

import (
	"bytes"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
)

// begunFromOne gives two stores that were begun from one, each with evenings of its own since.
func begunFromOne(t *testing.T) (a, b string) {
	t.Helper()
	dir := t.TempDir()
	first := filepath.Join(dir, "first.db")
	s := mustOpen(t, first)
	fill(t, s, 300, 50)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	begun := exported(t, first)
	a, b = filepath.Join(dir, "a.db"), filepath.Join(dir, "b.db")
	for i, path := range []string{a, b} {
		mustImport(t, path, begun)
		s := mustOpen(t, path)
		c := newCoach(t, uint64(i+7), func(step model.Step) {
			if err := s.Keep(step); err != nil {
				t.Fatal(err)
			}
		})
		c.number = 1000 * (i + 1)
		for range 2 {
			c.begin(3 + i)
			c.bowl(60)
			c.do(c.evening.Close(c.at))
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	return a, b
}

func TestTwoLaptopsAreMerged(t *testing.T) {
	a, b := begunFromOne(t)
	ofA, ofB := exported(t, a), exported(t, b)
	if bytes.Equal(ofA, ofB) {
		t.Fatal("the two stores hold the same")
	}
	for path, other := range map[string][]byte{a: ofB, b: ofA} {
		if taken := mustImport(t, path, other); taken.Sessions != 2 || taken.Deliveries != 120 || taken.Students != 0 {
			t.Errorf("taken %+v", taken)
		}
	}
	both := exported(t, a)
	same(t, exported(t, b), both)
	for _, path := range []string{a, b} {
		for _, again := range [][]byte{ofA, ofB, both} {
			want := Imported{Known: bytes.Count(again, []byte("\n")) - 1}
			if taken := mustImport(t, path, again); taken != want {
				t.Errorf("once more: taken %+v, want %+v", taken, want)
			}
		}
		same(t, exported(t, path), both)
	}
	ids := map[string]bool{}
	for line := range bytes.Lines(both) {
		_, rest, _ := strings.Cut(string(line), `"id":"`)
		id, _, _ := strings.Cut(rest, `"`)
		ids[id] = true
	}
	for line := range bytes.Lines(slices.Concat(ofA, ofB)) {
		_, rest, _ := strings.Cut(string(line), `"id":"`)
		if id, _, _ := strings.Cut(rest, `"`); !ids[id] {
			t.Fatalf("%s is in neither", id)
		}
	}
}

const (
	mineHere = firstLine + "\n" + `{"type":"cue","id":"c","axis":"release","text":"soft"}` + "\n" +
		`{"type":"student","id":"s","name":"Bo","hand":"right","average":172,"minor":false,"archived":false}` + "\n"
	mineThere = firstLine + "\n" + `{"type":"cue","id":"c","axis":"release","text":"softer"}` + "\n" +
		`{"type":"student","id":"s","name":"Bo","hand":"right","average":175,"minor":false,"notes":"n","archived":false}` + "\n" +
		`{"type":"student","id":"t","name":"Cy","hand":"left","minor":false,"archived":false}` + "\n" + goodSession + "\n"
)

func TestWhatDiffersIsNamed(t *testing.T) {
	for name, c := range map[string]struct{ kept, line, why string }{
		"a cue": {goodCue, strings.Replace(goodCue, "soft", "hard", 1),
			"line 2: the cue c is kept already and says something else of its text: --keep-mine keeps"},
		"a student": {mineHere[strings.LastIndex(mineHere, `{"type":"student"`):], strings.Split(mineThere, "\n")[2],
			"line 2: the student s is kept already and says something else of its average, notes: --keep-mine keeps"},
		"a session": {goodStudent + "\n" + goodSession, strings.Replace(goodSession, `"rotate":true`, `"rotate":false`, 1),
			"line 2: the session e is kept already and says something else of its rotate: to keep the store's own, take the line out"},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "settee.db")
			mustImport(t, path, []byte(firstLine+"\n"+c.kept))
			_, err := Import(path, strings.NewReader(firstLine+"\n"+c.line))
			if err == nil || !strings.HasPrefix(err.Error(), c.why) {
				t.Errorf("got %v, want %s", err, c.why)
			}
		})
	}
}

func TestTheStoresOwnCanBeKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustImport(t, path, []byte(mineHere))
	var first []byte
	for i, want := range []Imported{{Students: 1, Sessions: 1}, {Known: 2}} {
		taken, mine, err := ImportKeepingMine(path, strings.NewReader(mineThere))
		if err != nil {
			t.Fatal(err)
		}
		if taken != want {
			t.Errorf("taken %+v, want %+v", taken, want)
		}
		if len(mine) != 2 || mine[0].Kept.Ref().ID != "c" || mine[1].Kept.(model.Student).Average.Value != 172 ||
			strings.Join(mine[0].Keys, " ") != "text" || strings.Join(mine[1].Keys, " ") != "average notes" {
			t.Errorf("kept are %+v", mine)
		}
		got := exported(t, path)
		if i == 0 {
			first = got
		}
		same(t, got, first)
		if !strings.HasPrefix(string(got), mineHere) {
			t.Errorf("the store's own is not kept:\n%s", got)
		}
	}
	before := read(t, path)
	_, _, err := ImportKeepingMine(path, strings.NewReader(strings.Replace(mineThere, `"rotate":true`, `"rotate":false`, 1)))
	if err == nil || !strings.HasPrefix(err.Error(), "line 5: the session e is kept already") {
		t.Errorf("got %v", err)
	}
	if !bytes.Equal(read(t, path), before) {
		t.Error("the store has changed")
	}
}
