package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	"github.com/google/go-cmp/cmp"
)

// damage is one way in which files come to harm.
type damage struct {
	name string
	// cases gives damaged files one after another, each with what was done to it; n is how many of those that are drawn.
	cases func(v victim, n int, dice *rand.Rand, try func(what string, file []byte))
}

// victim is a sound file with what it holds.
type victim struct {
	file []byte
	// holds are the lines of its export; everHeld are those that any record in it had at any time.
	holds, everHeld map[string]bool
	deliveries      int
	crashed         bool
	// frames are where in the file the journal's frames begin and end that wait.
	frames [2]int
	all    map[string]any
	kinds  map[string][]int
}

var damages = []damage{
	{"cut off", func(v victim, _ int, dice *rand.Rand, try func(string, []byte)) {
		size := pageSize(v.file)
		for page := range highWater(v.file) {
			try(fmt.Sprintf("cut to %d bytes", page*size), v.file[:page*size])
			if dice.IntN(3) == 0 {
				cut := page*size + 1 + dice.IntN(size-1)
				try(fmt.Sprintf("cut to %d bytes", cut), v.file[:cut])
			}
		}
	}},
	{"a page of zeros", func(v victim, _ int, _ *rand.Rand, try func(string, []byte)) {
		for page := range highWater(v.file) {
			try(fmt.Sprintf("page %d of zeros", page), v.with(page, make([]byte, pageSize(v.file))))
		}
	}},
	{"a page of noise", func(v victim, n int, dice *rand.Rand, try func(string, []byte)) {
		for range n {
			page, noise := dice.IntN(highWater(v.file)), make([]byte, pageSize(v.file))
			for i := range noise {
				noise[i] = byte(dice.Uint32())
			}
			try(fmt.Sprintf("page %d of noise", page), v.with(page, noise))
		}
	}},
	{"a page of another's", func(v victim, n int, dice *rand.Rand, try func(string, []byte)) {
		size := pageSize(v.file)
		for range n {
			page, other := dice.IntN(highWater(v.file)), dice.IntN(highWater(v.file))
			try(fmt.Sprintf("page %d is what page %d is", page, other), v.with(page, v.file[other*size:(other+1)*size]))
		}
	}},
	bitsIn("head"), bitsIn("list of free pages"), bitsIn("branch"), bitsIn("leaf"), bitsIn("journal"), bitsIn("free"),
}

// bitsIn turns single bits in a kind of page.
func bitsIn(kind string) damage {
	return damage{"a bit in a " + kind, func(v victim, n int, dice *rand.Rand, try func(string, []byte)) {
		size := pageSize(v.file)
		pages := v.kinds[kind]
		for range n {
			if len(pages) == 0 {
				return
			}
			at := pages[dice.IntN(len(pages))]*size + dice.IntN(size)
			switch {
			case kind == "journal" && v.crashed && dice.IntN(8) > 0:
				at = v.frames[0] + dice.IntN(v.frames[1]-v.frames[0])
			case kind != "leaf" && kind != "journal" && dice.IntN(4) > 0:
				// Most of such a page means nothing.
				at = at/size*size + dice.IntN(min(size, 300))
			}
			changed := bytes.Clone(v.file)
			changed[at] ^= 1 << dice.IntN(8)
			try(fmt.Sprintf("a bit in byte %d (page %d)", at, at/size), changed)
		}
	}}
}

// callsWaiting is how many calls wait in the journal of a file that a crash has left.
const callsWaiting = 5

func (v victim) with(page int, content []byte) []byte {
	changed := bytes.Clone(v.file)
	copy(changed[page*len(content):], content)
	return changed
}

