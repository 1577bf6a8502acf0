package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
	"pgregory.net/rapid"
)

func examined(t testing.TB, path string) Examined {
	t.Helper()
	e, err := Examine(path, nil)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func TestASoundStoreIsFoundSound(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	mustImport(t, path, sample(t))
	before := read(t, path)
	e := examined(t, path)
	e.Bytes = 0
	if got := fmt.Sprint(e); got != fmt.Sprint(Examined{Cues: 4, Students: 5, Sessions: 3, Open: e.Open, Games: 8, Deliveries: 32}) {
		t.Errorf("examined: %+v", got)
	}
	if !bytes.Equal(before, read(t, path)) {
		t.Error("examining changed the file")
	}
}

// TestWhatACoachKeepsIsFoundSound examines what any evening leaves, closed or crashed.
func TestWhatACoachKeepsIsFoundSound(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		path := randomStore(rt, t.TempDir())
		if e := examined(t, path); !e.Sound() {
			rt.Fatal(e.Faults)
		}
	})
}

func TestTheStepsInTheJournalAreExamined(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	steps := evening(t, 40)
	keepEach(t, s, steps[:20])
	actionsOf(t, s, steps[0].Session)
	keepEach(t, s, steps[20:])
	path := filepath.Join(t.TempDir(), "crashed.db")
	write(t, path, read(t, s.Path()))
	before := read(t, path)
	if e := examined(t, path); !e.Sound() || e.Waiting != len(steps)-20 {
		t.Errorf("%d steps wait of %d, faults %q", e.Waiting, len(steps)-20, e.Faults)
	}
	if !bytes.Equal(before, read(t, path)) {
		t.Error("examining changed the file")
	}
}

