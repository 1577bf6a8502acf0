package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
	"time"

	"coach.settee/model"
	"github.com/adrg/xdg"
	bolt "go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// EnvStore is the environment variable that names the store's file.
const EnvStore = "SETTEE_STORE"

// DefaultPath gives the file that is used unless another is named: what SETTEE_STORE says, else settee/settee.db in the
// user's data directory (XDG_DATA_HOME or the platform's own).
func DefaultPath() (string, error) {
	if path := os.Getenv(EnvStore); path != "" {
		return path, nil
	}
	if xdg.DataHome == "" {
		return "", errors.New("this account has no data directory: name the store's file with --store")
	}
	return filepath.Join(xdg.DataHome, "settee", "settee.db"), nil
}

// Options are how a store is opened.
type Options struct {
	// MustExist refuses with ErrAbsent to make a store where there is none.
	MustExist bool
	// NoSync leaves out the sync of the disk, for stores that are thrown away and copies that are synced at their end.
	NoSync bool
	// Book are the cues that a store begins with where it is made; one that is there keeps its own, also where it has none.
	Book []model.Cue
	// isCopy says that the file is one that a copy need not be made of before its schema is changed.
	isCopy bool
	// schema is what the store is brought to; nil for this program's own.
	schema *schema
}

// Store is an open store. Its methods may be called from any goroutine.
type Store struct {
	db   *bolt.DB
	path string
	// held is the file as it was opened: another one may come to be at the path.
	held *os.File

	mu      sync.Mutex
	journal *journal
	// sure says that the last transaction is on the disk, and the journal's round the one that it knows.
	sure bool
	// known tells of sessions and games whether they are kept.
	known map[model.Ref]bool
	// copying is held by one backup at a time.
	copying sync.Mutex
	// scratch is a directory that goes with the store, "" for none.
	scratch string
	// broken is set once the library failed in a way after which the file is not to be touched.
	broken atomic.Bool
}

const (
	// lockWait is how long another process is waited for at each of the two openings.
	lockWait = 300 * time.Millisecond
	// growth is the step in bytes in which the file grows.
	growth = 256 << 10
	// mapSize is the size in bytes of the first memory map: up to it growing waits for no reader.
	mapSize = 1 << 30
)

// Open opens the store at path, and makes it where there is no file, with its directories. What is not a store, is newer
// or damaged is refused with ErrNotOurs, ErrNewer or ErrDamaged and not touched; a store that another process has open
// with ErrInUse, within a second.
func Open(path string, o Options) (*Store, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, fmt.Errorf("the store's path: %w", err)
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		switch {
		case isThere(path):
			return nil, nowhere(path)
		case o.MustExist:
			return nil, absent(path)
		}
		if err := create(path, o.Book); err != nil {
			return nil, err
		}
	}
	if err := inspect(path); err != nil {
		return nil, err
	}
	return open(path, o)
}

// inspect looks at a file before the library opens it for writing: what is wrong with it, and whether it is ours.
func inspect(path string) error {
	return locked(path, func() error { return guard(path) })
}

// locked runs look on a file while no process writes it, and then asks whether it is a store that this program can read.
func locked(path string, look func() error) (err error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return unread(path, err)
	case !info.Mode().IsRegular():
		return notOurs(path, "it is no ordinary file")
	}
	defer func() {
		if r := recover(); r != nil {
			err = damaged(path, fmt.Errorf("%v", r))
		}
	}()
	defer faultsPanic()()
	db, opening := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true, Timeout: lockWait, OpenFile: openThere})
	switch {
	case errors.Is(opening, bolterrors.ErrTimeout):
		return inUse(path, opening)
	case opening == nil:
		defer db.Close()
	}
	if err := look(); err != nil {
		return err
	}
	if opening != nil {
		return fmt.Errorf("the store %s cannot be opened: %w", path, opening)
	}
	return db.View(func(tx *bolt.Tx) error { return recognise(tx, path) })
}

// openThere opens a file and never makes one: what vanished meanwhile is not to be made anew, empty.
func openThere(name string, flag int, mode os.FileMode) (*os.File, error) {
	return os.OpenFile(name, flag&^os.O_CREATE, mode)
}

func open(path string, o Options) (_ *Store, err error) {
	var held *os.File
	options := &bolt.Options{
		Timeout: lockWait, FreelistType: bolt.FreelistMapType, NoSync: o.NoSync, NoStatistics: true,
		OpenFile: func(name string, flag int, mode os.FileMode) (*os.File, error) {
			f, err := openThere(name, flag, mode)
			held = f
			return f, err
		},
	}
	if runtime.GOOS != "windows" && mapFits {
		options.InitialMmapSize = mapSize
	}
	s := &Store{path: path, known: map[model.Ref]bool{}}
	defer s.recoverTo(&err)
	defer faultsPanic()()
	s.db, err = bolt.Open(path, 0o600, options)
	switch {
	case errors.Is(err, bolterrors.ErrTimeout):
		return nil, inUse(path, err)
	case err != nil:
		return nil, notOpened(path, err)
	}
	s.db.AllocSize = growth
	if err := s.begin(held, o); err != nil {
		return nil, errors.Join(err, s.db.Close())
	}
	if err := s.migrate(o); err != nil {
		return nil, errors.Join(err, s.db.Close())
	}
	return s, nil
}