// newVictim makes a store of some evenings with corrections and balls taken back, as a crash leaves it where steps wait in
// the journal.
func newVictim(t *testing.T, deliveries int, seed uint64, crashed bool) victim {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sound.db")
	// Ids from elsewhere.
	mustImport(t, path, sample(t))
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	v := victim{crashed: crashed, everHeld: map[string]bool{}, holds: map[string]bool{}}
	for line := range bytes.Lines(sample(t)) {
		v.everHeld[string(line)] = true
	}
	c := newCoach(t, seed, func(step model.Step) {
		for _, ch := range step.Changes {
			if ch.After != nil {
				v.everHeld[string(encodeLine(nil, ch.After))] = true
			}
		}
		if err := s.Keep(step); err != nil {
			t.Fatal(err)
		}
	})
	for left := deliveries; left > 0; left -= 90 {
		c.begin(6)
		c.bowl(min(left, 90))
		for range 3 {
			c.do(c.evening.Undo())
			c.evening.Clear()
		}
		c.bowl(3)
		c.ok(c.evening.Reopen())
		c.ok(c.evening.SetNote("slower than it looked"))
		c.do(c.evening.RecordNamed(c.at))
		if left > 90 {
			c.close()
		}
	}
	if crashed {
		if err := s.settleFirst(); err != nil {
			t.Fatal(err)
		}
		for range callsWaiting {
			c.call()
		}
		v.file = read(t, path)
		if n := len(s.journal.steps); n < callsWaiting {
			t.Fatalf("%d steps wait in the journal", n)
		}
		v.frames = [2]int{int(s.journal.from), int(s.journal.from + s.journal.end)}
	}
	export, err := exportOf(s)
	if err != nil {
		t.Fatal(err)
	}
	if v.all, err = everything(s); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if !crashed {
		v.file = read(t, path)
	}
	for line := range strings.Lines(string(export)) {
		v.holds[line] = true
	}
	v.deliveries = v.all["count"].(int)
	v.kinds = pageKinds(t, v.file)
	return v
}

// everything is what a store tells through each of its readers.
func everything(s *Store) (map[string]any, error) {
	out := map[string]any{}
	export, err := exportOf(s)
	out["export"] = string(export)
	students, err2 := s.Students()
	sessions, err3 := s.Sessions()
	open, err4 := s.OpenSessions()
	count, err5 := s.Count()
	out["students"], out["sessions"], out["open"], out["count"] = students, sessions, open, count
	err = errors.Join(err, err2, err3, err4, err5)
	for _, student := range students {
		played, e := s.Played(student.ID, 0, nil)
		out["played "+string(student.ID)], err = played, errors.Join(err, e)
	}
	for _, session := range sessions {
		kept, e := s.Evening(session.ID)
		out["evening "+string(session.ID)], err = kept, errors.Join(err, e)
		counts, e := s.EveningCount(session.ID)
		out["counts "+string(session.ID)], err = counts, errors.Join(err, e)
	}
	return out, err
}

func pageKinds(t *testing.T, file []byte) map[string][]int {
	free := freePages(t, file)
	kinds := map[string][]int{"head": {0, 1}}
	for page := 2; page < highWater(file); page++ {
		kind := map[uint16]string{flagBranch: "branch", flagLeaf: "leaf", flagFreelist: "list of free pages"}[binary.NativeEndian.Uint16(file[page*pageSize(file)+8:])]
		switch {
		case inJournal(t, file, page) || bytes.Contains(file[page*pageSize(file):(page+1)*pageSize(file)], journalMark):
			kind = "journal"
		case free[page]:
			kind = "free"
		}
		kinds[kind] = append(kinds[kind], page)
	}
	return kinds
}

const (
	damageLong  = "SETTEE_LONG"
	damageChild = "SETTEE_DAMAGE"
	// damageLeft is where files are left for whoever looks into what they did.
	damageLeft = "SETTEE_DAMAGE_LEFT"
)

// TestDamage harms files in many ways, each kind in a process of its own, which a memory fault may end. SETTEE_LONG=1 tries
// more. Each file is refused in words, or reads as it was or with an error, or says that the last call may be missing; and a
// repair gives back part of it.
func TestDamage(t *testing.T) {
	if name := os.Getenv(damageChild); name != "" {
		t.Skip("this is the process that is damaged")
	}
	if testing.Short() {
		t.Skip("left out with -short: the files are read in processes of their own")
	}
	for _, d := range damages {
		t.Run(d.name, func(t *testing.T) {
			cmd := exec.Command(os.Args[0], "-test.run=^TestDamageOfOneKind$", "-test.v")
			// Much is read once and dropped: the collector would take a quarter of the time.
			cmd.Env = append(os.Environ(), damageChild+"="+d.name, "GOGC=400", damageLeft+"="+os.TempDir())
			cmd.Env = append(cmd.Env, "TMPDIR="+quickDir(t))
			out, err := cmd.CombinedOutput()
			if err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			for line := range strings.Lines(string(out)) {
				if strings.Contains(line, "tried") {
					t.Log(strings.TrimSpace(line))
				}
			}
		})
	}
}

// quickDir gives a directory in memory where the system has one: nothing there has to last, and most of the time would go
// into waiting for a disk.
func quickDir(t testing.TB) string {
	if info, err := os.Stat("/dev/shm"); err != nil || !info.IsDir() || os.Getenv("TMPDIR") != "" {
		return t.TempDir()
	}
	dir, err := os.MkdirTemp("/dev/shm", "settee-")
	if err != nil {
		return t.TempDir()
	}
	t.Cleanup(func() {
		if err := os.RemoveAll(dir); err != nil {
			t.Error(err)
		}
	})
	return dir
}

