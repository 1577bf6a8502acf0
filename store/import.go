package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"coach.settee/model"
)

// Imported says how many records of each type were taken, and how many lines of the file were kept already.
type Imported struct {
	Cues, Students, Sessions, Games, Deliveries int
	Known                                       int
}

// Differing is a student or a cue of which an imported file said something else than was kept: what is kept, and the keys of
// the line in which the two differ.
type Differing struct {
	Kept model.Record
	Keys []string
}

// Import takes a file in the exchange format into the store at path, and makes the store where there is none. A line may
// refer to what comes before it in the file or is kept already. All of the file is taken or nothing: a copy of the store
// is built beside it, checked and put in its place, so that the store must not be open, ErrInUse otherwise. A line that is
// refused is named by its number and the reason.
func Import(path string, r io.Reader) (Imported, error) {
	in := newIntake(r)
	err := importFile(path, in, nil)
	return in.taken, err
}

// ImportKeepingMine is Import for the file of a second store of the same students: a student and a cue of which the file
// says something else than is kept stay as they are kept, and are given. Of a session, a game or a delivery that is
// refused as ever.
func ImportKeepingMine(path string, r io.Reader) (Imported, []Differing, error) {
	in := newIntake(r)
	in.keepMine = true
	err := importFile(path, in, nil)
	return in.taken, in.mine, err
}

// Renewed says what became of a file that is newer than the store.
type Renewed struct {
	// Taken are the records that were new, Replaced those in whose place the file's came, Gone those that the file says were
	// taken back.
	Taken, Replaced, Gone Imported
	// Copy is the automatic copy of the store as it was before, "" where nothing was replaced and nothing went.
	Copy string
}

// ImportNewer is Import for a file that tells what is kept in a later form, as WriteUnkept writes it: where it says
// something else of a record than is kept, the file's takes its place, and what it says was taken back goes. A ball never
// takes the place of another that was given its id, and what was changed since the file was written stays: the file is
// refused then. An automatic copy of the store, dated now, is made before; where it cannot be made nothing is taken.
func ImportNewer(path string, r io.Reader, now time.Time) (Renewed, error) {
	in := newIntake(r)
	in.newer = true
	return renew(path, in, now)
}

// renew takes a newer file in. A strict one is not called for by anybody: there is a copy of what it only adds to, too.
func renew(path string, in *intake, now time.Time) (Renewed, error) {
	var made string
	err := importFile(path, in, func(old *Store) (err error) {
		added := in.taken
		added.Known = 0
		if in.replaced == (Imported{}) && in.gone == (Imported{}) && (!in.strict || added == Imported{}) {
			return nil
		}
		if made, err = old.AutoBackup(now); made != "" {
			// An older copy that cannot be removed is in nobody's way here.
			return nil
		}
		return err
	})
	if err != nil {
		return Renewed{}, err
	}
	return Renewed{in.taken, in.replaced, in.gone, made}, nil
}

// importFile takes a file into the store at path. before is called with the old store when the new one is about to take its
// place.
func importFile(path string, in *intake, before func(old *Store) error) error {
	_, err := os.Stat(path)
	isNew := errors.Is(err, fs.ErrNotExist)
	old, err := Open(path, Options{})
	if err != nil {
		return err
	}
	// The old file stays locked until the new one has its name.
	err = importOver(old, in, before)
	if err != nil && isNew {
		err = errors.Join(err, os.Remove(old.path))
	}
	if err = errors.Join(err, old.Close()); err != nil {
		in.taken, in.mine = Imported{}, nil
		return err
	}
	return syncDir(filepath.Dir(old.path))
}

// importOver puts a copy of the store, with the file taken into it, in the store's place.
func importOver(old *Store, in *intake, before func(old *Store) error) error {
	path, err := filepath.EvalSymlinks(old.path)
	if err != nil {
		return err
	}
	temp, err := copyBeside(old, path, nil)
	if err != nil {
		return fmt.Errorf("the store %s cannot be copied: %w", path, err)
	}
	err = importInto(temp, in)
	if err == nil && before != nil {
		err = before(old)
	}
	if err == nil {
		err = replace(old, path, temp)
	}
	if err != nil {
		return errors.Join(err, os.Remove(temp))
	}
	return nil
}

// importInto takes a file into the copy, and gives the copy to the disk whole and looked over.
func importInto(temp string, in *intake) error {
	s, err := open(temp, Options{NoSync: true})
	if err != nil {
		return err
	}
	err = in.all(s)
	if err == nil {
		err = s.db.Sync()
	}
	if err = errors.Join(err, s.Close()); err != nil {
		return err
	}
	return inspect(temp)
}

// replace puts a file in the place of the store's at path; the store is of no use from then on.
func replace(s *Store, path, temp string) error {
	if runtime.GOOS == "windows" {
		// There an open file keeps its name.
		if err := s.Close(); err != nil {
			return err
		}
	}
	if err := os.Rename(temp, path); err != nil {
		return fmt.Errorf("the store %s cannot be replaced: %w", path, err)
	}
	return nil
}
