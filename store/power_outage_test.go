//go:build linux && amd64

package store

import (
	"errors"
	"fmt"
	"hash/crc32"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	"golang.org/x/sys/unix"
)

// outage looks at the files that an outage during a recorded evening may leave.
type outage struct {
	t      *testing.T
	random *rand.Rand
	states []uint32
	// session is the evening's id, path where the files are looked at.
	session model.ID
	path    string
	// many is how many times as much is tried as in the short run.
	many   int
	images int
	// late counts the images in which more was there than had been shown, broken those that said that a call may be missing.
	late, broken int
	seen         map[uint32]bool
}

// power goes through a recorded evening, and takes the power away after each call. base is the file that was there at the
// beginning, nil for none; shown how many batches it holds. It gives one of the files that were found, with the number of
// batches in it.
func (o *outage) power(r tracedEvening, base []byte, shown int) (left []byte, holds int) {
	o.t.Helper()
	files, named := map[string]*platter{}, base != nil
	if named {
		files[r.path] = newPlatter(base)
	}
	queued, candidates, began := shown, 0, shown
	for i, c := range r.calls {
		if n, ok := announced(c, "kept"); ok {
			shown = n
		}
		if n, ok := announced(c, "keep"); ok {
			queued = n
		}
		if !strings.HasPrefix(c.file, filepath.Dir(r.path)) {
			continue
		}
		if c.file == filepath.Dir(r.path) && c.nr == unix.SYS_FSYNC && c.ret >= 0 {
			named = named || files[r.path] != nil
			continue
		}
		happens(files, c)
		p := files[r.path]
		if p == nil || !named {
			if shown > 0 {
				o.t.Fatalf("call %d: %d batches were shown as kept, and the file's name is not on the disk", i, shown)
			}
			if p == nil {
				continue
			}
		}
		for _, f := range o.fates(p) {
			file := p.image(f, o.random)
			// What the file was left with is told until a call is kept.
			sure := len(p.pending)+len(p.doubtful) == 0 && shown > began
			n := o.look(file, fmt.Sprintf("call %d (%v), fate %d", i, c, f), shown, queued, sure)
			if n == 0 || len(p.pending) == 0 {
				continue
			}
			if candidates++; o.random.IntN(candidates) == 0 {
				left, holds = file, n
			}
		}
	}
	if shown == 0 {
		o.t.Fatal("nothing was recorded")
	}
	return left, holds
}

// announced reads what the process says.
func announced(c *sysCall, word string) (n int, ok bool) {
	if c.nr != unix.SYS_WRITE {
		return 0, false
	}
	_, err := fmt.Sscanf(string(c.data), word+" %d\n", &n)
	return n, err == nil
}

// happens makes a call on the files.
func happens(files map[string]*platter, c *sysCall) {
	p := files[c.file]
	if c.nr == unix.SYS_FSYNC || c.nr == unix.SYS_FDATASYNC {
		if p != nil {
			p.sync(c.ret < 0)
		}
		return
	}
	if c.ret < 0 {
		return
	}
	switch c.nr {
	case unix.SYS_OPENAT:
		if p == nil {
			files[c.file] = newPlatter(nil)
		}
	case unix.SYS_PWRITE64:
		p.write(c.data[:c.ret], c.at)
	case unix.SYS_WRITE:
		p.write(c.data[:c.ret], int64(len(p.cache)))
	case unix.SYS_FTRUNCATE:
		p.truncate(c.size)
	case unix.SYS_LINKAT, unix.SYS_RENAMEAT:
		files[c.name] = p
	}
}

// fates chooses what is tried at a point: more where more is on its way, and where nothing is only now and then.
func (o *outage) fates(p *platter) []fate {
	var out []fate
	n := p.inFlight()
	times := 2 * o.many
	switch {
	case n == 0 && len(p.doubtful) == 0 && o.random.IntN(20*o.many) > o.many:
		return nil
	case n <= 1:
		return []fate{nothingArrived, allArrived, singleSectors}
	}
	for range times {
		out = append(out, fate(o.random.IntN(int(fates))), singleSectors)
	}
	return out
}

// look opens a file that an outage has left, and gives how many batches are in it. One that is sure was left with nothing on
// its way: it must not say that a call may be missing.
func (o *outage) look(file []byte, what string, shown, queued int, sure bool) int {
	o.t.Helper()
	sum := crc32.ChecksumIEEE(file) ^ uint32(shown)<<16 ^ uint32(queued)
	if o.seen[sum] {
		return 0
	}
	o.seen[sum] = true
	o.images++
	if err := os.WriteFile(o.path, file, 0o600); err != nil {
		o.t.Fatal(err)
	}
	s, err := Open(o.path, Options{NoSync: true})
	if err != nil {
		o.t.Fatalf("%s: %v", what, err)
	}
	switch {
	case s.MayMissLast() && sure:
		o.t.Fatalf("%s: it says that the last call may be missing", what)
	case s.MayMissLast():
		o.broken++
	}
	state := stateOf(o.t, s, o.session)
	if err := errors.Join(s.Close(), Check(o.path)); err != nil {
		o.t.Fatalf("%s: %v", what, err)
	}
	for n := shown; n <= queued; n++ {
		if o.states[n] == state {
			if n > shown {
				o.late++
			}
			return n
		}
	}
	o.t.Fatalf("%s: the file holds batches up to %d (-1: something else), %d to %d were to be there", what,
		slices.Index(o.states, state), shown, queued)
	return 0
}