// TestExamineFindsWhatRecordsContradict changes one thing behind the store's back in each case.
func TestExamineFindsWhatRecordsContradict(t *testing.T) {
	game := model.Ref{Kind: model.GameRecord, ID: "01J7EVENING000000000000001-1"}
	first := func(tx *bolt.Tx, name []byte) []byte {
		k, _ := bucket(tx, name).Cursor().First()
		return bytes.Clone(k)
	}
	for what, c := range map[string]struct {
		change func(tx *bolt.Tx) error
		says   string
	}{
		"a tally": {func(tx *bolt.Tx) error {
			row, _, err := gameAt(tx, place{1, ownSerial + 1})
			row.tally.Good++
			return errors.Join(err, putGameRow(tx, place{1, ownSerial + 1}, row))
		}, "do not add up"},
		"a delivery": {func(tx *bolt.Tx) error {
			return errors.Join(bucket(tx, bucketDeliveries).Delete(first(tx, bucketDeliveries)), countDeliveries(tx, -1))
		}, "is missing"},
		"the count": {func(tx *bolt.Tx) error { return countDeliveries(tx, 3) }, "deliveries are counted"},
		"a game":    {func(tx *bolt.Tx) error { return deleteGame(tx, game.ID) }, "its game " + string(game.ID) + " is missing"},
		"a student": {func(tx *bolt.Tx) error { return bucket(tx, bucketStudents).Delete([]byte(invented(3).ID)) },
			"its student " + string(invented(3).ID) + " is missing"},
		"a session": {func(tx *bolt.Tx) error { return bucket(tx, bucketSessions).Delete(first(tx, bucketSessions)) },
			"of a session with the number 1, which is missing"},
		"a history": {func(tx *bolt.Tx) error { return bucket(tx, bucketPlayed).Delete(first(tx, bucketPlayed)) },
			"games are in the students' histories"},
		"another's history": {func(tx *bolt.Tx) error {
			k := first(tx, bucketPlayed)
			copy(k, invented(7).ID)
			return putPlayed(tx, k)
		}, "the games of " + invented(7).Name + " (student " + string(invented(7).ID) + "), the evening of "},
		"an open session": {func(tx *bolt.Tx) error {
			row, _, err := sessionAt(tx, model.ID(first(tx, bucketSessions)))
			row.Closed = time.Time{}
			return errors.Join(err, putSessionRow(tx, row), putOpen(tx, []byte(row.ID), false))
		}, "are on the list of the open ones"},
		"a closed one on the list": {func(tx *bolt.Tx) error {
			row, _, err := sessionAt(tx, model.ID(first(tx, bucketSessions)))
			row.Closed = row.At.Add(time.Hour)
			return errors.Join(err, putSessionRow(tx, row), putOpen(tx, []byte(row.ID), true))
		}, "no open session is kept there"},
		"an id from elsewhere": {func(tx *bolt.Tx) error {
			return putForeign(tx, model.GameRecord, "elsewhere", found{place{1, 5}, "01J7EVENING000000000000001"})
		}, "the place of elsewhere: nothing is kept there"},
		"an impossible ball": {func(tx *bolt.Tx) error {
			k := first(tx, bucketDeliveries)
			row, err := decodeDeliveryRow("01J7EVENING000000000000001", k, bucket(tx, bucketDeliveries).Get(k))
			row.Frame++
			return errors.Join(err, bucket(tx, bucketDeliveries).Put(k, row.encode("01J7EVENING000000000000001", k)))
		}, "this one is ball 1 of frame 1"},
		"a lane that is none": {func(tx *bolt.Tx) error {
			k := first(tx, bucketDeliveries)
			row, err := decodeDeliveryRow("01J7EVENING000000000000001", k, bucket(tx, bucketDeliveries).Get(k))
			row.Lane = 9000
			return errors.Join(err, bucket(tx, bucketDeliveries).Put(k, row.encode("01J7EVENING000000000000001", k)))
		}, "lane 9000"},
		"two of one number": {func(tx *bolt.Tx) error {
			row, _, err := sessionAt(tx, "01J7EVENING000000000000002")
			row.number = 1
			return errors.Join(err, putSessionRow(tx, row))
		}, "it has the number of session"},
		"who is up": {func(tx *bolt.Tx) error {
			e := newEncoder()
			encodeUp(e, model.Up{OnPair: map[int]model.ID{7: "nobody"}})
			k := first(tx, bucketLive)
			return bucket(tx, bucketLive).Put(k, e.seal(k))
		}, "is not there"},
		"a gap in the actions": {func(tx *bolt.Tx) error {
			return putEntry(tx, "01J7EVENING000000000000002", 2, model.Entry{N: 9000, Student: invented(1).ID})
		}, "has a gap after"},
	} {
		t.Run(what, func(t *testing.T) {
			s := openTemp(t, Options{NoSync: true})
			fill(t, s, 600, 200)
			if err := errors.Join(s.update(c.change), s.Close()); err != nil {
				t.Fatal(err)
			}
			if e := examined(t, s.Path()); !strings.Contains(strings.Join(e.Faults, "\n"), c.says) {
				t.Errorf("examined:\n%s", strings.Join(e.Faults, "\n"))
			}
		})
	}
}

func TestExamineRefusesWhatOpenRefuses(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	if _, err := Examine(s.Path(), nil); !errors.Is(err, ErrInUse) {
		t.Errorf("a store that is open: %v", err)
	}
	if _, err := Examine(filepath.Join(t.TempDir(), "nothing.db"), nil); !errors.Is(err, ErrAbsent) {
		t.Errorf("no store: %v", err)
	}
	other := filepath.Join(t.TempDir(), "diary.txt")
	write(t, other, []byte("dear diary"))
	if _, err := Examine(other, nil); !errors.Is(err, ErrNotOurs) {
		t.Errorf("a diary: %v", err)
	}
	enough := errors.New("enough")
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Examine(s.Path(), func(int) error { return enough }); !errors.Is(err, enough) {
		t.Errorf("stopped: %v", err)
	}
}

func write(t testing.TB, path string, file []byte) {
	t.Helper()
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
}
