package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

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
	taken, _, err := importFile(path, r, false)
	return taken, err
}

// ImportKeepingMine is Import for the file of a second store of the same students: a student and a cue of which the file
// says something else than is kept stay as they are kept, and are given. Of a session, a game or a delivery that is
// refused as ever.
func ImportKeepingMine(path string, r io.Reader) (Imported, []Differing, error) {
	return importFile(path, r, true)
}

func importFile(path string, r io.Reader, keepMine bool) (Imported, []Differing, error) {
	_, err := os.Stat(path)
	isNew := errors.Is(err, fs.ErrNotExist)
	old, err := Open(path, Options{})
	if err != nil {
		return Imported{}, nil, err
	}
	// The old file stays locked until the new one has its name.
	in := newIntake(r)
	in.keepMine = keepMine
	err = importOver(old, in)
	if err != nil && isNew {
		err = errors.Join(err, os.Remove(old.path))
	}
	if err = errors.Join(err, old.Close()); err != nil {
		return Imported{}, nil, err
	}
	return in.taken, in.mine, syncDir(filepath.Dir(old.path))
}

// importOver puts a copy of the store, with the file taken into it, in the store's place.
func importOver(old *Store, in *intake) error {
	path, err := filepath.EvalSymlinks(old.path)
	if err != nil {
		return err
	}
	temp, err := copyBeside(old, path)
	if err != nil {
		return fmt.Errorf("the store %s cannot be copied: %w", path, err)
	}
	err = importInto(temp, in)
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
