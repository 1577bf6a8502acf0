package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// CopyKind tells what a file beside a store is.
type CopyKind int

// The kinds of files.
const (
	// CopyStore is a copy of a store: an automatic one, one of `settee backup`, or what was kept before a change.
	CopyStore CopyKind = iota
	// CopyLines is a file in the exchange format, CopyTable a table of deliveries.
	CopyLines
	CopyTable
	// CopyPart is what writing one of the others left when it was cut short.
	CopyPart
	// OtherStore is a store that is no copy of this one, OtherLink a link to a file elsewhere, OtherFile one of any other
	// kind. They are not written.
	OtherStore
	OtherLink
	OtherFile
)

// IsOther tells whether files of a kind are named only.
func (k CopyKind) IsOther() bool { return k >= OtherStore }

// Copy is a file beside a store that holds something of a student.
type Copy struct {
	Path string
	Kind CopyKind
	// Target is where a link leads.
	Target string
	// Namesake is the id of somebody else of the student's name in another store, where the student is not in it.
	Namesake model.ID
}

// CopiesOf looks through the files that lie beside the store at path, and through its automatic copies, and gives those
// that hold something of a student: those of this program's, and any others, up to scanUpTo, with the bytes of the name or of
// the id. The store itself is not among them; it must not be open. It adds to of the games of the student that it finds.
func CopiesOf(path string, of *Erasure, told Told) ([]Copy, error) {
	if of.games == nil {
		of.games = map[model.ID]bool{}
	}
	found, err := filesBeside(path)
	if err != nil {
		return nil, err
	}
	looked := told.begin(Part{Verb: "looked through beside the store", Of: sizeOfAll(found)})
	var out []Copy
	for _, c := range found {
		holds, err := c.holds(of)
		looked.add(sizeOf(c.Path))
		if err != nil {
			return nil, fmt.Errorf("%s cannot be looked through: %w", c.Path, err)
		}
		if holds {
			out = append(out, c)
		}
	}
	return out, nil
}

func sizeOfAll(files []Copy) (sum int64) {
	for _, c := range files {
		sum += sizeOf(c.Path)
	}
	return sum
}

// CopiedStudents gives the students who are kept in copies and exports that lie beside the store at path, each as in one of
// them. The store must not be open.
func CopiedStudents(path string) ([]model.Student, error) {
	found, err := filesBeside(path)
	if err != nil {
		return nil, err
	}
	var out []model.Student
	for _, c := range found {
		for _, s := range c.students() {
			if !slices.ContainsFunc(out, func(x model.Student) bool { return x.ID == s.ID }) {
				out = append(out, s)
			}
		}
	}
	return out, nil
}

// students gives those whom a copy or an export keeps; what cannot be read tells of nobody.
func (c Copy) students() (out []model.Student) {
	switch c.Kind {
	case CopyStore:
		_ = peek(c.Path, func(tx *bolt.Tx) (err error) {
			out, err = studentsIn(tx)
			return err
		})
	case CopyLines:
		f, err := os.Open(c.Path)
		if err != nil {
			return nil
		}
		defer f.Close()
		_ = eachLine(f, func(_ []byte, r model.Record) error {
			if s, ok := r.(model.Student); ok {
				out = append(out, s)
			}
			return nil
		})
	}
	return out
}

// Cleanse takes a student out of a copy, which is written anew and then takes the old one's place; one that was cut short is
// removed. Where that fails the file is as it was. It adds to of the games that it finds.
func (c Copy) Cleanse(of *Erasure, told Told) error {
	switch c.Kind {
	case OtherStore, OtherLink, OtherFile:
		return fmt.Errorf("%s is not written by this", c.Path)
	case CopyStore:
		e, err := erase(c.Path, of.Student.ID, true, told)
		for game := range e.games {
			of.games[game] = true
		}
		return err
	case CopyLines:
		return rewrite(c.Path, func(w io.Writer, r io.Reader) error { return filterLines(w, r, c.Path, of) })
	case CopyTable:
		return rewrite(c.Path, func(w io.Writer, r io.Reader) error { return filterTable(w, r, of.Student.ID) })
	}
	if err := os.Remove(c.Path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	// Writing the store anew swept it away.
	return nil
}

// rewrite writes a file anew from what is in it.
func rewrite(path string, write func(io.Writer, io.Reader) error) error {
	temp, err := beside(path, func(w io.Writer) error {
		f, err := os.Open(path)
		if err != nil {
			return err
		}
		defer f.Close()
		return write(w, f)
	})
	if err == nil {
		if err = os.Rename(temp, path); err != nil {
			err = errors.Join(err, os.Remove(temp))
		}
	}
	if err != nil {
		return err
	}
	return syncDir(filepath.Dir(path))
}

// partName matches the names of files that are written before they get their own: by the commands, or by this package.
var partName = regexp.MustCompile(`^(\.settee-[0-9]+|\..+\.[0-9]+\.new)$`)

// peek reads a file as a store without writing to it; what is in its journal is not seen.
func peek(path string, f func(*bolt.Tx) error) error {
	return locked(path, func() error {
		if err := inspectPages(path, everyPage); err != nil {
			return err
		}
		db, err := hold(path)
		if err != nil {
			return err
		}
		return errors.Join(db.View(f), db.Close())
	})
}
