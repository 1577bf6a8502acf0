package store

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	bolt "go.etcd.io/bbolt"
)

// besides gives what is in a store's directory besides the store, its copies and what these tests put there.
func besides(t testing.TB, path string) []string {
	t.Helper()
	return slices.DeleteFunc(files(t, filepath.Dir(path)), func(name string) bool {
		return name == filepath.Base(path) || strings.HasSuffix(name, "-backups") || name == "copy.db"
	})
}

// files gives the names in a directory.
func files(t testing.TB, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// copied gives a store's path, a copy of it, and what it exports. The store is open to nobody.
func copied(t *testing.T) (path, from string, export []byte) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "settee.db")
	from = filepath.Join(filepath.Dir(path), "copy.db")
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	fill(t, s, 900, 200)
	err = s.BackupTo(from, nil)
	export, exportErr := exportOf(s)
	if err = errors.Join(err, exportErr, s.Close()); err != nil {
		t.Fatal(err)
	}
	return path, from, export
}

func TestACopyTakesTheDamagedStoresPlace(t *testing.T) {
	path, from, export := copied(t)
	sound := read(t, path)
	zeroHeads := bytes.Clone(sound)
	clear(zeroHeads[:2*pageSize(sound)])
	oneHead := bytes.Clone(sound)
	clear(oneHead[:pageSize(sound)])
	wildRoot := bytes.Clone(sound)
	clear(wildRoot[3*pageSize(sound):])
	for what, file := range map[string][]byte{
		"the sound one": sound, "nothing in it": {}, "cut off in the middle": sound[:len(sound)/2],
		"cut off after the heads": sound[:2*pageSize(sound)], "no heads": zeroHeads, "one head": oneHead,
		"zeros behind the heads": wildRoot, "a text": []byte("dear diary"),
	} {
		t.Run(what, func(t *testing.T) {
			if err := os.WriteFile(path, file, 0o600); err != nil {
				t.Fatal(err)
			}
			done, err := Restore(path, from, nine, nil)
			if err != nil {
				t.Fatal(err)
			}
			defer os.Remove(done.Before)
			if done.Before != resolved(path)+".before-restore-20261125-210000Z" {
				t.Errorf("what was there is kept as %s", done.Before)
			}
			if !bytes.Equal(read(t, done.Before), file) {
				t.Error("what was there has changed")
			}
			if n := bytes.Count(export, []byte(`{"type":"delivery"`)); done.Deliveries != n {
				t.Errorf("%d deliveries are told, there are %d", done.Deliveries, n)
			}
			if err := Check(path); err != nil || !bytes.Equal(exportAt(t, path), export) {
				t.Errorf("the store is another, %v", err)
			}
			if left := besides(t, path); len(left) != 1 {
				t.Errorf("beside the store are %v", left)
			}
			if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 && runtime.GOOS != "windows" {
				t.Errorf("%v, %v", info.Mode(), err)
			}
		})
	}
}

func TestACopyIsRestoredWhereThereIsNoStore(t *testing.T) {
	_, from, export := copied(t)
	path := filepath.Join(t.TempDir(), "new", "laptop", "settee.db")
	done, err := Restore(path, from, nine, nil)
	if err != nil || done.Before != "" {
		t.Fatalf("%+v, %v", done, err)
	}
	if !bytes.Equal(exportAt(t, path), export) || len(besides(t, path)) != 0 {
		t.Errorf("the store is another, or beside it are %v", besides(t, path))
	}
}

func TestTwoRestoresInOneSecondKeepBoth(t *testing.T) {
	path, from, _ := copied(t)
	first, err := Restore(path, from, nine, nil)
	if err != nil {
		t.Fatal(err)
	}
	second, err := Restore(path, from, nine, nil)
	if err != nil || second.Before != first.Before+"-2" || len(besides(t, path)) != 2 {
		t.Errorf("kept are %s and %s, %v", first.Before, second.Before, err)
	}
}

