package store

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	gocmp "github.com/google/go-cmp/cmp"
	bolt "go.etcd.io/bbolt"
	"pgregory.net/rapid"
)

// eveningsOf gives a student's sheets evening by evening, as the evenings are resumed.
func eveningsOf(t testing.TB, s *Store, student model.ID) [][]model.DatedSheet {
	t.Helper()
	var rows []sessionRow
	if err := s.view(func(tx *bolt.Tx) (err error) { rows, err = sessionRows(tx); return err }); err != nil {
		t.Fatal(err)
	}
	slices.SortFunc(rows, func(a, b sessionRow) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.number, b.number)) })
	var out [][]model.DatedSheet
	for _, row := range rows {
		k, err := s.Evening(row.ID)
		if err != nil {
			t.Fatal(err)
		}
		e, err := model.Resume(k)
		if err != nil {
			t.Fatal(err)
		}
		var evening []model.DatedSheet
		for _, sheet := range e.Sheets(student) {
			evening = append(evening, model.DatedSheet{Sheet: sheet, At: row.At})
		}
		if len(evening) > 0 {
			out = append(out, evening)
		}
	}
	return out
}

// games gives those in which a ball was bowled.
func games(evening []model.DatedSheet) []model.DatedSheet {
	return slices.DeleteFunc(slices.Clone(evening), func(d model.DatedSheet) bool {
		return d.Game.Kind != model.KindGame || len(d.Deliveries) == 0
	})
}

// lastWithGame gives the place of the last evening with a game, of the last one where none has one, at least 0.
func lastWithGame(evenings [][]model.DatedSheet) int {
	for i, evening := range slices.Backward(evenings) {
		if len(games(evening)) > 0 {
			return i
		}
	}
	return max(0, len(evenings)-1)
}

// finishedOf gives the last n finished games of evenings.
func finishedOf(evenings [][]model.DatedSheet, n int) []model.DatedSheet {
	all := games(slices.Concat(evenings...))
	all = slices.DeleteFunc(all, func(d model.DatedSheet) bool { return !d.Finished() })
	return all[max(0, len(all)-n):]
}

// lastOf gives the last n games of evenings, and what else was bowled in their evenings.
func lastOf(evenings [][]model.DatedSheet, n int) []model.DatedSheet {
	all := games(slices.Concat(evenings...))
	all = all[max(0, len(all)-n):]
	wanted, there := map[model.ID]bool{}, map[model.ID]bool{}
	for _, g := range all {
		wanted[g.Game.ID], there[g.Game.Session] = true, true
	}
	return slices.DeleteFunc(slices.Concat(evenings...), func(d model.DatedSheet) bool {
		if d.Game.Kind == model.KindGame {
			return !wanted[d.Game.ID]
		}
		return !there[d.Game.Session]
	})
}

func sameSheets(t testing.TB, what string, got, want []model.DatedSheet) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %d sheets are read, there are %d", what, len(got), len(want))
	}
	for i := range want {
		if !reflect.DeepEqual(got[i].Sheet, want[i].Sheet) || !got[i].At.Equal(want[i].At) {
			t.Fatalf("%s: sheet %d is of %v, it should be of %v: %s", what, i, got[i].At, want[i].At,
				gocmp.Diff(want[i].Deliveries, got[i].Deliveries))
		}
	}
}

