package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// Restored says what a store was made of.
type Restored struct {
	// Deliveries is how many are kept now.
	Deliveries int
	// Before is where the file that was there is now; empty where there was none.
	Before string
}

// Restore puts a copy of the file at from in the place of the store at path, and keeps what was there beside it, under a
// name that tells the time. The file is read whole first, every page and every record, and is refused where it is not whole.
// Whether the store that was there is damaged, or is there at all, makes no difference; one that is open, or a file that
// is, is refused with ErrInUse.
func Restore(path, from string, now time.Time, told Told) (Restored, error) {
	path = resolved(path)
	from, err := filepath.Abs(from)
	if err != nil {
		return Restored{}, err
	}
	if mine, err := os.Stat(path); err == nil {
		if other, err := os.Stat(from); err == nil && os.SameFile(mine, other) {
			return Restored{}, fmt.Errorf("%s is the store itself: settee restore lists its automatic copies", from)
		}
	}
	if leadsNowhere(path) {
		return Restored{}, nowhere(path)
	}
	// Who has the store open is told before a large file is read, and asked again when it takes its place.
	if err := whileClosed(path, func(func()) error { return nil }); err != nil {
		return Restored{}, err
	}
	temp, n, err := readyBeside(path, from, told)
	if err != nil {
		return Restored{}, err
	}
	before, err := exchange(path, temp, now)
	if err != nil {
		os.Remove(temp)
		return Restored{}, err
	}
	return Restored{Deliveries: n, Before: before}, syncDir(filepath.Dir(path))
}

// readyBeside copies a file that is to be a store beside path, reads the copy whole, and gives its name and how many
// deliveries it holds.
func readyBeside(path, from string, told Told) (temp string, deliveries int, err error) {
	err = locked(from, func() (err error) {
		read := told.begin(Part{Verb: "looked over", Of: sizeOf(from)})
		if err = inspectThrough(from, everyPage, read.counted); err != nil {
			return err
		}
		if err = os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			return err
		}
		_ = sweep(path)
		temp, err = beside(path, func(w io.Writer) error { return copyFile(w, from, told) })
		return err
	})
	if err == nil {
		deliveries, err = readable(temp, told)
	}
	if err == nil {
		return temp, deliveries, nil
	}
	if temp != "" {
		os.Remove(temp)
	}
	return "", 0, notRestored(from, err)
}

// readable opens a file as a store, which settles its journal, and reads every record.
func readable(path string, told Told) (deliveries int, err error) {
	s, err := open(path, Options{isCopy: true})
	if err != nil {
		return 0, err
	}
	defer func() {
		if err = errors.Join(err, s.Close()); err == nil {
			err = check(path, "read back", told)
		}
	}()
	n, err := s.Count()
	if err != nil {
		return 0, err
	}
	read := told.begin(Part{Verb: "read back", Of: int64(n), Deliveries: true})
	return n, s.view(func(tx *bolt.Tx) error {
		if err := everyRecord(tx, read); err != nil {
			return err
		}
		return resumable(tx)
	})
}

// everyRecord reads all that an export holds.
func everyRecord(tx *bolt.Tx, read *task) error {
	_, errCues := cuesIn(tx)
	_, errStudents := studentsIn(tx)
	if err := errors.Join(errCues, errStudents); err != nil {
		return err
	}
	return eachSheaf(tx, func(s sheaf) error {
		for _, ds := range s.deliveries {
			read.add(int64(len(ds)))
		}
		return nil
	})
}

// resumable reads the lists of actions, of the evenings that have one, and what else resuming them takes.
func resumable(tx *bolt.Tx) error {
	return each(bucket(tx, bucketLive), nil, func(k, _ []byte) error {
		kept, err := eveningIn(tx, model.ID(k))
		if err != nil {
			return err
		}
		_, err = model.Resume(kept)
		return bad(err, "session %s", k)
	})
}