func TestAStoreThatIsOpenIsNotReplaced(t *testing.T) {
	path, from, _ := copied(t)
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	before := read(t, path)
	if _, err := Restore(path, from, nine, nil); !errors.Is(err, ErrInUse) {
		t.Errorf("got %v", err)
	}
	elsewhere := filepath.Join(t.TempDir(), "settee.db")
	if _, err := Restore(elsewhere, path, nine, nil); !errors.Is(err, ErrInUse) || isThere(elsewhere) {
		t.Errorf("of a file that is open: %v", err)
	}
	if !bytes.Equal(read(t, path), before) || len(besides(t, path)) != 0 || len(besides(t, elsewhere)) != 0 {
		t.Errorf("beside the store are %v", besides(t, path))
	}
}

// A copy of any damage is refused, or gives all that it held: the store and the copy are as they were then.
func TestADamagedCopyIsRefused(t *testing.T) {
	path, from, export := copied(t)
	sound, store := read(t, from), read(t, path)
	rng := rand.New(rand.NewPCG(6, 1))
	refused := 0
	for n := range 60 {
		file := bytes.Clone(sound)
		switch n % 3 {
		case 0:
			file = file[:rng.IntN(len(file))]
		case 1:
			file[rng.IntN(len(file))] ^= 1 << rng.IntN(8)
		case 2:
			page := rng.IntN(highWater(sound))
			clear(file[page*pageSize(sound) : (page+1)*pageSize(sound)])
		}
		if err := os.WriteFile(from, file, 0o600); err != nil {
			t.Fatal(err)
		}
		done, err := Restore(path, from, nine, nil)
		if !bytes.Equal(read(t, from), file) {
			t.Fatalf("damage %d: the copy has changed", n)
		}
		if err == nil {
			// What is of no meaning, in a free page or behind the journal's end, was changed.
			if !bytes.Equal(exportAt(t, path), export) {
				t.Fatalf("damage %d: a wrong store is put in the place", n)
			}
			if err := errors.Join(os.Remove(done.Before), os.WriteFile(path, store, 0o600)); err != nil {
				t.Fatal(err)
			}
			continue
		}
		refused++
		if !errors.Is(err, ErrDamaged) && !errors.Is(err, ErrNotOurs) || !strings.HasPrefix(err.Error(), from+" is ") ||
			!strings.Contains(err.Error(), "nothing was restored, the store is as it was; settee restore lists") {
			t.Errorf("damage %d: %v", n, err)
		}
		if !bytes.Equal(read(t, path), store) || len(besides(t, path)) != 0 {
			t.Fatalf("damage %d: the store has changed, or beside it are %v", n, besides(t, path))
		}
	}
	if refused < 30 {
		t.Errorf("%d of 60 were refused", refused)
	}
}

// Pages and checksums may be right where a record is not.
func TestACopyWithARecordThatDoesNotReadIsRefused(t *testing.T) {
	for what, spoil := range map[string]func(tx *bolt.Tx) error{
		"a student of no meaning": func(tx *bolt.Tx) error {
			key := []byte(invented(0).ID)
			return bucket(tx, bucketStudents).Put(key, newEncoder().seal(key))
		},
		"who is up of no meaning": func(tx *bolt.Tx) error {
			k, _ := bucket(tx, bucketLive).Cursor().First()
			return bucket(tx, bucketLive).Put(bytes.Clone(k), newEncoder().seal(k))
		},
		"a delivery gone": func(tx *bolt.Tx) error {
			k, _ := bucket(tx, bucketDeliveries).Cursor().First()
			return bucket(tx, bucketDeliveries).Delete(bytes.Clone(k))
		},
	} {
		t.Run(what, func(t *testing.T) {
			path, from, _ := copied(t)
			s, err := Open(from, Options{NoSync: true})
			if err != nil {
				t.Fatal(err)
			}
			if err := errors.Join(s.update(spoil), s.Close()); err != nil {
				t.Fatal(err)
			}
			if err := Check(from); err != nil {
				t.Fatal(err)
			}
			before := read(t, path)
			if _, err := Restore(path, from, nine, nil); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), "nothing was restored") {
				t.Errorf("got %v", err)
			}
			if !bytes.Equal(read(t, path), before) || len(besides(t, path)) != 0 {
				t.Errorf("the store has changed, or beside it are %v", besides(t, path))
			}
		})
	}
}

