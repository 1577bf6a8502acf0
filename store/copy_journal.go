package store

import (
	"bytes"
	"io"

	bolt "go.etcd.io/bbolt"
)

// copyTo writes the file as it is at one moment, while it is in use. The journal is written in place and not by
// transactions: its bytes are those of the moment in which the transaction begins, since frames that come while a file is
// copied could be torn with others behind them, as only damage does it. wanted is asked with the file's size in bytes.
func (s *Store) copyTo(w io.Writer, wanted func(size int64) bool) error {
	return s.guarded(func() error {
		tx, frames, err := s.beginCopy()
		if err != nil {
			return s.worded(err)
		}
		defer func() { _ = tx.Rollback() }()
		if !wanted(tx.Size()) {
			return nil
		}
		_, err = tx.WriteTo(&overlaid{w: w, at: s.journal.from, with: frames})
		return s.worded(err)
	})
}

// beginCopy settles the journal, and begins a transaction with what the journal's bytes are then.
func (s *Store) beginCopy() (*bolt.Tx, []byte, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.settle(); err != nil {
		return nil, nil, err
	}
	frames := make([]byte, s.journal.size)
	if _, err := s.journal.file.ReadAt(frames, s.journal.from); err != nil {
		return nil, nil, err
	}
	tx, err := s.db.Begin(false)
	return tx, frames, err
}

// overlaid writes to w what is written to it, but at a place other bytes.
type overlaid struct {
	w    io.Writer
	n    int64
	at   int64
	with []byte
}

func (o *overlaid) Write(p []byte) (int, error) {
	from, to := max(o.n, o.at), min(o.n+int64(len(p)), o.at+int64(len(o.with)))
	if from < to {
		p = bytes.Clone(p)
		copy(p[from-o.n:to-o.n], o.with[from-o.at:])
	}
	n, err := o.w.Write(p)
	o.n += int64(n)
	return n, err
}