func TestDamageOfOneKind(t *testing.T) {
	name := os.Getenv(damageChild)
	i := slices.IndexFunc(damages, func(d damage) bool { return d.name == name })
	if i < 0 {
		t.Skip("TestDamage runs it")
	}
	seeds, n, deliveries := 1, 86, 60
	if os.Getenv(damageLong) != "" {
		seeds, n, deliveries = 3, 120, 500
	}
	var o outcome
	for seed := range seeds {
		for _, crashed := range []bool{false, true} {
			v := newVictim(t, deliveries, uint64(seed+1), crashed)
			dice := rand.New(rand.NewPCG(uint64(seed), 7))
			dir := t.TempDir()
			damages[i].cases(v, n, dice, func(what string, file []byte) {
				o.suffer(t, v, dir, fmt.Sprintf("seed %d, crashed %v: %s", seed+1, crashed, what), file)
			})
		}
	}
	if name == "a bit in a journal" && (o.refused == 0 || o.torn == 0) {
		t.Errorf("%d files were refused and %d said that the last call may be missing: no bit was in a frame", o.refused, o.torn)
	}
	t.Logf("%s: tried %d: refused %d, as it was %d, as a crash tears it %d, an error in reading %d; repaired %d with %.1f %% of the deliveries, nothing to "+
		"repair in %d; %d records from older pages, %d left out", name, o.tried, o.refused, o.same, o.torn, o.failed, o.repaired,
		100*o.share/float64(max(1, o.repaired)), o.none, o.older, o.leftOut)
}

// TestASoundFileIsRepairedWhole repairs what is not damaged, a crash's journal included.
func TestASoundFileIsRepairedWhole(t *testing.T) {
	for _, crashed := range []bool{false, true} {
		v := newVictim(t, 300, 3, crashed)
		path := filepath.Join(t.TempDir(), "sound.db")
		write(t, path, v.file)
		r, err := Repair(path, path+".new", nil)
		if err != nil {
			t.Fatal(err)
		}
		if got := exportAt(t, path+".new"); string(got) != v.all["export"] {
			t.Error(cmp.Diff(v.all["export"], string(got)))
		}
		if r.Deliveries != v.deliveries || r.Older+r.StandIns+r.LeftOut+r.Missing+r.Unread+r.BadHeads != 0 || r.JournalLost || !r.WasSound {
			t.Errorf("%+v of %d", r, v.deliveries)
		}
	}
}

// TestEveryBitOfAHeadIsNoticed turns each bit of the two heads.
func TestEveryBitOfAHeadIsNoticed(t *testing.T) {
	file, _ := soundStore(t)
	for at := range 2 {
		for bit := range headLength * 8 {
			changed := bytes.Clone(file)
			changed[at*pageSize(file)+pageHeader+bit/8] ^= 1 << (bit % 8)
			if _, err := readHead(bytes.NewReader(changed), int64(len(changed))); err == nil {
				t.Errorf("head %d: nobody notices bit %d", at, bit)
			}
		}
	}
}

// TestABranchThatLeadsToAPageOfAnotherTimeIsNoticed lets each entry of a branch lead to each leaf that is free: it has what was
// there before, and its values are right. An opening does not read the leaves of deliveries, and notices all the same.
func TestABranchThatLeadsToAPageOfAnotherTimeIsNoticed(t *testing.T) {
	v := newVictim(t, 90, 1, true)
	size, tried := pageSize(v.file), 0
	for _, page := range v.kinds["branch"] {
		for i := range int(binary.NativeEndian.Uint16(v.file[page*size+10:])) {
			for _, free := range v.kinds["free"] {
				if binary.NativeEndian.Uint16(v.file[free*size+8:]) != flagLeaf {
					continue
				}
				changed := bytes.Clone(v.file)
				binary.NativeEndian.PutUint64(changed[page*size+pageHeader+i*elementSize+8:], uint64(free))
				f := bytes.NewReader(changed)
				h, err := readHead(f, f.Size())
				if err != nil {
					t.Fatal(err)
				}
				if tried++; (&walker{file: f, head: h, reach: butDeliveries}).walk(f.Size()) == nil {
					t.Errorf("nobody notices that entry %d of the branch %d leads to page %d", i, page, free)
				}
			}
		}
	}
	if tried == 0 {
		t.Fatal("the file has no branch, or no free leaf")
	}
}
