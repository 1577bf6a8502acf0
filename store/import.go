package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// Imported says how many records of each type were taken, and how many lines of the file were kept already.
type Imported struct {
	Cues, Students, Sessions, Games, Deliveries int
	Known                                       int
}

// Import takes a file in the exchange format into the store at path, and makes the store where there is none. A line may
// refer to what comes before it in the file or is kept already. All of the file is taken or nothing: a copy of the store
// is built beside it, checked and put in its place, so that the store must not be open, ErrInUse otherwise. A line that is
// refused is named by its number and the reason.
func Import(path string, r io.Reader) (Imported, error) {
	_, err := os.Stat(path)
	isNew := errors.Is(err, fs.ErrNotExist)
	old, err := Open(path, Options{})
	if err != nil {
		return Imported{}, err
	}
	// The old file stays locked until the new one has its name.
	taken, err := importOver(old, r)
	if err != nil && isNew {
		err = errors.Join(err, os.Remove(old.path))
	}
	if err = errors.Join(err, old.Close()); err != nil {
		return Imported{}, err
	}
	return taken, syncDir(filepath.Dir(old.path))
}

// importOver puts a copy of the store, with the file taken into it, in the store's place.
func importOver(old *Store, r io.Reader) (Imported, error) {
	path, err := filepath.EvalSymlinks(old.path)
	if err != nil {
		return Imported{}, err
	}
	temp, err := copyBeside(old, path)
	if err != nil {
		return Imported{}, fmt.Errorf("the store %s cannot be copied: %w", path, err)
	}
	taken, err := importInto(temp, r)
	if err == nil {
		err = replace(old, path, temp)
	}
	if err != nil {
		return Imported{}, errors.Join(err, os.Remove(temp))
	}
	return taken, nil
}

// importInto takes a file into the copy, and gives the copy to the disk whole and looked over.
func importInto(temp string, r io.Reader) (taken Imported, err error) {
	s, err := open(temp, Options{NoSync: true})
	if err != nil {
		return Imported{}, err
	}
	taken, err = newIntake(s, r).all()
	if err == nil {
		err = s.db.Sync()
	}
	if err = errors.Join(err, s.Close()); err != nil {
		return Imported{}, err
	}
	return taken, inspect(temp)
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
