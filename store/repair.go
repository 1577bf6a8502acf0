package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"coach.settee/model"
)

// Repaired says what Repair took and what it did not.
type Repaired struct {
	// Cues to Deliveries count what the new file holds.
	Cues, Students, Sessions, Games, Deliveries int
	// Older counts records of these that were found only in pages no longer in use: they may be older than what is lost.
	Older int
	// StandIns counts students and sessions that are lost and are there by their ids and no more, for the sake of what refers
	// to them.
	StandIns int
	// LeftOut counts records that can be read but not kept, since what they refer to is lost or their game is not possible
	// with what is left of it; LeftOutFile has them in the exchange format, "" where there are none.
	LeftOut     int
	LeftOutFile string
	// Missing counts deliveries that their games tell of, which are neither in the new file nor left out.
	Missing int
	// Unread counts values that cannot be read.
	Unread int
	// BadHeads is how many of the file's two heads are damaged; JournalLost says that calls of the last minutes may have
	// been in a part of it that cannot be read.
	BadHeads    int
	JournalLost bool
	// MayMissLast says that a call which cannot be read was at the end of the journal, as a crash leaves it or damage does.
	MayMissLast bool
	// WasSound says that nothing was wrong with the file, so that there was nothing to repair.
	WasSound bool

	older, standIns map[model.Ref]bool
}

// leftOutEnding is what the name of the file with the records that were left out has after the new file's.
const leftOutEnding = ".left-out.jsonl"

// Repair reads what can be read of the file at path, which it never changes, and makes a store of it at target, where no
// file may be. Deliveries are kept as far as their games are possible, from the first on. What could be taken back cannot
// be any more. The file may be damaged in any way, or not at all; one that is open is refused with ErrInUse, and one in
// which there is nothing of ours with ErrNotOurs. read is told of every few bytes read, and its error ends it.
func Repair(path, target string, read func(bytes int) error) (Repaired, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return Repaired{}, err
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return Repaired{}, absent(path)
	}
	for _, name := range []string{target, target + leftOutEnding} {
		if _, err := vacant(name); err != nil {
			return Repaired{}, err
		}
	}
	if target, err = filepath.Abs(target); err != nil {
		return Repaired{}, err
	}
	if err := inspect(path); errors.Is(err, ErrNewer) {
		return Repaired{}, err
	}
	var done Repaired
	err = whileClosed(path, func(func()) error {
		done, err = repair(path, target, read)
		return err
	})
	if err != nil || done.Older+done.StandIns+done.LeftOut+done.Missing+done.Unread+done.BadHeads > 0 || done.JournalLost {
		return done, err
	}
	// What is wrong with indexes and lists takes no record away.
	e, wrong := Examine(path, nil)
	done.WasSound = wrong == nil && e.Sound() && !done.MayMissLast
	return done, nil
}

func repair(path, target string, read func(int) error) (Repaired, error) {
	f, err := os.Open(path)
	if err != nil {
		return Repaired{}, unread(path, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return Repaired{}, unread(path, err)
	}
	found := newSalvage(f, info.Size(), read)
	if err := found.all(); err != nil {
		return Repaired{}, err
	}
	if found.empty() {
		return Repaired{}, notOurs(path, "nothing of what a store holds can be read in it")
	}
	temp, err := createBeside(target, nil)
	if err != nil {
		return Repaired{}, notCopied(target, err)
	}
	defer os.Remove(temp)
	r := &repairer{found: found, out: Repaired{older: map[model.Ref]bool{}, standIns: map[model.Ref]bool{}}}
	if err := r.build(temp, target); err != nil {
		return Repaired{}, err
	}
	if e, err := Examine(temp, nil); err != nil || !e.Sound() {
		return Repaired{}, errors.Join(err, r.leftOut.drop(),
			fmt.Errorf("what can be read of %s makes no store: %v; nothing is left of it", path, e.Faults))
	}
	if r.out.LeftOut = r.leftOut.n; r.out.LeftOut > 0 {
		r.out.LeftOutFile = target + leftOutEnding
	}
	if err := nameNew(temp, target); err != nil {
		return Repaired{}, errors.Join(err, r.leftOut.drop())
	}
	return r.out, r.leftOut.name(target + leftOutEnding)
}

// empty tells whether nothing of ours was found.
func (v *salvage) empty() bool {
	return len(v.cues)+len(v.students)+len(v.sessions)+len(v.games)+len(v.balls) == 0 && !v.rounds && v.journalAt == 0
}
