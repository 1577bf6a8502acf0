package store

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// telling are the keys whose texts tell who somebody is, where or when, or may.
var telling = []string{
	"id", "game", "session", "student", "name", "text", "place", "pattern_kind", "before", "cue", "focus", "homework",
	"sentence", "next", "on", "hurts", "limits", "notes", "note", "average_on", "ball_up", "balls", "bowled", "at", "closed",
	"oiled", "stopped",
}

// toldIn gives the texts that a file has under the telling keys, read without this package.
func toldIn(t testing.TB, file []byte) map[string]bool {
	t.Helper()
	texts := map[string]bool{}
	var walk func(key string, v any)
	walk = func(key string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, in := range v {
				walk(k, in)
			}
		case []any:
			for _, in := range v {
				walk(key, in)
			}
		case string:
			if slices.Contains(telling, key) && v != "done" {
				texts[v] = true
			}
		}
	}
	for line := range bytes.Lines(file) {
		var v map[string]any
		if err := json.Unmarshal(line, &v); err != nil {
			t.Fatal(err)
		}
		walk("", v)
	}
	return texts
}

func written(t testing.TB, path string, write func(*Store, *bytes.Buffer) error) []byte {
	t.Helper()
	s := mustOpen(t, path)
	var out bytes.Buffer
	if err := write(s, &out); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func anonymously(t testing.TB, path string) []byte {
	return written(t, path, func(s *Store, out *bytes.Buffer) error { return s.ExportAnonymous(out) })
}

// tellsNothing holds a file to saying none of the texts that another one says, neither as one nor anywhere in it.
func tellsNothing(t testing.TB, anonymous, open []byte) {
	t.Helper()
	now := toldIn(t, anonymous)
	for text := range toldIn(t, open) {
		day, _, _ := strings.Cut(text, "T")
		if now[text] || len(text) > 5 && bytes.Contains(anonymous, []byte(text)) ||
			len(day) == len(time.DateOnly) && bytes.Contains(anonymous, []byte(day)) {
			t.Fatalf("%q is told:\n%s", text, anonymous)
		}
	}
}

func TestAnAnonymousExportTellsNobody(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp(t.TempDir(), "")
		if err != nil {
			t.Fatal(err)
		}
		path := randomStore(rt, dir)
		got := anonymously(t, path)
		tellsNothing(t, got, exported(t, path))
		if again := anonymously(t, path); !bytes.Equal(again, got) {
			rt.Fatal("the second file is another")
		}
		other := filepath.Join(dir, "other.db")
		if _, err := Import(other, bytes.NewReader(got)); err != nil {
			rt.Fatalf("%v\n%s", err, got)
		}
		same(t, exported(t, other), got)
		same(t, anonymously(t, other), got)
	})
}

func TestAnAnonymousExportKeepsWhatWasBowled(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustImport(t, path, sample(t))
	got := anonymously(t, path)
	tellsNothing(t, got, sample(t))
	for _, key := range []string{"standing", "pins", "letters", "frame", "ball", "average", "goal", "minor", "lane", "seq"} {
		value := regexp.MustCompile(`"` + key + `":(\[[^]]*]|[^,}]*)`)
		was, is := value.FindAll(sample(t), -1), value.FindAll(got, -1)
		if sorted(was) != sorted(is) {
			t.Errorf("%s was %s, is %s", key, was, is)
		}
	}
	if was, is := times(t, sample(t)), times(t, got); !slices.Equal(was, is) {
		t.Errorf("the times since the first evening were %v, are %v", was, is)
	}
	if !bytes.Contains(got, []byte(`"at":"2000-01-03T18:00:00Z"`)) {
		t.Errorf("the first evening is not on its day:\n%s", got)
	}
}

func sorted(values [][]byte) string {
	slices.SortFunc(values, bytes.Compare)
	return string(bytes.Join(values, []byte(" ")))
}

// times gives each time of a file as the time since the earliest evening's day.
func times(t *testing.T, file []byte) (since []time.Duration) {
	t.Helper()
	var all []time.Time
	for _, found := range regexp.MustCompile(`"at":"([^"]*)"`).FindAllSubmatch(file, -1) {
		at, err := time.Parse(time.RFC3339, string(found[1]))
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, at)
	}
	slices.SortFunc(all, time.Time.Compare)
	for _, at := range all {
		since = append(since, at.Sub(all[0].Truncate(24*time.Hour)))
	}
	return since
}

func TestAnAnonymousTableTellsNobody(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustImport(t, path, sample(t))
	got := written(t, path, func(s *Store, out *bytes.Buffer) error { return s.ExportCSVAnonymous(out) })
	open := toldIn(t, sample(t))
	rows, err := csv.NewReader(bytes.NewReader(got)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 33 {
		t.Errorf("%d rows", len(rows))
	}
	for _, row := range rows[1:] {
		for _, cell := range row {
			if open[cell] {
				t.Errorf("%q is told", cell)
			}
		}
	}
}

func TestATimeBeyondTheFormatsYearsStopsAtTheirEnd(t *testing.T) {
	a := &stands{moved: -365 * 24 * time.Hour}
	if got := a.day("1970-06-01"); got != "1970-01-01" {
		t.Errorf("got %s", got)
	}
	a.moved = -a.moved
	if got := a.day("9999-06-01"); got != "9999-12-31" {
		t.Errorf("got %s", got)
	}
}
