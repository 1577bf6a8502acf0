package store

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func exported(t testing.TB, path string) []byte {
	t.Helper()
	s := mustOpen(t, path)
	var out bytes.Buffer
	if err := s.Export(&out); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func mustImport(t testing.TB, path string, data []byte) Imported {
	t.Helper()
	taken, err := Import(path, bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return taken
}

func same(t testing.TB, got, want []byte) {
	t.Helper()
	if !bytes.Equal(got, want) {
		t.Error(cmp.Diff(strings.Split(string(want), "\n"), strings.Split(string(got), "\n")))
	}
}

func TestAnEmptyStoreExportsItsFirstLine(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustOpen(t, path).Close()
	same(t, exported(t, path), []byte("{\"type\":\"settee\",\"format\":1}\n"))
}

func TestAnImportIsExportedByteForByte(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	taken := mustImport(t, path, sample(t))
	if want := (Imported{Cues: 4, Students: 5, Sessions: 3, Games: 8, Deliveries: 32}); taken != want {
		t.Errorf("taken %+v, want %+v", taken, want)
	}
	same(t, exported(t, path), sample(t))
}

func TestAnImportTwiceChangesNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustImport(t, path, sample(t))
	taken := mustImport(t, path, sample(t))
	if want := (Imported{Known: 52}); taken != want {
		t.Errorf("taken %+v, want %+v", taken, want)
	}
	same(t, exported(t, path), sample(t))
}

// TestLinesMayComeInAnyOrder shuffles the lines, with what is referred to before what refers to it.
func TestLinesMayComeInAnyOrder(t *testing.T) {
	dice := rand.New(rand.NewPCG(1, 2))
	for range 5 {
		lines := sampleLines(t)
		dice.Shuffle(len(lines), func(i, j int) { lines[i], lines[j] = lines[j], lines[i] })
		rank := map[string]int{}
		for _, line := range lines {
			rank[string(line)] = dice.IntN(4)
			for i, kind := range []string{"student", "session", "game", "delivery"} {
				if bytes.HasPrefix(line, []byte(`{"type":"`+kind)) {
					rank[string(line)] = i
				}
			}
		}
		slices.SortStableFunc(lines, func(a, b []byte) int { return rank[string(a)] - rank[string(b)] })
		path := filepath.Join(t.TempDir(), "settee.db")
		mustImport(t, path, append([]byte(firstLine+"\n"), bytes.Join(lines, nil)...))
		same(t, exported(t, path), sample(t))
	}
}

func TestWhatIsExportedCanBeImported(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp(t.TempDir(), "")
		if err != nil {
			t.Fatal(err)
		}
		path := randomStore(rt, dir)
		want := exported(t, path)
		other := filepath.Join(dir, "other.db")
		if _, err := Import(other, bytes.NewReader(want)); err != nil {
			rt.Fatalf("%v\n%s", err, want)
		}
		if got := exported(t, other); !bytes.Equal(got, want) {
			rt.Fatal(cmp.Diff(string(want), string(got)))
		}
		if taken, err := Import(path, bytes.NewReader(want)); err != nil || taken != (Imported{Known: bytes.Count(want, []byte("\n")) - 1}) {
			rt.Fatalf("into the store it came from: %+v, %v", taken, err)
		}
		if diff := cmp.Diff(known(t, path), known(t, other)); diff != "" {
			rt.Fatal(diff)
		}
	})
}

// known gives what a store tells besides its export: the histories with their tallies, the evenings as they are resumed,
// and the number of deliveries.
func known(t testing.TB, path string) map[string]any {
	t.Helper()
	s := mustOpen(t, path)
	defer s.Close()
	out := map[string]any{}
	students, err := s.Students()
	if err != nil {
		t.Fatal(err)
	}
	for _, student := range students {
		if out["history of "+string(student.ID)], err = s.Played(student.ID, 0, nil); err != nil {
			t.Fatal(err)
		}
	}
	sessions, err := s.Sessions()
	if err != nil {
		t.Fatal(err)
	}
	for _, session := range sessions {
		k, err := s.Evening(session.ID)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := model.Resume(k); err != nil {
			t.Fatal(err)
		}
		k.Log, k.Up, k.Serial = nil, model.Up{}, 0
		out["evening "+string(session.ID)] = k
	}
	if out["count"], err = s.Count(); err != nil {
		t.Fatal(err)
	}
	return out
}

