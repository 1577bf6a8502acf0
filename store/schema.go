package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// The buckets. Deliveries lie flat in the order of recording, which BenchmarkKeyOrder found to be the smallest, and
// the quickest to read an evening in.
var (
	// bucketAbout holds who wrote the file, and the schema's version.
	bucketAbout = []byte("about")
	// bucketCues, bucketStudents and bucketSessions are keyed by id.
	bucketCues     = []byte("cues")
	bucketStudents = []byte("students")
	bucketSessions = []byte("sessions")
	// bucketOpen lists the sessions that are not closed, by id, so that a start need not read all to find
	// them. Its sequence is the number of its entries.
	bucketOpen = []byte("open")
	// bucketGames and bucketDeliveries are keyed by place. The sequence of bucketDeliveries is the number of its records.
	bucketGames      = []byte("games")
	bucketDeliveries = []byte("deliveries")
	// bucketForeign says where games and deliveries are whose ids are not of their session's own making, by kind and id.
	bucketForeign = []byte("foreign")
	// bucketPlayed lists each student's games in the order of time.
	bucketPlayed = []byte("played")
	// bucketActions holds the actions that can be taken back, by session number and action number, but for those that
	// recorded one ball and nothing else: these are told by the delivery itself.
	bucketActions = []byte("actions")
	// bucketLive holds who is up, by session id, of the sessions that have a list of actions.
	bucketLive = []byte("live")
	// bucketJournal holds the journal's value, which is written in place.
	bucketJournal = []byte("journal")
)

// buckets lists all of them.
var buckets = [][]byte{
	bucketAbout, bucketCues, bucketStudents, bucketSessions, bucketGames, bucketDeliveries, bucketForeign, bucketPlayed,
	bucketActions, bucketLive, bucketJournal, bucketOpen,
}

// bucketsOf lists those that a store of a version has.
func bucketsOf(version uint32) [][]byte {
	if version < versionOpen {
		return slices.DeleteFunc(slices.Clone(buckets), func(name []byte) bool { return string(name) == string(bucketOpen) })
	}
	return buckets
}

var (
	keyApplication = []byte("application")
	keySchema      = []byte("schema")
)

const (
	// application marks a file as a store of this program.
	application = "coach.settee/store"
	// schemaVersion rises when an older program would misread or destroy what a newer one wrote. A field that is put behind
	// a bit of a value's flags is read past by an older program, but lost when it writes that record again, so such a field
	// raises the version too. Those that came before the first release are all of version 1: no program that lacks them is
	// in anyone's hands.
	schemaVersion = versionOpen
	// versionOpen is the first version that lists the open sessions.
	versionOpen = 2
)

// appended are the buckets whose new keys come at the end: their pages are filled to the brim.
func appended(name []byte) bool {
	switch string(name) {
	case string(bucketGames), string(bucketDeliveries), string(bucketActions):
		return true
	}
	return false
}

// bucket gives a bucket as this schema fills it.
func bucket(tx *bolt.Tx, name []byte) *bolt.Bucket {
	b := tx.Bucket(name)
	if appended(name) {
		b.FillPercent = 1
	}
	return b
}

// initialise makes an empty store.
func initialise(tx *bolt.Tx) error {
	for _, name := range buckets {
		if _, err := tx.CreateBucket(name); err != nil {
			return err
		}
	}
	about := tx.Bucket(bucketAbout)
	if err := about.Put(keyApplication, []byte(application)); err != nil {
		return err
	}
	if err := putVersion(tx, schemaVersion); err != nil {
		return err
	}
	if err := putRound(tx, 1); err != nil {
		return err
	}
	return tx.Bucket(bucketJournal).Put(keyJournal, emptyJournal())
}

// recognise tells whether the file is a store that this program can read, or gives the refusal.
func recognise(tx *bolt.Tx, path string) error { return recogniseUpTo(tx, path, schemaVersion) }

