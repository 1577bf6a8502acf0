package store

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// ErrNoBackup says that no automatic copy of a store is there that looks whole.
var ErrNoBackup = errors.New("there is no automatic copy")

// Backup is an automatic copy of a store.
type Backup struct {
	Path string
	// Time is when it was made as its name tells it, in UTC and to the second.
	Time time.Time
	// Size is in bytes.
	Size int64
}

const (
	// backupsKept is how many automatic copies are kept.
	backupsKept = 10
	// backupTime is how the name of a copy tells when it was made.
	backupTime = "20060102-150405Z"
)

// Backups gives the automatic copies of the store at path, newest first. Neither the store nor its copies need be there.
func Backups(path string) ([]Backup, error) {
	return folderOf(path).list()
}

// BackupName gives the name that an automatic copy of the store at path has, made at a time.
func BackupName(path string, at time.Time) string { return filepath.Base(folderOf(path).name(at)) }

// BackupTo copies the store to path while it is in use. The copy holds all that was kept when it began, and of what is kept
// meanwhile the first part in order. It gets its name, and is readable by its owner only, when all of it is on the disk and
// was read back; a file that is there is never replaced. What earlier copies to path left when they were cut short is taken
// away.
func (s *Store) BackupTo(path string, told Told) error {
	s.copying.Lock()
	defer s.copying.Unlock()
	path, err := vacant(path)
	if err != nil {
		return err
	}
	temp, err := s.copyWhole(path, told)
	if err != nil {
		return err
	}
	return nameNew(temp, path)
}

// AutoBackup copies the store as BackupTo does into the folder of its automatic copies, under a name that tells the time,
// and gives the copy's path. Of copies beyond the last ten the oldest are removed then, and first those that are dated
// later than now, by a clock that was wrong. Where the newest copy is still the store, byte for byte, no other is made and
// that one is given. With the path of a copy an error tells that it is there, but that an older one could not be removed.
func (s *Store) AutoBackup(now time.Time) (path string, err error) {
	s.copying.Lock()
	defer s.copying.Unlock()
	return s.autoBackup(now)
}

func (s *Store) autoBackup(now time.Time) (path string, err error) {
	in, now := folderOf(s.path), now.UTC().Truncate(time.Second)
	made, err := in.list()
	if err != nil {
		return "", err
	}
	if last := lastBy(made, now); last >= 0 {
		same, err := s.sameAs(made[last].Path)
		if err != nil {
			return "", err
		}
		if same {
			return made[last].Path, nil
		}
	}
	if err := in.prepare(); err != nil {
		return "", fmt.Errorf("the folder of the automatic copies cannot be made: %w", err)
	}
	path = in.name(now)
	temp, err := s.copyWhole(path, nil)
	if err != nil {
		return "", err
	}
	err = os.Rename(temp, path)
	if err = errors.Join(err, syncDir(in.dir)); err != nil {
		os.Remove(temp)
		return "", fmt.Errorf("the copy %s cannot be made: %w", path, err)
	}
	return path, in.prune(path, now)
}

// CopyBackup copies the newest automatic copy of the store at path that is whole to target, where no file is yet, and tells
// which one; one that is dated later than now only where there is no other. It is for a store that another process has open.
// ErrNoBackup where there is none.
func CopyBackup(path, target string, told Told) (Backup, error) {
	target, err := vacant(target)
	if err != nil {
		return Backup{}, err
	}
	made, err := Backups(path)
	if err != nil {
		return Backup{}, err
	}
	for _, b := range trusted(made, time.Now()) {
		if check(b.Path, "looked over", told) != nil {
			continue
		}
		temp, err := beside(target, func(w io.Writer) error { return copyFile(w, b.Path, told) })
		if errors.Is(err, fs.ErrNotExist) && !isThere(b.Path) {
			// The other process has made a newer one meanwhile.
			continue
		}
		if err != nil {
			return Backup{}, notCopied(target, err)
		}
		if err := whole(temp, target, told); err != nil {
			return Backup{}, err
		}
		return b, nameNew(temp, target)
	}
	return Backup{}, &refusal{kind: ErrNoBackup, text: "there is no automatic copy of " + path + " yet that looks whole"}
}

