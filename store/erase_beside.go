package store

import (
	"bufio"
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// filesBeside gives the files that lie beside a store and in the folder of its copies, stores first, since they tell of the
// games that the others have parts of.
func filesBeside(path string) ([]Copy, error) {
	path = resolved(path)
	mine, err := lineageOf(path)
	if err != nil {
		return nil, err
	}
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
			switch {
			case file == path:
			case f.Type().IsRegular():
				out = append(out, Copy{Path: file, Kind: mine.kind(path, file)})
			case f.Type()&os.ModeSymlink != 0:
				if target, ok := elsewhere(path, file); ok {
					out = append(out, Copy{Path: file, Kind: OtherLink, Target: target})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Copy) int { return int(a.Kind) - int(b.Kind) })
	return out, nil
}

// elsewhere gives the file that a link leads to, unless it is one that is looked at in its own place.
func elsewhere(path, link string) (target string, ok bool) {
	target, err := filepath.EvalSymlinks(link)
	if err != nil {
		return "", false
	}
	info, err := os.Stat(target)
	dir := filepath.Dir(target)
	return target, err == nil && info.Mode().IsRegular() && dir != filepath.Dir(path) && dir != folderOf(path).dir
}

// lineage are the ids of a store's sessions, students and cues: most of what a copy of it holds.
type lineage map[model.Ref]bool

// lineageOf reads a store that was looked at.
func lineageOf(path string) (l lineage, err error) {
	err = locked(path, func() error {
		db, err := hold(path)
		if err != nil {
			return err
		}
		defer db.Close()
		return db.View(func(tx *bolt.Tx) error {
			l = lineageIn(tx)
			return nil
		})
	})
	return l, err
}

func lineageIn(tx *bolt.Tx) lineage {
	l := lineage{}
	for kind, name := range map[model.RecordKind][]byte{
		model.SessionRecord: bucketSessions, model.StudentRecord: bucketStudents, model.CueRecord: bucketCues,
	} {
		c := tx.Bucket(name).Cursor()
		for k, _ := c.First(); k != nil; k, _ = c.Next() {
			l[model.Ref{Kind: kind, ID: model.ID(k)}] = true
		}
	}
	return l
}

// kind tells what a file beside the store at path is. A store that has automatic copies of its own, or most of whose sessions,
// students and cues are not of this one, is another and no copy.
func (l lineage) kind(path, file string) CopyKind {
	kind, ours := kindOf(path, file)
	if !ours {
		return OtherFile
	}
	if kind != CopyStore || isNamedCopy(path, file) {
		return kind
	}
	if made, err := Backups(file); err == nil && len(made) > 0 {
		return OtherStore
	}
	its, err := lineageOf(file)
	shared := 0
	for ref := range its {
		if l[ref] {
			shared++
		}
	}
	if err == nil && 2*shared < len(its) || errors.Is(err, ErrInUse) {
		return OtherStore
	}
	return CopyStore
}

// isNamedCopy tells whether a file has the name of a copy of the store at path, and is where such a one is.
func isNamedCopy(path, file string) bool {
	_, copied := folderOf(path).time(filepath.Base(file))
	return copied && filepath.Dir(file) == folderOf(path).dir || strings.HasPrefix(file, path+".before-")
}

// kindOf tells what a file beside the store at path is, by its name or by how it begins.
func kindOf(path, file string) (CopyKind, bool) {
	switch {
	case partName.MatchString(filepath.Base(file)):
		return CopyPart, true
	case isNamedCopy(path, file):
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
