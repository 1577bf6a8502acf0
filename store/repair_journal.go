package store

import (
	"bufio"
	"errors"
	"os"
	"path/filepath"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// journal makes the steps that the damaged file's journal holds, as far as they are possible with what was found.
func (r *repairer) journal() error {
	v := r.found
	skip := int64(len(journalMark))
	if v.journalAt == 0 || v.journalSize <= skip {
		r.out.JournalLost = true
		return nil
	}
	b := v.bytes(v.journalAt+skip, v.journalSize-skip)
	j := &journal{}
	if v.rounds {
		j.begin(v.round.round)
	}
	r.out.JournalLost = int64(len(b)) < v.journalSize-skip || !v.rounds && !j.guessRound(b)
	for end := int64(0); ; {
		body, ok := j.frameAt(b, end)
		if !ok {
			// What was kept after a frame that cannot be read is there all the same.
			broken := end
			if end = j.resumes(b, end); end < 0 {
				r.out.MayMissLast = v.rounds && j.broken(b, broken)
				return nil
			}
			r.out.JournalLost = true
			continue
		}
		end += frameHead + int64(len(body))
		d := &decoder{b: body, ids: new([]model.ID)}
		steps := decodeSteps(d)
		if d.err != nil {
			r.out.JournalLost = true
			continue
		}
		for _, step := range steps {
			if err := r.step(step); err != nil {
				return err
			}
		}
	}
}

// maxRounds is how many rounds are tried where the file does not tell which it is in: more than a career has.
const maxRounds = 1 << 18

// guessRound begins the journal for the round that its first frame is of. Where that was settled already, its steps are made
// again, which changes nothing.
func (j *journal) guessRound(b []byte) bool {
	for round := uint64(1); round < maxRounds; round++ {
		j.begin(round)
		if _, ok := j.frameAt(b, 0); ok {
			return true
		}
	}
	return false
}

// step makes a step's changes, or leaves out what refers to what is lost.
func (r *repairer) step(step model.Step) error {
	return r.s.update(func(tx *bolt.Tx) error {
		for _, c := range step.Changes {
			if c.After == nil {
				// Who is named stays, as in settling.
				if err := takeAway(tx, model.Step{}, c.Ref); err != nil {
					return err
				}
				continue
			}
			_, err := putWhole(tx, c.After)
			var gone *lostRef
			if errors.As(err, &gone) {
				err = r.leftOut.add(c.After)
			}
			if err != nil {
				return err
			}
			delete(r.out.older, c.Ref)
			delete(r.out.standIns, c.Ref)
		}
		for id, t := range step.Tallies {
			if _, ok, err := find(tx, model.GameRecord, id); err != nil || !ok {
				continue
			}
			if err := putTally(tx, id, t); err != nil {
				return err
			}
		}
		return nil
	})
}

// leftOut is the file of the records that were left out, made when there is a first one.
type leftOut struct {
	beside string
	n      int
	f      *os.File
	w      *lineWriter
}

func (l *leftOut) add(r model.Record) (err error) {
	if l.f == nil {
		l.f, err = os.CreateTemp(filepath.Dir(l.beside), "."+filepath.Base(l.beside)+".*.new")
		if err != nil {
			return err
		}
		l.w = &lineWriter{w: bufio.NewWriterSize(l.f, exchangeBuffer), buf: []byte(firstLine + "\n")}
	}
	l.n++
	return l.w.write(r)
}

// name gives the file its name for good.
func (l *leftOut) name(path string) error {
	if l.f == nil {
		return nil
	}
	if err := errors.Join(l.w.flush(), l.f.Sync(), l.f.Close()); err != nil {
		return errors.Join(err, os.Remove(l.f.Name()))
	}
	return nameNew(l.f.Name(), path)
}

// drop takes the file away.
func (l *leftOut) drop() error {
	if l.f == nil {
		return nil
	}
	return errors.Join(l.f.Close(), os.Remove(l.f.Name()))
}