// copyWhole copies the store to a file of its own beside path, reads it back and gives that file's name.
func (s *Store) copyWhole(path string, told Told) (temp string, err error) {
	if temp, err = copyBeside(s, path, told); err != nil {
		return "", notCopied(path, err)
	}
	return temp, whole(temp, path, told)
}

// copyBeside copies a store to a file of its own in path's directory, synced, and gives that file's name.
func copyBeside(s *Store, path string, told Told) (temp string, err error) {
	return beside(path, func(w io.Writer) error {
		copied := &task{told: told}
		return s.copyTo(io.MultiWriter(w, copied), func(size int64) bool {
			copied.part = Part{Verb: "copied", Of: size}
			return true
		})
	})
}

// beside writes a file of its own in path's directory, for its owner only and synced, and gives its name.
func beside(path string, write func(io.Writer) error) (temp string, err error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*.new")
	if err != nil {
		return "", err
	}
	holdPart(f)
	err = write(f)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return "", errors.Join(err, os.Remove(f.Name()))
	}
	return f.Name(), nil
}

func copyFile(w io.Writer, path string, told Told) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	_, err = io.Copy(io.MultiWriter(w, told.begin(Part{Verb: "copied", Of: sizeOf(path)})), f)
	return err
}

// whole reads a copy back before it gets its name, and takes it away where it is not whole.
func whole(temp, path string, told Told) error {
	err := check(temp, "read back", told)
	if err == nil {
		return nil
	}
	return errors.Join(&refusal{kind: ErrDamaged, cause: err, text: "the copy " + path + " does not read back whole (" +
		reason(err) + ") and was taken away; older copies are left as they are: save what can be read with settee export, " +
		"then settee restore lists them"}, os.Remove(temp))
}

// reason gives what a refusal says is wrong, without its advice.
func reason(err error) string {
	var r *refusal
	if errors.As(err, &r) && r.cause != nil {
		return r.cause.Error()
	}
	return err.Error()
}

func notCopied(path string, err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	if folder := filepath.Dir(path); errors.Is(err, fs.ErrNotExist) && !isThere(folder) {
		return fmt.Errorf("the copy %s cannot be made: there is no folder %s: make it, or name another", path, folder)
	}
	return fmt.Errorf("the copy %s cannot be made: %w; nothing is left of it, name a place with room that can be written to",
		path, err)
}

// vacant gives a path whole, and refuses one at which something is. What was left of earlier writings to it is taken away;
// what cannot be is in nobody's way.
func vacant(path string) (string, error) {
	path, err := filepath.Abs(path)
	if err == nil && isThere(path) {
		err = taken(path)
	}
	if err == nil {
		_ = sweep(path)
	}
	return path, err
}

