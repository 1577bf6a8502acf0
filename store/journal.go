package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// A transaction of the library waits for the disk twice, and writes some eight pages for a delivery of sixty bytes. So
// steps go to a journal first: a value of the file whose bytes are written in place, one frame for each call of Keep, and
// synced once. Now and then, and before anything is read, the steps of the journal are settled: made in one transaction,
// which also begins the journal anew. After a crash Open settles what the journal holds.
//
// A frame is its length, its checksum, and the steps. The checksum is over the journal's round, a number that settling
// raises, the frame's place in the journal, and the steps: a frame of an earlier round, or one torn by the crash, is
// where the journal ends. Behind a frame, where the next one's head goes, are zeros that were written with it: any other
// bytes there are of a frame that was begun. The library never moves the value, since nothing else is in its bucket and it
// is never put again.
type journal struct {
	file interface {
		io.ReaderAt
		io.WriterAt
	}
	sync func() error
	// from is where the frames begin in the file, size how many bytes there are for them.
	from, size int64
	round      uint64
	// end is where the next frame goes.
	end int64
	// steps are those in the frames, not settled yet.
	steps []model.Step
	// ended says that zeros are behind each frame, mayMissLast that load has found others.
	ended, mayMissLast bool
	// buf is where frames are written to before they go to the file.
	buf []byte
}

const (
	// journalSize is the size of the journal's value in bytes: some two hundred deliveries.
	journalSize = 64 << 10
	frameHead   = 8
)

var (
	// keyJournal is the key of the only value in its bucket, journalMark what the value begins with.
	keyJournal  = []byte("frames")
	journalMark = []byte("settee journal 1")
	// keyRound holds the journal's round in bucketAbout.
	keyRound = []byte("round")
)

func emptyJournal() []byte {
	return append(append(make([]byte, 0, journalSize), journalMark...), make([]byte, journalSize-len(journalMark))...)
}

// openJournal finds the journal of a file that is open and locked.
func openJournal(f *os.File, sync func() error) (*journal, error) {
	at, size, err := findJournal(f)
	if err != nil {
		return nil, err
	}
	mark := make([]byte, len(journalMark))
	if _, err := f.ReadAt(mark, at); err != nil || string(mark) != string(journalMark) {
		return nil, errors.New("its journal is not where it should be")
	}
	skip := int64(len(journalMark))
	return &journal{file: f, sync: sync, from: at + skip, size: size - skip}, nil
}

// begin empties the journal for a round.
func (j *journal) begin(round uint64) {
	clear(j.steps)
	j.round, j.end, j.steps = round, 0, j.steps[:0]
}

// frame gives steps as they are written, or nothing where they are more than the journal can ever hold. It is valid until
// the next one.
func (j *journal) frame(steps []model.Step) []byte {
	e := &encoder{b: append(j.buf[:0], make([]byte, frameHead)...), ids: new([]model.ID)}
	encodeSteps(e, steps)
	if int64(len(e.b)) > j.size {
		return nil
	}
	j.buf = e.b
	return e.b
}

// fits tells whether there is room for a frame before the steps are settled.
func (j *journal) fits(frame []byte) bool { return j.end+int64(len(frame)) <= j.size }

// append writes a frame and returns when the disk has it. After an error the same place is written again.
func (j *journal) append(frame []byte, steps []model.Step) error {
	body := frame[frameHead:]
	sum := j.sum(j.end, body)
	binary.BigEndian.PutUint32(frame, uint32(len(body)))
	binary.BigEndian.PutUint32(frame[4:], sum)
	end := j.end + int64(len(frame))
	if _, err := j.file.WriteAt(append(frame, make([]byte, min(frameHead, j.size-end))...), j.from+j.end); err != nil {
		return err
	}
	if err := j.sync(); err != nil {
		return err
	}
	j.end = end
	j.steps = append(j.steps, steps...)
	return nil
}

// load reads the frames of the round that a crash has left.
func (j *journal) load() error {
	b := make([]byte, j.size)
	if _, err := j.file.ReadAt(b, j.from); err != nil {
		return err
	}
	for {
		body, ok := j.frameAt(b, j.end)
		if !ok {
			j.mayMissLast = j.ended && j.broken(b, j.end)
			return j.lost(b)
		}
		d := &decoder{b: body, ids: new([]model.ID)}
		steps := decodeSteps(d)
		if d.err != nil {
			return fmt.Errorf("its journal: %w", d.err)
		}
		j.end += frameHead + int64(len(body))
		j.steps = append(j.steps, steps...)
	}
}

// frameAt gives the body of the frame of this round that is at a place of the journal's bytes, unless there is none.
func (j *journal) frameAt(b []byte, at int64) (body []byte, ok bool) {
	if at+frameHead > int64(len(b)) {
		return nil, false
	}
	head, rest := b[at:at+frameHead], b[at+frameHead:]
	n := binary.BigEndian.Uint32(head)
	if n == 0 || int64(n) > int64(len(rest)) {
		return nil, false
	}
	return rest[:n], j.sum(at, rest[:n]) == binary.BigEndian.Uint32(head[4:])
}

// sum gives the checksum of a frame at a place.
func (j *journal) sum(at int64, body []byte) uint32 {
	var key [16]byte
	binary.BigEndian.PutUint64(key[:], j.round)
	binary.BigEndian.PutUint64(key[8:], uint64(at))
	return checksum(key[:], body)
}

// beginIn empties the journal for the round that the transaction knows.
func (j *journal) beginIn(tx *bolt.Tx) error {
	round, err := roundIn(tx)
	j.begin(round)
	// What wrote version 1 left behind a frame whatever was there.
	j.ended = versionIn(tx) >= versionOpen
	return err
}

// roundIn gives the journal's round that the transaction knows, and refuses counts that are not those kept with it: the
// library keeps them without a checksum.
func roundIn(tx *bolt.Tx) (uint64, error) {
	r, err := readRound(keyRound, bucket(tx, bucketAbout).Get(keyRound))
	if err == nil && r.counted && (r.sessions != bucket(tx, bucketSessions).Sequence() ||
		r.deliveries != bucket(tx, bucketDeliveries).Sequence()) {
		err = errors.New("the counts of sessions and deliveries are not those kept with it")
	}
	return r.round, bad(err, "the journal's round")
}

// roundRow is what is kept with the journal's round.
type roundRow struct {
	round uint64
	// counted says that the rest is there: the library's number of the transaction, and the sequences of two buckets.
	counted                    bool
	txid, sessions, deliveries uint64
}

func readRound(key, value []byte) (roundRow, error) {
	d, err := unseal(key, value)
	if err != nil {
		return roundRow{}, err
	}
	r := roundRow{round: d.uint64()}
	if r.counted = len(d.b) > 0; r.counted {
		r.txid, r.sessions, r.deliveries = d.uint64(), d.uint64(), d.uint64()
	}
	return r, d.err
}

func putRound(tx *bolt.Tx, round uint64) error {
	e := newEncoder()
	e.uint64(round)
	e.uint64(uint64(tx.ID()))
	e.uint64(tx.Bucket(bucketSessions).Sequence())
	e.uint64(tx.Bucket(bucketDeliveries).Sequence())
	return bucket(tx, bucketAbout).Put(keyRound, e.seal(keyRound))
}

// recount keeps with the journal's round what a transaction has made of the counts.
func recount(tx *bolt.Tx) error {
	r, err := readRound(keyRound, bucket(tx, bucketAbout).Get(keyRound))
	if err != nil {
		return bad(err, "the journal's round")
	}
	return putRound(tx, r.round)
}
