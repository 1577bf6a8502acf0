package store

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

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
)

// Copy is a file beside a store that holds something of a student.
type Copy struct {
	Path string
	Kind CopyKind
}

// CopiesOf looks through the files that lie beside the store at path, and through its automatic copies, and gives those
// that hold something of a student. The store itself and what is no file of this program's are not among them. It adds to of
// the games of the student that it finds.
func CopiesOf(path string, of *Erasure) ([]Copy, error) {
	if of.games == nil {
		of.games = map[model.ID]bool{}
	}
	found, err := filesBeside(path)
	if err != nil {
		return nil, err
	}
	var out []Copy
	for _, c := range found {
		holds, err := c.holds(of)
		if err != nil {
			return nil, fmt.Errorf("%s cannot be looked through: %w", c.Path, err)
		}
		if holds {
			out = append(out, c)
		}
	}
	return out, nil
}

// CopiedStudents gives the students who are kept in copies and exports that lie beside the store at path, each as in one of
// them.
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
func (c Copy) Cleanse(of *Erasure) error {
	switch c.Kind {
	case CopyStore:
		e, err := erase(c.Path, of.Student.ID, true)
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

// filesBeside gives the files of this program's that lie beside a store and in the folder of its copies, stores first, since
// they tell of the games that the others have parts of.
func filesBeside(path string) ([]Copy, error) {
	path = resolved(path)
	var out []Copy
	for _, dir := range []string{filepath.Dir(path), folderOf(path).dir} {
		if info, err := os.Stat(dir); err != nil || !info.IsDir() {
			continue
		}
		files, err := os.ReadDir(dir)
		if err != nil {
			return nil, err
		}
		for _, f := range files {
			file := filepath.Join(dir, f.Name())
			if !f.Type().IsRegular() || file == path {
				continue
			}
			if kind, ours := kindOf(path, file); ours {
				out = append(out, Copy{file, kind})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Copy) int { return int(a.Kind) - int(b.Kind) })
	return out, nil
}

// partName matches the names of files that are written before they get their own: by the commands, or by this package.
var partName = regexp.MustCompile(`^(\.settee-[0-9]+|\..+\.[0-9]+\.new)$`)

// kindOf tells what a file beside the store at path is, by its name or by how it begins.
func kindOf(path, file string) (CopyKind, bool) {
	name := filepath.Base(file)
	_, copied := folderOf(path).time(name)
	switch {
	case partName.MatchString(name):
		return CopyPart, true
	case copied && filepath.Dir(file) == folderOf(path).dir, strings.HasPrefix(file, path+".before-"):
		return CopyStore, true
	}
	f, err := os.Open(file)
	if err != nil {
		return 0, false
	}
	defer f.Close()
	first, _ := bufio.NewReaderSize(f, exchangeBuffer).Peek(exchangeBuffer / 16)
	switch {
	case bytes.HasPrefix(first, []byte(firstLine[:len(`{"type":"settee"`)])):
		return CopyLines, true
	case bytes.HasPrefix(first, []byte(strings.Join(header()[:5], ",")+",")):
		return CopyTable, true
	}
	info, err := f.Stat()
	if err != nil {
		return 0, false
	}
	if _, err := readHead(f, info.Size()); errors.Is(err, errNoHead) {
		return 0, false
	}
	// Other programs keep files of the same library.
	return CopyStore, !errors.Is(inspect(file), ErrNotOurs)
}

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