func isThere(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

func taken(path string) error {
	if leadsNowhere(path) {
		return nowhere(path)
	}
	return fmt.Errorf("%s is there already, and a copy replaces nothing: give another name, or a folder", path)
}

// nameNew gives a file its name for good, unless another has it by now: then the file is taken away.
func nameNew(temp, path string) error {
	defer os.Remove(temp)
	err := os.Link(temp, path)
	if errors.Is(err, fs.ErrExist) || err != nil && isThere(path) {
		return taken(path)
	}
	if err != nil {
		// A file system without links.
		err = os.Rename(temp, path)
	}
	if err = errors.Join(err, syncDir(filepath.Dir(path))); err != nil {
		return notCopied(path, err)
	}
	return nil
}

// sameAs tells whether a copy that is made now would be the file at path. The heads come first and tell most apart.
func (s *Store) sameAs(path string) (bool, error) {
	f, err := os.Open(path)
	if err != nil {
		return false, nil
	}
	defer f.Close()
	c := &comparer{r: f}
	err = s.copyTo(c, func(size int64) bool {
		info, err := f.Stat()
		c.differs = err != nil || info.Size() != size
		return !c.differs
	})
	if c.differs {
		return false, nil
	}
	return err == nil, err
}

// comparer compares what is written to it with what r gives.
type comparer struct {
	r       io.Reader
	buf     []byte
	differs bool
}

func (c *comparer) Write(p []byte) (int, error) {
	c.buf = slices.Grow(c.buf[:0], len(p))[:len(p)]
	if _, err := io.ReadFull(c.r, c.buf); err != nil || !bytes.Equal(c.buf, p) {
		c.differs = true
		return 0, errors.New("they differ")
	}
	return len(p), nil
}

// folder is where a store's automatic copies are: beside it and named after it.
type folder struct {
	dir string
	// base and ext are the store's name and its ending, with which the copies' names begin and end.
	base, ext string
}

// folderOf gives the folder of the store at path, which is the same by whatever link the store is named.
func folderOf(path string) folder {
	path = resolved(path)
	ext := filepath.Ext(path)
	base := strings.TrimSuffix(filepath.Base(path), ext)
	if base == "" {
		base, ext = ext, ""
	}
	return folder{dir: filepath.Join(filepath.Dir(path), base+"-backups"), base: base, ext: ext}
}

// resolved gives a path whole and without links, as far as there is something at it.
func resolved(path string) string {
	if whole, err := filepath.Abs(path); err == nil {
		path = whole
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		return real
	}
	return path
}

// prepare makes the folder, and takes away what a copying left that was cut short: the store is open to nobody else.
func (in folder) prepare() error {
	if err := os.Mkdir(in.dir, 0o700); err == nil {
		return syncDir(filepath.Dir(in.dir))
	} else if !errors.Is(err, fs.ErrExist) {
		return err
	}
	files, err := os.ReadDir(in.dir)
	if err != nil {
		return err
	}
	for _, f := range files {
		name, ok := strings.CutPrefix(f.Name(), ".")
		name, ends := strings.CutSuffix(name, ".new")
		if _, ours := in.time(strings.TrimSuffix(name, filepath.Ext(name))); ok && ends && ours {
			os.Remove(filepath.Join(in.dir, f.Name()))
		}
	}
	return nil
}

func (in folder) name(at time.Time) string {
	return filepath.Join(in.dir, in.base+"-"+at.UTC().Format(backupTime)+in.ext)
}

// time tells when a copy was made by its name, or that the name is none of ours.
func (in folder) time(name string) (time.Time, bool) {
	rest, begins := strings.CutPrefix(name, in.base+"-")
	rest, ends := strings.CutSuffix(rest, in.ext)
	at, err := time.Parse(backupTime, rest)
	return at, begins && ends && err == nil
}

// list gives the copies, newest first.
func (in folder) list() ([]Backup, error) {
	files, err := os.ReadDir(in.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("the automatic copies cannot be listed: %w", err)
	}
	var out []Backup
	for _, f := range files {
		at, ours := in.time(f.Name())
		if !ours || !f.Type().IsRegular() {
			continue
		}
		if info, err := f.Info(); err == nil {
			out = append(out, Backup{Path: filepath.Join(in.dir, f.Name()), Time: at, Size: info.Size()})
		}
	}
	slices.SortFunc(out, func(a, b Backup) int { return b.Time.Compare(a.Time) })
	return out, nil
}

// prune removes the copies beyond those that are kept, never the one just made.
func (in folder) prune(made string, now time.Time) error {
	old, err := in.list()
	if err != nil {
		return err
	}
	old = slices.DeleteFunc(old, func(b Backup) bool { return b.Path == made })
	old = trusted(old, now)
	for _, b := range old[min(backupsKept-1, len(old)):] {
		if rm := os.Remove(b.Path); rm != nil && !errors.Is(rm, fs.ErrNotExist) {
			err = errors.Join(err, fmt.Errorf("the copy is made, but an older one cannot be removed: %w", rm))
		}
	}
	return err
}

// late gives 1 for a copy dated later than now, else 0.
func late(b Backup, now time.Time) int {
	if b.Time.After(now) {
		return 1
	}
	return 0
}