func TestWhatIsNoCopyIsRefused(t *testing.T) {
	path, from, _ := copied(t)
	for what, c := range map[string]struct{ from, want string }{
		"the store itself": {path, "is the store itself"},
		"no file":          {from + ".gone", "copy.db.gone: nothing was restored, the store is as it was; settee restore lists the automatic copies"},
		"a directory":      {filepath.Dir(path), "is not a store of Settee: nothing was restored"},
	} {
		if _, err := Restore(path, c.from, nine, nil); err == nil || !strings.Contains(err.Error(), c.want) && runtime.GOOS != "windows" {
			t.Errorf("%s: %v", what, err)
		}
	}
	nowhere := filepath.Join(filepath.Dir(path), "nowhere")
	if _, err := Restore(filepath.Join(nowhere, "settee.db"), from+".gone", nine, nil); err == nil || isThere(nowhere) {
		t.Errorf("where there is no store, and no file: %v", err)
	}
	if _, err := Restore(filepath.Dir(path), from, nine, nil); !errors.Is(err, ErrNotOurs) {
		t.Errorf("over a directory: %v", err)
	}
	if len(besides(t, path)) != 0 {
		t.Errorf("beside the store are %v", besides(t, path))
	}
}

func TestWhatTheCopysJournalHoldsIsRestored(t *testing.T) {
	s := openTemp(t, Options{})
	from := filepath.Join(t.TempDir(), "copy.db")
	steps := evening(t, 40)
	for _, step := range steps {
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	}
	// As a crash leaves the file.
	if err := os.WriteFile(from, read(t, s.Path()), 0o600); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "settee.db")
	done, err := Restore(path, from, nine, nil)
	if err != nil || done.Deliveries != 40 {
		t.Fatalf("%+v, %v", done, err)
	}
	if got := deliveriesAt(t, path, steps[0].Session); !slices.Equal(got, recordedBy(steps)) {
		t.Errorf("there are %d deliveries", len(got))
	}
}

func TestAStoreBehindALinkIsRestoredWhereItIs(t *testing.T) {
	path, from, export := copied(t)
	link := filepath.Join(t.TempDir(), "link.db")
	if err := os.Symlink(path, link); err != nil {
		t.Skip(err)
	}
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	done, err := Restore(link, from, nine, nil)
	if err != nil || filepath.Dir(done.Before) != filepath.Dir(resolved(path)) {
		t.Fatalf("%+v, %v", done, err)
	}
	if real, err := filepath.EvalSymlinks(link); err != nil || real != resolved(path) {
		t.Errorf("the link leads to %s, %v", real, err)
	}
	if !bytes.Equal(exportAt(t, link), export) {
		t.Error("the store is another")
	}
}

// The error of a damaged store names the newest copy that looks whole and what to type.
func TestADamagedStoreTellsItsNewestWholeCopy(t *testing.T) {
	path := filepath.Join(t.TempDir(), "my settee.db")
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	good := autoBackup(t, s, nine)
	err = s.Keep(model.Step{Changes: []model.Change{{Ref: invented(1).Ref(), After: invented(1)}}})
	bad, backupErr := s.AutoBackup(nine.AddDate(0, 0, 1))
	if err = errors.Join(err, backupErr, s.Close()); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{bad, path} {
		if err := os.WriteFile(name, read(t, name)[:9000], 0o600); err != nil {
			t.Fatal(err)
		}
	}
	_, err = Open(path, Options{})
	want := "the copy of " + nine.Local().Format("2 Jan 2006 15:04") + ` looks whole: settee restore --store "` + path + `" "` + good +
		`" puts it in its place and keeps this file beside it; or give another file with --store`
	if !errors.Is(err, ErrDamaged) || !strings.HasSuffix(err.Error(), want) {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	t.Setenv(EnvStore, path)
	if _, err = Open(path, Options{}); !strings.Contains(err.Error(), `looks whole: settee restore "`+good+`" puts`) {
		t.Errorf("of the usual store: %v", err)
	}
	if err := os.Remove(good); err != nil {
		t.Fatal(err)
	}
	if _, err = Open(path, Options{}); !errors.Is(err, ErrDamaged) || !strings.HasSuffix(err.Error(), "give another file with --store") ||
		strings.Contains(err.Error(), "looks whole") {
		t.Errorf("without a whole copy: %v", err)
	}
}
