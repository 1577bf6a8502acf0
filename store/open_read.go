package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// OpenToRead is Open for a command that only reads. A store that this account or its disk lets nobody write to is read all
// the same: as a copy of it in the temporary directory, which is its owner's alone and is gone when the store is closed.
func OpenToRead(path string) (*Store, error) {
	s, err := Open(path, Options{MustExist: true})
	if !isBarred(err) {
		return s, err
	}
	copied, inCopy := openCopied(path)
	switch {
	case isBarred(inCopy):
		return nil, err
	case inCopy != nil:
		return nil, errors.Join(err, inCopy)
	}
	return copied, nil
}

// isBarred tells whether an error says that the account or the disk does not let anybody write, or read.
func isBarred(err error) bool {
	return errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS)
}

// notOpened says that a store which was read could not be opened for writing, and what to do.
func notOpened(path string, err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	if isBarred(err) {
		return fmt.Errorf("the store %s cannot be written to (%w): settee stats, export and handout read it as it is; for all else "+
			"let this account write to it, or name a copy of it with --store", path, err)
	}
	return fmt.Errorf("the store %s cannot be opened: %w", path, err)
}

// openCopied opens a copy of the store at path that nobody else finds.
func openCopied(path string) (s *Store, err error) {
	if path, err = filepath.Abs(path); err != nil {
		return nil, err
	}
	dir, err := os.MkdirTemp("", "settee-read-")
	if err != nil {
		return nil, err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.RemoveAll(dir))
		}
	}()
	var temp string
	err = locked(path, func() (err error) {
		if err = guard(path); err != nil {
			return err
		}
		temp, err = beside(filepath.Join(dir, filepath.Base(path)), func(w io.Writer) error { return copyFile(w, path, nil) })
		return err
	})
	if err != nil {
		return nil, err
	}
	if s, err = open(temp, Options{NoSync: true, isCopy: true}); err != nil {
		return nil, err
	}
	s.path = path
	if os.RemoveAll(dir) != nil {
		// There an open file keeps its name.
		s.scratch = dir
	}
	return s, nil
}

// BeginsAsStore tells whether what begins with some bytes is a store, or another file of the library's, and no text.
func BeginsAsStore(begun []byte) bool {
	return len(begun) >= pageHeader+4 && binary.NativeEndian.Uint32(begun[pageHeader:]) == headMagic
}
