package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"os"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// A transaction of the library waits for the disk twice, and writes some eight pages for a delivery of sixty bytes. So
// steps go to a journal first: a value of the file whose bytes are written in place, one frame for each call of Keep, and
// synced once. Now and then, and before anything is read, the steps of the journal are settled: made in one transaction,
// which also begins the journal anew. After a crash Open settles what the journal holds.
//
// A frame is its length, its checksum, and the steps. The checksum goes on from that of the frame before, and begins
// with the journal's round, a number that settling raises: a frame of an earlier round, or one torn by the crash, is
// where the journal ends. The library never moves the value, since nothing else is in its bucket and it is never put
// again.
type journal struct {
	file *os.File
	sync func() error
	// from is where the frames begin in the file, size how many bytes there are for them.
	from, size int64
	round      uint64
	// end is where the next frame goes, sum the checksum of the last.
	end int64
	sum uint32
	// steps are those in the frames, not settled yet.
	steps []model.Step
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
	j.sum = checksum(nil, binary.BigEndian.AppendUint64(nil, round))
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
	sum := checksum(binary.BigEndian.AppendUint32(nil, j.sum), body)
	binary.BigEndian.PutUint32(frame, uint32(len(body)))
	binary.BigEndian.PutUint32(frame[4:], sum)
	if _, err := j.file.WriteAt(frame, j.from+j.end); err != nil {
		return err
	}
	if err := j.sync(); err != nil {
		return err
	}
	j.sum, j.end = sum, j.end+int64(len(frame))
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
		body, sum, ok := j.next(b[j.end:])
		if !ok {
			return nil
		}
		d := &decoder{b: body, ids: new([]model.ID)}
		steps := decodeSteps(d)
		if d.err != nil {
			return fmt.Errorf("its journal: %w", d.err)
		}
		j.sum, j.end = sum, j.end+frameHead+int64(len(body))
		j.steps = append(j.steps, steps...)
	}
}

// next gives the body of the frame that b begins with, unless b begins with none of this round.
func (j *journal) next(b []byte) (body []byte, sum uint32, ok bool) {
	if len(b) < frameHead {
		return nil, 0, false
	}
	n := binary.BigEndian.Uint32(b)
	if n == 0 || int64(n) > int64(len(b)-frameHead) {
		return nil, 0, false
	}
	body = b[frameHead : frameHead+int(n)]
	sum = checksum(binary.BigEndian.AppendUint32(nil, j.sum), body)
	return body, sum, sum == binary.BigEndian.Uint32(b[4:])
}

// roundIn gives the journal's round that the transaction knows.
func roundIn(tx *bolt.Tx) (uint64, error) {
	d, err := unseal(keyRound, bucket(tx, bucketAbout).Get(keyRound))
	if err != nil {
		return 0, bad(err, "the journal's round")
	}
	round := d.uint64()
	return round, bad(d.err, "the journal's round")
}

func putRound(tx *bolt.Tx, round uint64) error {
	e := newEncoder()
	e.uint64(round)
	return bucket(tx, bucketAbout).Put(keyRound, e.seal(keyRound))
}