// mapFits tells whether the address space has room for mapSize.
const mapFits = ^uint(0)>>32 != 0

// begin settles what a crash has left in the journal.
func (s *Store) begin(held *os.File, o Options) (err error) {
	s.held = held
	if err := stillThere(held, s.path); err != nil {
		return err
	}
	sync := s.db.Sync
	if o.NoSync {
		sync = func() error { return nil }
	}
	if s.journal, err = openJournal(held, sync); err != nil {
		return damaged(s.path, err)
	}
	if err := s.read(s.journal.beginIn); err != nil {
		return err
	}
	if err := s.journal.load(); err != nil {
		return damaged(s.path, err)
	}
	if err := s.fitToSettle(); err != nil {
		return err
	}
	// The process before may have ended on a transaction that failed.
	if err := s.affirm(); err != nil {
		return s.noRoom(err)
	}
	s.sure = true
	err = s.settle()
	if err == nil && s.journal.mayMissLast {
		err = s.journal.leaveBroken()
	}
	var said *refusal
	if err != nil && !errors.As(err, &said) {
		return s.noRoom(err)
	}
	return err
}

// MayMissLast tells whether a call that cannot be read was found at the end of the journal when the store was opened: it was
// being written when the program before ended, or it was kept and is damaged since. Openings tell it until a call is kept.
func (s *Store) MayMissLast() bool { return s.journal.mayMissLast }

// fitToSettle looks at all of a file, up to wideUpTo, before what a crash has left is put where its trees lead: a key that is
// wrong in one would have it put in another place.
func (s *Store) fitToSettle() error {
	info, err := s.held.Stat()
	if err != nil || len(s.journal.steps) == 0 || info.Size() > wideUpTo {
		return err
	}
	return inspectPages(s.path, everyPage)
}

// noRoom says that a store which is whole cannot be written to.
func (s *Store) noRoom(err error) error {
	return fmt.Errorf("the store %s cannot be written to (%w): make room on its disk and start again; what was kept is in it, "+
		"and stays", s.path, err)
}

// stillThere tells whether the file that is locked is still the one at the path, where another process may have put a new
// one meanwhile.
func stillThere(held *os.File, path string) error {
	mine, err := held.Stat()
	if err != nil {
		return err
	}
	there, err := os.Stat(path)
	if err != nil || !os.SameFile(mine, there) {
		return inUse(path, errors.New("the file was replaced"))
	}
	return nil
}

// Path gives the store's file.
func (s *Store) Path() string { return s.path }

// Close lets go of the file. What is in the journal is settled, or else by the next Open: it is kept in either case.
func (s *Store) Close() error {
	// A disk that refuses now takes nothing away.
	_ = s.settleFirst()
	if s.broken.Load() {
		// The library may hold its own locks for good, and is not waited for; the end of the process frees the file.
		go s.db.Close()
		return nil
	}
	if s.scratch != "" {
		defer os.RemoveAll(s.scratch)
	}
	if err := s.db.Close(); err != nil {
		return fmt.Errorf("closing the store %s: %w", s.path, err)
	}
	return nil
}

// view runs f in a reading transaction, which finds all that is kept. Nothing that f was given lives longer.
func (s *Store) view(f func(*bolt.Tx) error) error {
	if err := s.settleFirst(); err != nil {
		return err
	}
	return s.read(f)
}

func (s *Store) settleFirst() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.guarded(func() error { return s.settle() })
}

// read runs f in a reading transaction, which does not find what is in the journal.
func (s *Store) read(f func(*bolt.Tx) error) error {
	return s.guarded(func() error { return s.worded(s.db.View(f)) })
}

// update runs f in the writing transaction and returns when the disk has what it wrote. After an error it may yet be
// there: f is to write the same again then.
func (s *Store) update(f func(*bolt.Tx) error) error {
	if err := s.settleFirst(); err != nil {
		return err
	}
	return s.guarded(func() error {
		err := s.db.Update(func(tx *bolt.Tx) error {
			if err := f(tx); err != nil {
				return err
			}
			return recount(tx)
		})
		if err != nil {
			s.mu.Lock()
			s.sure = false
			s.mu.Unlock()
		}
		return s.worded(err)
	})
}

// guarded runs f where the library may panic or meet a memory fault on a damaged page, and not at all once it has.
func (s *Store) guarded(f func() error) (err error) {
	if s.broken.Load() {
		return s.isBroken()
	}
	defer s.recoverTo(&err)
	defer faultsPanic()()
	return f()
}

// recoverTo makes an error of the library's panic, memory faults of this goroutine included, which a damaged page causes.
func (s *Store) recoverTo(err *error) {
	if r := recover(); r != nil {
		s.broken.Store(true)
		*err = damaged(s.path, fmt.Errorf("%v", r))
	}
}

// worded gives the error of a row that does not read its sentence.
func (s *Store) worded(err error) error {
	var bad *badRow
	if errors.As(err, &bad) {
		if errors.Is(err, ErrNewer) {
			return newer(s.path, bad.Error())
		}
		return damaged(s.path, bad)
	}
	return err
}

func (s *Store) isBroken() error {
	return damaged(s.path, errors.New("reading it failed before"))
}

// faultsPanic makes memory faults of this goroutine panics until the function it gives is called.
func faultsPanic() func() {
	was := debug.SetPanicOnFault(true)
	return func() { debug.SetPanicOnFault(was) }
}