// recogniseUpTo is recognise for a program of a version.
func recogniseUpTo(tx *bolt.Tx, path string, version uint32) error {
	about := tx.Bucket(bucketAbout)
	if about == nil || string(about.Get(keyApplication)) != application {
		return notOurs(path, "it is another program's database")
	}
	v := about.Get(keySchema)
	if len(v) != 4 {
		return damaged(path, fmt.Errorf("its version has %d bytes", len(v)))
	}
	switch n := binary.BigEndian.Uint32(v); {
	case n > version:
		return newer(path, fmt.Sprintf("its version is %d, this one reads up to %d", n, version))
	case n == 0:
		return damaged(path, errors.New("its version is 0"))
	case n > schemaVersion:
		// What it holds is for its migrations to know.
		return nil
	}
	for _, name := range bucketsOf(binary.BigEndian.Uint32(v)) {
		if tx.Bucket(name) == nil {
			return damaged(path, fmt.Errorf("it has no %s", name))
		}
	}
	return nil
}

// place is where a game or a delivery is: its session's number, and its own in that session.
type place struct {
	session uint32
	serial  uint32
}

// ownSerial marks the serials that ids tell of. Ids from elsewhere are numbered below it as they come, so that what was
// brought in lies before what is recorded after it.
const ownSerial = 1 << 31

func (p place) key() []byte {
	return binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(make([]byte, 0, 8), p.session), p.serial)
}

func placeOf(key []byte) (place, error) {
	if len(key) != 8 {
		return place{}, fmt.Errorf("a key of %d bytes", len(key))
	}
	return place{binary.BigEndian.Uint32(key), binary.BigEndian.Uint32(key[4:])}, nil
}

// number gives the serial as the id tells it, 0 for an id from elsewhere.
func (p place) number() int {
	if p.serial < ownSerial {
		return 0
	}
	return int(p.serial - ownSerial)
}

// serialIn gives the serial of an id that is of the session's own making: what model.Serial says, up to ownSerial, but
// without making a text for it, since each row asks several times.
func serialIn(session, id model.ID) (uint32, bool) {
	digits := len(id) - len(session) - 1
	if digits < 1 || digits > 10 || id[len(session)] != '-' || id[:len(session)] != session {
		return 0, false
	}
	var n uint64
	for _, c := range []byte(id[len(session)+1:]) {
		if c < '0' || c > '9' || n == 0 && c == '0' {
			return 0, false
		}
		n = n*10 + uint64(c-'0')
	}
	return ownSerial + uint32(n), n < ownSerial
}

// sessionIn gives the session whose own making an id would be.
func sessionIn(id model.ID) (model.ID, bool) {
	i := strings.LastIndexByte(string(id), '-')
	if i < 1 {
		return "", false
	}
	session := id[:i]
	_, ok := serialIn(session, id)
	return session, ok
}

func sessionPrefix(number uint32) []byte { return binary.BigEndian.AppendUint32(nil, number) }

func actionKey(number uint32, n int) []byte {
	return binary.BigEndian.AppendUint32(sessionPrefix(number), uint32(n))
}

func foreignKey(kind model.RecordKind, id model.ID) []byte {
	return append([]byte{byte(kind)}, id...)
}

// playedKey puts a student's games in the order of time. An id never holds the byte 0.
func playedKey(student model.ID, at time.Time, p place) []byte {
	key := playedPrefix(student)
	key = binary.BigEndian.AppendUint64(key, uint64(at.Unix())^(1<<63))
	return append(key, p.key()...)
}

func playedPrefix(student model.ID) []byte { return append([]byte(student), 0) }

// playedIn reads what a key of playedKey says after the student.
func playedIn(key []byte) (time.Time, place, error) {
	if len(key) < 16 {
		return time.Time{}, place{}, fmt.Errorf("a key of %d bytes", len(key))
	}
	key = key[len(key)-16:]
	p, err := placeOf(key[8:])
	return time.Unix(int64(binary.BigEndian.Uint64(key)^(1<<63)), 0).UTC(), p, err
}

// highest is a key's end after every serial of a session.
const highest = math.MaxUint32