func TestAnImportedOpenSessionIsResumed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustImport(t, path, sample(t))
	s := mustOpen(t, path)
	k, err := s.Evening("open")
	if err != nil {
		t.Fatal(err)
	}
	e, err := model.Resume(k)
	if err != nil {
		t.Fatal(err)
	}
	if got := e.PairInView(); got != (model.Pair{21, 22}) {
		t.Errorf("the pair in view is %s", got)
	}
	if _, err := e.PutUp("_ji"); err != nil {
		t.Fatal(err)
	}
	if got := e.Rack("_ji"); got.Frame != 2 || got.Ball != 2 || got.Count != 1 {
		t.Errorf("the next ball finds %+v", got)
	}
	step, err := e.RecordSpare(time.Date(2026, 3, 11, 18, 45, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	if id := step.Changes[0].Ref.ID; id != "open-9" {
		t.Errorf("the next delivery has the id %s", id)
	}
	if err := s.Keep(step); err != nil {
		t.Fatal(err)
	}
	if step, err = e.Undo(); err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(step); err != nil {
		t.Fatal(err)
	}
	if _, err := e.Undo(); !errors.Is(err, model.ErrNothingToUndo) {
		t.Errorf("taking back goes beyond the import: %v", err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	same(t, exported(t, path), sample(t))
}

// TestMoreOfAnEveningIsTaken brings an evening in twice, the second time with more deliveries, into a store whose coach
// could take something back.
func TestMoreOfAnEveningIsTaken(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	lines := sampleLines(t)
	head := []byte(firstLine + "\n")
	first := slices.DeleteFunc(slices.Clone(lines), func(l []byte) bool {
		return bytes.Contains(l, []byte(`"id":"open-8"`)) || bytes.Contains(l, []byte(`"id":"open-7"`))
	})
	mustImport(t, path, append(head, bytes.Join(first, nil)...))
	s := mustOpen(t, path)
	k, err := s.Evening("open")
	if err != nil {
		t.Fatal(err)
	}
	e, err := model.Resume(k)
	if err != nil {
		t.Fatal(err)
	}
	step, err := e.SetPlace("Mill")
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(step); err != nil {
		t.Fatal(err)
	}
	if step, err = e.SetPlace(""); err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(step); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if taken := mustImport(t, path, sample(t)); taken != (Imported{Known: 50, Deliveries: 2}) {
		t.Errorf("taken %+v", taken)
	}
	same(t, exported(t, path), sample(t))
	s = mustOpen(t, path)
	if k, err = s.Evening("open"); err != nil {
		t.Fatal(err)
	}
	if len(k.Log) > 0 {
		t.Errorf("what came later can be passed over by taking back %+v", k.Log)
	}
}

func TestAStoreThatIsOpenTakesNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustOpen(t, path)
	if _, err := Import(path, bytes.NewReader(sample(t))); !errors.Is(err, ErrInUse) {
		t.Errorf("got %v", err)
	}
}

func TestAnImportThroughALinkReplacesWhatItLeadsTo(t *testing.T) {
	dir := t.TempDir()
	path, link := filepath.Join(dir, "settee.db"), filepath.Join(dir, "link.db")
	mustOpen(t, path).Close()
	if err := os.Symlink(path, link); err != nil {
		t.Skip("no symbolic links here")
	}
	mustImport(t, link, sample(t))
	same(t, exported(t, path), sample(t))
}

// TestIdsFromElsewhere brings in an open evening whose ids are none that Settee makes, in an order that is not that of
// time, and games whose ids look like another session's.
func TestIdsFromElsewhere(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	seat := func(student, order string) string {
		return `{"student":"` + student + `","lane":7,"order":` + order + `,"alternate":true,"out":false}`
	}
	game := func(id, session, student string) string {
		return `{"type":"game","id":"` + id + `","session":"` + session + `","student":"` + student + `","number":1,"kind":"game"}`
	}
	ball := func(id, game, minute string) string {
		return `{"type":"delivery","id":"` + id + `","game":"` + game + `","seq":1,"at":"2026-03-04T18:` + minute + `:00Z","lane":7,` +
			`"frame":1,"ball":1,"weights":[40,30,20,10],"bar":"A-","level":"new","seen":false,"dead":false,"standing":[],"pins":10,"foul":false}`
	}
	session := func(id, roster string) string {
		return `{"type":"session","id":"` + id + `","at":"2026-03-04T18:00:00Z","pairs":[[7,8]],"rotate":true,"roster":[` + roster + `]}`
	}
	data := []byte(strings.Join([]string{
		firstLine,
		`{"type":"student","id":"a","name":"A","hand":"right","minor":false,"archived":false}`,
		`{"type":"student","id":"b","name":"B","hand":"right","minor":false,"archived":false}`,
		session("e", seat("a", "1")+","+seat("b", "2")),
		game("g1", "e", "a"), ball("last", "g1", "20"),
		game("g2", "e", "b"), ball("first", "g2", "10"),
		session("f", seat("a", "1")),
		game("e-7", "f", "a"), ball("e-9", "e-7", "30"),
	}, "\n") + "\n")
	mustImport(t, path, data)
	same(t, exported(t, path), data)
	k, err := mustOpen(t, path).Evening("e")
	if err != nil {
		t.Fatal(err)
	}
	e, err := model.Resume(k)
	if err != nil {
		t.Fatal(err)
	}
	if err := e.Reopen(); err != nil {
		t.Fatal(err)
	}
	if edit, _ := e.Editing(); edit.Delivery != "last" {
		t.Errorf("the last recorded delivery is %s", edit.Delivery)
	}
	e.Leave()
	step, err := e.RecordAllDown(time.Date(2026, 3, 4, 18, 40, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	if id := step.Changes[0].Ref.ID; id != "e-10" {
		t.Errorf("the next delivery has the id %s", id)
	}
}