// notRestored says why a file was refused, in words for a file that is no store yet.
func notRestored(from string, err error) error {
	const asItWas = "nothing was restored, the store is as it was"
	var at *fs.PathError
	switch {
	case leadsNowhere(from):
		return fmt.Errorf("%w: %s", nowhere(from), asItWas)
	case errors.Is(err, fs.ErrNotExist) && !isThere(from):
		return fmt.Errorf("there is no file %s: %s; settee restore lists the automatic copies", from, asItWas)
	case errors.Is(err, ErrInUse):
		return &refusal{kind: ErrInUse, cause: err, text: "another Settee has " + from + " open: " + asItWas + "; close it there"}
	case errors.Is(err, ErrDamaged):
		return &refusal{kind: ErrDamaged, cause: err, text: from + " is damaged (" + reason(err) + "): " + asItWas +
			"; settee restore lists the automatic copies"}
	case errors.Is(err, ErrNotOurs):
		return &refusal{kind: ErrNotOurs, cause: err, text: from + " is not a store of Settee: " + asItWas +
			"; settee restore lists the automatic copies"}
	case errors.Is(err, ErrNewer):
		return fmt.Errorf("%s: %w", asItWas, err)
	case errors.As(err, &at) && at.Path != from:
		return fmt.Errorf("nothing can be written in %s (%w): %s; the copy is not to blame: make room on that disk, or let this "+
			"account write there", filepath.Dir(at.Path), at.Err, asItWas)
	case errors.As(err, &at):
		err = at.Err
	}
	return fmt.Errorf("%s cannot be restored (%w): %s", from, err, asItWas)
}

// exchange gives a file the store's name, and what has that name another one, which it tells. At no moment is no file, or
// half a one, under the store's name, where the file system has links.
func exchange(path, temp string, now time.Time) (before string, err error) {
	err = whileClosed(path, func(release func()) error {
		if !isThere(path) {
			return nameNew(temp, path)
		}
		if runtime.GOOS == "windows" {
			// There an open file keeps its name.
			release()
		}
		before, err = setBefore(path, now)
		if err != nil {
			return fmt.Errorf("what is at %s cannot be kept beside it, so nothing was restored: %w", path, err)
		}
		if err := os.Rename(temp, path); err != nil {
			return errors.Join(fmt.Errorf("nothing was restored: %w", err), setBack(before, path))
		}
		return nil
	})
	return before, err
}

// setBefore gives the store's file a second name beside it, or, on a file system without links, another one.
func setBefore(path string, now time.Time) (string, error) {
	first := path + ".before-restore-" + now.UTC().Format(backupTime)
	name := first
	for n := 2; ; n++ {
		err := os.Link(path, name)
		if err == nil {
			return name, nil
		}
		if !isThere(name) {
			return name, os.Rename(path, name)
		}
		name = fmt.Sprintf("%s-%d", first, n)
	}
}

// setBack undoes setBefore.
func setBack(before, path string) error {
	if isThere(path) {
		return os.Remove(before)
	}
	return os.Rename(before, path)
}

// whileClosed runs f while no other process can open the store at path, which may be damaged or not there. release lets go
// of the file before the end.
func whileClosed(path string, f func(release func()) error) (err error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return f(func() {})
	case err != nil:
		return unread(path, err)
	case !info.Mode().IsRegular():
		return notOurs(path, "it is no ordinary file")
	}
	db, err := hold(path)
	if errors.Is(err, bolterrors.ErrTimeout) {
		return inUse(path, err)
	}
	if errors.Is(err, fs.ErrPermission) {
		return unread(path, err)
	}
	if err != nil {
		// Nobody can have that open.
		return f(func() {})
	}
	release := func() { db.Close() }
	defer release()
	return f(release)
}

// hold opens a file for reading, which keeps others from opening it to write, and reads nothing but its heads.
func hold(path string) (db *bolt.DB, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%v", r)
		}
	}()
	defer faultsPanic()()
	return bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true, Timeout: lockWait, OpenFile: openThere})
}

// remedy says what to do about a damaged store: how to put the newest automatic copy in its place that looks whole, where
// there is one.
func remedy(path string) string {
	// What goes wrong in the search leaves the general advice.
	made, _ := Backups(path)
	for _, b := range trusted(made, time.Now()) {
		if guard(b.Path) != nil {
			continue
		}
		command := "settee restore "
		if usual, err := DefaultPath(); err != nil || resolved(usual) != resolved(path) {
			command += "--store " + quoted(path) + " "
		}
		return "the copy of " + b.Time.Local().Format("2 Jan 2006 15:04") + " looks whole: " + command + quoted(b.Path) +
			" puts it in its place and keeps this file beside it; or give another file with --store"
	}
	return "settee restore FILE puts a backup in its place, settee check --repair NEWFILE makes a new file of what can be read; " +
		"or give another file with --store"
}

// quoted gives a path as it is typed at a shell.
func quoted(path string) string {
	if strings.ContainsAny(path, " '()&;") {
		return `"` + path + `"`
	}
	return path
}
