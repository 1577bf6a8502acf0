package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// create makes a store at path that holds a book of cues and nothing else, whole or not at all, and never in place of a
// file that is there.
func create(path string, book []model.Cue) error {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return fmt.Errorf("the store's directory cannot be made: %w", err)
	}
	temp, err := createBeside(path, book)
	if err != nil {
		return fmt.Errorf("the store %s cannot be made: %w", path, err)
	}
	defer os.Remove(temp)
	if err := putInPlace(temp, path); err != nil {
		return fmt.Errorf("the store %s cannot be made: %w", path, err)
	}
	return syncDir(dir)
}

// createBeside makes a store under a name of its own in path's directory, synced, and gives that name.
func createBeside(path string, book []model.Cue) (temp string, err error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*.new")
	if err != nil {
		return "", err
	}
	temp = f.Name()
	defer func(made string) {
		if err != nil {
			os.Remove(made)
		}
	}(temp)
	if err := f.Close(); err != nil {
		return "", err
	}
	db, err := bolt.Open(temp, 0o600, &bolt.Options{Timeout: lockWait, FreelistType: bolt.FreelistMapType})
	if err != nil {
		return "", err
	}
	fill := func(tx *bolt.Tx) error { return begun(tx, book) }
	return temp, errors.Join(db.Update(fill), db.Close())
}

// begun makes what a new store holds.
func begun(tx *bolt.Tx, book []model.Cue) error {
	if err := initialise(tx); err != nil {
		return err
	}
	for _, cue := range book {
		if err := errors.Join(cue.Validate(), putRecord(tx, cue)); err != nil {
			return err
		}
	}
	return nil
}

// putInPlace gives a file its name unless another has it: then the other, of a process that was quicker, is as good.
func putInPlace(temp, path string) error {
	err := os.Link(temp, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return nil
	}
	// A file system without links: the small gap between the look and the renaming is all that is left.
	if _, err := os.Stat(path); err == nil {
		return nil
	}
	return os.Rename(temp, path)
}

// syncDir makes a file's new name last.
func syncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}
