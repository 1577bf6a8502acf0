package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
)

// nine is when the copies of these tests begin to be made.
var nine = time.Date(2026, 11, 25, 21, 0, 0, 0, time.UTC)

// autoBackup makes an automatic copy that has to be made.
func autoBackup(t testing.TB, s *Store, now time.Time) string {
	t.Helper()
	path, err := s.AutoBackup(now)
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// exportAt gives what a store that is open to nobody exports.
func exportAt(t testing.TB, path string) []byte {
	t.Helper()
	s, err := Open(path, Options{MustExist: true, NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	export, err := exportOf(s)
	if err = errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	return export
}

// Each copy begins when a part of the evening is kept, and the next part is kept while it is made.
func TestACopyIsMadeWhileCallsAreKept(t *testing.T) {
	const parts = 8
	s := openTemp(t, Options{})
	var steps []model.Step
	c := newCoach(t, 4, func(step model.Step) { steps = append(steps, step) })
	c.begin(8)
	c.bowl(220 * parts)
	all := recordedBy(steps)
	part := len(steps) / parts
	began, kept := make(chan int), make(chan error, 1)
	go func() {
		defer close(began)
		for i, step := range steps {
			if err := s.Keep(step); err != nil {
				kept <- err
				return
			}
			if n := i + 1; n%part == 0 {
				began <- n
			}
		}
		kept <- nil
	}()
	dir := t.TempDir()
	for durable := range began {
		path := filepath.Join(dir, fmt.Sprint(durable))
		if err := s.BackupTo(path, nil); err != nil {
			t.Fatal(err)
		}
		least, most := recordedBy(steps[:durable]), recordedBy(steps[:min(durable+part, len(steps))])
		got := deliveriesAt(t, path, c.session())
		if len(got) < len(least) || len(got) > len(most) {
			t.Fatalf("the copy holds %d deliveries, %d were kept when it began and %d at most when it ended", len(got), len(least), len(most))
		}
		for i, d := range got {
			if d != all[i] {
				t.Fatalf("delivery %d of the copy is %+v, recorded was %+v", i+1, d, all[i])
			}
		}
	}
	if err := <-kept; err != nil {
		t.Fatal(err)
	}
	if left := files(t, dir); len(left) != parts {
		t.Errorf("there are %v", left)
	}
}

func deliveriesAt(t *testing.T, path string, session model.ID) []model.Delivery {
	t.Helper()
	s, err := Open(path, Options{MustExist: true, NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	k, err := s.Evening(session)
	if err != nil {
		t.Fatal(err)
	}
	return k.Deliveries
}

func TestTheLastTenCopiesAreKept(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	dir := folderOf(s.Path()).dir
	if err := os.Mkdir(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	// What only looks like ours stays, and what a crash has left of a copy goes.
	others := []string{"settee-20200101-000000Z.db.old", "settee-2020.db", "other-20200101-000000Z.db", ".other.123.new", "notes.txt"}
	stray := "." + filepath.Base(folderOf(s.Path()).name(nine)) + ".123.new"
	for _, name := range append([]string{stray}, others...) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	c := newCoach(t, 1, func(step model.Step) {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	})
	c.begin(2)
	var made []string
	for hour := range 13 {
		c.bowl(3)
		made = append(made, autoBackup(t, s, nine.Add(time.Duration(hour)*time.Hour)))
	}
	if want := filepath.Join(dir, "settee-20261125-210000Z.db"); made[0] != want {
		t.Errorf("the first copy is %s, want %s", made[0], want)
	}
	got, err := Backups(s.Path())
	if err != nil || len(got) != 10 {
		t.Fatalf("there are %v, %v", got, err)
	}
	for i, b := range got {
		want := made[len(made)-1-i]
		if info, err := os.Stat(want); err != nil || b.Path != want || b.Size != info.Size() || !b.Time.Equal(nine.Add(time.Duration(12-i)*time.Hour)) {
			t.Errorf("copy %d is %+v, want %s, %v", i, b, want, err)
		}
	}
	if left := files(t, dir); len(left) != 10+len(others) {
		t.Errorf("in the folder are %v", left)
	}
	for _, name := range others {
		if _, err := os.Stat(filepath.Join(dir, name)); err != nil {
			t.Error(err)
		}
	}
}

func TestNoCopyIsMadeOfWhatHasNotChanged(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := fill(t, s, 300, 20)
	first := autoBackup(t, s, nine)
	if again := autoBackup(t, s, nine.Add(time.Hour)); again != first {
		t.Errorf("an hour later there is another copy, %s", again)
	}
	c.keep = func(step model.Step) {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	}
	c.begin(1)
	second := autoBackup(t, s, nine.Add(2*time.Hour))
	if second == first {
		t.Error("no copy is made of what has changed")
	}
	// A copy that has rotted is no copy.
	file := read(t, second)
	file[len(file)-1] ^= 1
	if err := os.WriteFile(second, file, 0o600); err != nil {
		t.Fatal(err)
	}
	if third := autoBackup(t, s, nine.Add(3*time.Hour)); third == second {
		t.Error("a copy that is not the store any more is taken for it")
	}
}

// An evening that goes on from an earlier copy comes to the same number of transactions as the one that was given up.
func TestACopyIsMadeOfAnotherEveningOfTheSameLength(t *testing.T) {
	path := filepath.Join(t.TempDir(), "settee.db")
	evening := func(seed uint64, now time.Time) (first, second string) {
		s, err := Open(path, Options{NoSync: true})
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		first = autoBackup(t, s, now)
		c := newCoach(t, seed, func(step model.Step) {
			if err := s.Keep(step); err != nil {
				t.Fatal(err)
			}
		})
		c.begin(2)
		c.bowl(10)
		return first, autoBackup(t, s, now.Add(time.Minute))
	}
	before, one := evening(1, nine)
	if _, err := Restore(path, before, nine, nil); err != nil {
		t.Fatal(err)
	}
	_, other := evening(2, nine.Add(time.Hour))
	if other == one {
		t.Fatal("the copy of another evening is taken for this one's")
	}
	if bytes.Equal(exportAt(t, one), exportAt(t, other)) {
		t.Error("the two evenings are one")
	}
}

func TestCopiesOfAWrongClockGoFirst(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	c := newCoach(t, 1, func(step model.Step) {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	})
	c.begin(2)
	copyAt := func(now time.Time) string { c.bowl(1); return autoBackup(t, s, now) }
	var ahead, right []string
	for i := range 10 {
		ahead = append(ahead, copyAt(nine.AddDate(9, 0, i)))
	}
	for i := range 10 {
		now := nine.Add(time.Duration(i) * time.Hour)
		right = append(right, copyAt(now))
		if again := autoBackup(t, s, now.Add(time.Minute)); again != right[i] {
			t.Errorf("another copy is made of what has not changed: %s", again)
		}
	}
	for i := range 10 {
		if !isThere(right[i]) || isThere(ahead[i]) {
			t.Errorf("copy %d of the right clock is there: %v, of the wrong one: %v", i, isThere(right[i]), isThere(ahead[i]))
		}
	}
}

func TestACopyIsForItsOwnerOnly(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("files have no such permissions there")
	}
	s := openTemp(t, Options{NoSync: true})
	named := filepath.Join(t.TempDir(), "copy.db")
	if err := s.BackupTo(named, nil); err != nil {
		t.Fatal(err)
	}
	auto := autoBackup(t, s, nine)
	for path, want := range map[string]os.FileMode{named: 0o600, auto: 0o600, filepath.Dir(auto): 0o700 | os.ModeDir} {
		if info, err := os.Stat(path); err != nil || info.Mode() != want {
			t.Errorf("%s: %v, %v, want %v", path, info.Mode(), err, want)
		}
	}
}

func TestWhereNoCopyCanBeItIsSaid(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	dir := t.TempDir()
	there := filepath.Join(dir, "there.db")
	if err := os.WriteFile(there, []byte("a letter"), 0o600); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		there:                            "there.db is there already, and a copy replaces nothing",
		s.Path():                         "settee.db is there already",
		dir:                              "is there already",
		filepath.Join(dir, "no", "a.db"): "a.db cannot be made: there is no folder " + filepath.Join(dir, "no") + ": make it",
		filepath.Join(there, "a.db"):     "a.db cannot be made: not a directory; nothing is left of it",
	} {
		if err := s.BackupTo(path, nil); err == nil || !strings.Contains(err.Error(), want) && runtime.GOOS != "windows" {
			t.Errorf("%s: %v, want %s", path, err, want)
		}
	}
	if string(read(t, there)) != "a letter" || len(files(t, dir)) != 1 {
		t.Errorf("in the folder are %v", files(t, dir))
	}
	if err := os.WriteFile(folderOf(s.Path()).dir, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if path, err := s.AutoBackup(nine); err == nil || path != "" || !strings.Contains(err.Error(), "the automatic copies cannot be listed") {
		t.Errorf("a file in the place of the folder: %s, %v", path, err)
	}
}

func TestADirectoryThatCannotBeWrittenToIsSaid(t *testing.T) {
	if os.Geteuid() <= 0 {
		t.Skip("this user may write anywhere")
	}
	s := openTemp(t, Options{NoSync: true})
	dir := t.TempDir()
	if err := os.Chmod(dir, 0o500); err != nil {
		t.Fatal(err)
	}
	if err := s.BackupTo(filepath.Join(dir, "a.db"), nil); err == nil || !strings.Contains(err.Error(), "a.db cannot be made: permission denied") {
		t.Error(err)
	}
}

// Copies that are whole do not make room for one of a store that is damaged.
func TestADamagedStoreReplacesNoCopy(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	fill(t, s, 300, 20)
	var good []string
	for i := range 10 {
		good = append(good, autoBackup(t, s, nine.Add(time.Duration(i)*time.Hour)))
		if err := s.Keep(model.Step{Changes: []model.Change{{Ref: invented(i).Ref(), After: invented(i)}}}); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := s.Count(); err != nil {
		t.Fatal(err)
	}
	file := read(t, s.Path())
	at := bytes.LastIndex(file, []byte(invented(9).Name))
	f, err := os.OpenFile(s.Path(), os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := f.WriteAt([]byte{file[at] ^ 1}, int64(at)); err != nil {
		t.Fatal(err)
	}
	path, err := s.AutoBackup(nine.AddDate(0, 0, 1))
	if !errors.Is(err, ErrDamaged) || path != "" || !strings.Contains(err.Error(), "older copies are left as they are") {
		t.Errorf("%q, %v", path, err)
	}
	if left := files(t, filepath.Dir(good[0])); len(left) != len(good) {
		t.Errorf("in the folder are %v", left)
	}
}

func TestTheNewestWholeCopyStandsInForAStoreThatIsOpen(t *testing.T) {
	s := openTemp(t, Options{NoSync: true})
	target := filepath.Join(t.TempDir(), "copy.db")
	if _, err := CopyBackup(s.Path(), target, nil); !errors.Is(err, ErrNoBackup) {
		t.Errorf("without an automatic copy: %v", err)
	}
	fill(t, s, 100, 20)
	older := autoBackup(t, s, nine)
	want, err := exportOf(s)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Keep(model.Step{Changes: []model.Change{{Ref: invented(0).Ref()}}}); err != nil {
		t.Fatal(err)
	}
	newer := filepath.Join(filepath.Dir(older), "settee-20261126-210000Z.db")
	if err := os.WriteFile(newer, read(t, older)[:20000], 0o600); err != nil {
		t.Fatal(err)
	}
	b, err := CopyBackup(s.Path(), target, nil)
	if err != nil || b.Path != older || !b.Time.Equal(nine) {
		t.Fatalf("copied was %+v, %v", b, err)
	}
	if !bytes.Equal(exportAt(t, target), want) {
		t.Error("the copy is another")
	}
	if _, err := CopyBackup(s.Path(), target, nil); err == nil || !strings.Contains(err.Error(), "is there already") {
		t.Errorf("over a file that is there: %v", err)
	}
}

func TestStoresOfOneFolderHaveCopiesOfTheirOwn(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct{ name, want string }{
		{"lessons.db", "lessons-backups/lessons-20261125-210000Z.db"},
		{"lessons.bolt", "lessons-backups/lessons-20261125-210000Z.bolt"},
		{"lessons", "lessons-backups/lessons-20261125-210000Z"},
		{".hidden", ".hidden-backups/.hidden-20261125-210000Z"},
	} {
		s, err := Open(filepath.Join(dir, c.name), Options{NoSync: true})
		if err != nil {
			t.Fatal(err)
		}
		if path := autoBackup(t, s, nine); path != filepath.Join(resolved(dir), filepath.FromSlash(c.want)) {
			t.Errorf("the copy of %s is %s", c.name, path)
		}
		if made, err := Backups(s.Path()); err != nil || len(made) != 1 {
			t.Errorf("the copies of %s are %v, %v", c.name, made, err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