func history(t testing.TB, s *Store, student model.ID, of Scope) History {
	t.Helper()
	h, err := s.History(student, of)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// checkHistory compares every scope of a student's history with what the evenings hold.
func checkHistory(t testing.TB, s *Store, student model.ID) {
	t.Helper()
	evenings := eveningsOf(t, s, student)
	first := slices.IndexFunc(evenings, func(e []model.DatedSheet) bool { return len(games(e)) > 0 })
	check := func(what string, of Scope, over []model.DatedSheet, before int) {
		t.Helper()
		h := history(t, s, student, of)
		sameSheets(t, what, h.Over, over)
		sameSheets(t, "before "+what, h.Earlier, finishedOf(evenings[:before], of.Earlier))
		if first < 0 {
			sameSheets(t, "the first evening", h.First, nil)
			return
		}
		sameSheets(t, "the first evening", h.First, evenings[first])
	}
	check("everything", Scope{}, slices.Concat(evenings...), lastWithGame(evenings))
	check("everything, and two earlier", Scope{Earlier: 2}, slices.Concat(evenings...), lastWithGame(evenings))
	for n := 1; n <= 4; n++ {
		over := lastOf(evenings, n)
		last := slices.IndexFunc(evenings, func(e []model.DatedSheet) bool {
			return len(over) > 0 && e[0].Game.Session == over[len(over)-1].Game.Session
		})
		check("the last games", Scope{Last: n, Earlier: n}, over, max(0, last))
	}
	for i, evening := range evenings {
		check("an evening", Scope{Session: evening[0].Game.Session, Earlier: 3}, evening, i)
		for _, sheet := range evening {
			check("a game", Scope{Game: sheet.Game.ID, Earlier: 3}, []model.DatedSheet{sheet}, i)
		}
	}
}

func TestAHistoryIsWhatTheEveningsHold(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp(t.TempDir(), "")
		if err != nil {
			t.Fatal(err)
		}
		path, other := randomStore(rt, dir), filepath.Join(dir, "other.db")
		// The same with ids that the program would not give.
		elsewhere := lastFirst(exported(t, path))
		for _, session := range []string{"01HWA000000000000000000000", "e", "-_-"} {
			elsewhere = bytes.ReplaceAll(elsewhere, []byte(`"`+session+`-`), []byte(`"z`+session+`-`))
		}
		mustImport(t, other, elsewhere)
		for _, path := range []string{path, other} {
			s := mustOpen(t, path)
			students, err := s.Students()
			if err != nil {
				t.Fatal(err)
			}
			for _, student := range students {
				checkHistory(t, s, student.ID)
			}
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// lastFirst gives an export with the games, and the deliveries, from the last to the first.
func lastFirst(export []byte) []byte {
	lines := bytes.SplitAfter(export, []byte("\n"))
	for _, kind := range []string{"game", "delivery"} {
		other := func(line []byte) bool { return !bytes.HasPrefix(line, []byte(`{"type":"`+kind+`"`)) }
		from := slices.IndexFunc(lines, func(line []byte) bool { return !other(line) })
		if from >= 0 {
			slices.Reverse(lines[from : from+slices.IndexFunc(lines[from:], other)])
		}
	}
	return slices.Concat(lines...)
}

func TestAHistoryOfASeason(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := fill(t, s, 1900, 100)
	for n := range 8 {
		checkHistory(t, s, invented(n).ID)
	}
	h := history(t, s, invented(0).ID, Scope{Last: 3, Earlier: 5})
	if len(h.Over) != 3 || len(h.Earlier) != 5 || len(h.First) == 0 {
		t.Errorf("%d games, %d earlier ones and %d of the first evening", len(h.Over), len(h.Earlier), len(h.First))
	}
	all := history(t, s, invented(0).ID, Scope{Earlier: 5})
	if all.First[0].Sheet != all.Over[0].Sheet {
		t.Error("the first evening is read twice")
	}
	last := newCoach(t, 2, func(step model.Step) { keepEach(t, s, []model.Step{step}) })
	last.number, last.at = c.number, c.at
	last.begin(2)
	h = history(t, s, invented(0).ID, Scope{Session: last.session(), Earlier: 3})
	if len(h.Over) != 0 || !reflect.DeepEqual(h.Earlier, history(t, s, invented(0).ID, Scope{Session: last.session(), Earlier: 9}).Earlier[6:]) {
		t.Errorf("of an evening without a ball %d sheets are read, and %d earlier ones", len(h.Over), len(h.Earlier))
	}
	h = history(t, s, "nobody", Scope{Session: c.session(), Earlier: 5})
	if len(h.Over)+len(h.Earlier)+len(h.First) != 0 {
		t.Errorf("nobody has bowled %+v", h)
	}
}

func TestAHistoryOfWhatIsNotKept(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	fill(t, s, 100, 100)
	ada, bo := invented(0).ID, invented(1).ID
	game := history(t, s, bo, Scope{}).Over[0].Game.ID
	for what, test := range map[string]struct {
		of   Scope
		want error
	}{
		"an unknown session":        {Scope{Session: "elsewhere"}, ErrNoSession},
		"an unknown game":           {Scope{Game: "elsewhere"}, ErrNoGame},
		"another student's game":    {Scope{Game: game}, ErrNoGame},
		"a game rather than all":    {Scope{Game: "elsewhere", Last: 3}, ErrNoGame},
		"a session rather than all": {Scope{Session: "elsewhere", Last: 3}, ErrNoSession},
	} {
		h, err := s.History(ada, test.of)
		if !errors.Is(err, test.want) || !strings.Contains(err.Error(), string(test.of.Game+test.of.Session)) || h.Over != nil {
			t.Errorf("%s: %+v, %v", what, h, err)
		}
	}
}

// TestADamagedHistoryIsNeverReadAsTrue puts wrong bits into deliveries and takes them away: what is read of one student is
// what was written, or an error.
func TestADamagedHistoryIsNeverReadAsTrue(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	fill(t, s, 160, 100)
	student := invented(0).ID
	want := history(t, s, student, Scope{})
	own := map[model.ID]bool{}
	for _, sheet := range want.Over {
		own[sheet.Game.ID] = true
	}
	read, refused, random := 0, 0, rand.New(rand.NewPCG(5, 6))
	look := func(what string, own bool) {
		h, err := s.History(student, Scope{})
		if err != nil {
			refused++
			refusedInWords(t, what, err, ErrDamaged, ErrNewer)
			return
		}
		if read++; own {
			t.Errorf("%s: nothing is said", what)
		}
		sameSheets(t, what, h.Over, want.Over)
	}
	for _, row := range deliveryRows(t, s) {
		mine := own[row.Game]
		putRaw(t, s, row.key, nil)
		look("a delivery that is gone", mine)
		for i := range row.value {
			changed := bytes.Clone(row.value)
			changed[i] ^= 1 << random.IntN(8)
			putRaw(t, s, row.key, changed)
			look(fmt.Sprintf("a wrong bit in byte %d", i), mine)
		}
		putRaw(t, s, row.key, row.value)
	}
	if read == 0 || refused == 0 {
		t.Errorf("%d were read, %d refused", read, refused)
	}
}

type rawRow struct {
	deliveryRow
	key, value []byte
}

func deliveryRows(t testing.TB, s *Store) (out []rawRow) {
	t.Helper()
	sessions, err := s.Sessions()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.view(func(tx *bolt.Tx) error {
		return each(bucket(tx, bucketDeliveries), nil, func(k, v []byte) error {
			row, err := decodeDeliveryRow(sessions[0].ID, k, v)
			out = append(out, rawRow{row, bytes.Clone(k), bytes.Clone(v)})
			return err
		})
	}); err != nil {
		t.Fatal(err)
	}
	return out
}

// putRaw puts a value where a delivery is kept, nil for none.
func putRaw(t testing.TB, s *Store, key, value []byte) {
	t.Helper()
	if err := s.update(func(tx *bolt.Tx) error {
		if value == nil {
			return bucket(tx, bucketDeliveries).Delete(key)
		}
		return bucket(tx, bucketDeliveries).Put(key, value)
	}); err != nil {
		t.Fatal(err)
	}
}
