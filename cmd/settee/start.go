package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"coach.settee/store"
)

// start is what was done with the store before the board is on it.
type start struct {
	// did is what came about, undone what did not, each in words for the status line.
	did, undone []string
	// reasons are why, for after the board is left.
	reasons []string
}

// prepare makes the store at path its owner's alone, and takes in what the disk refused the last time.
func prepare(path string, now time.Time) start {
	var s start
	if store.MakePrivate(path) {
		s.did = append(s.did, privateWords)
	}
	s.takeIn(path, now)
	return s
}

// takeIn takes in what the disk refused the last time, and says what became of it.
func (s *start) takeIn(path string, now time.Time) {
	for _, t := range store.TakeInUnkept(path, now) {
		s.takenIn(path, t)
	}
}

const privateWords = "other accounts of this machine could read the store: now only yours can"

// keepPrivate makes a store that a command is about to write its owner's alone, and says so.
func keepPrivate(cmd *cobra.Command, path string) {
	if store.MakePrivate(path) {
		cmd.PrintErrln("settee: " + privateWords)
	}
}

func (s *start) takenIn(path string, t store.TakenIn) {
	file := filepath.Base(t.File)
	switch n := t.Calls(); {
	case t.Err != nil && t.Renewed == (store.Renewed{}):
		s.undone = append(s.undone, fmt.Sprintf("what the disk had refused is still in %s, and not in the store: %s", file,
			oneLine(t.Err)))
		s.reasons = append(s.reasons, fmt.Sprintf("%s is not taken in: %s; the next start tries again, and %s does; once its calls "+
			"are in by other keys, give the file another name", t.File, oneLine(t.Err), bringing(t.File, path)))
	case t.Err != nil:
		s.undone = append(s.undone, oneLine(t.Err))
	case n > 0:
		s.did = append(s.did, fmt.Sprintf("%s that the disk had refused %s in: %s", amount(n, "call", "calls"), isOrAre(n), file))
	case t.Taken == store.Imported{Known: t.Taken.Known} && t.Replaced == store.Imported{} && t.Gone == store.Imported{}:
		s.did = append(s.did, "what the disk had refused was kept after all: "+file)
	default:
		s.did = append(s.did, "what the disk had refused is in: "+file)
	}
}

func isOrAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// explain says why something was not done.
func (s start) explain(out io.Writer) {
	for _, reason := range s.reasons {
		// A terminal that takes no words is in nobody's way here.
		_, _ = fmt.Fprintln(out, "settee: "+reason)
	}
}

// tell gives a board the words for its first status line, beside the warning that it has.
func (s start) tell(b *board) {
	done := strings.Join(s.did, "; ")
	if len(s.undone) == 0 && b.warning == "" {
		b.brought = done
		return
	}
	words := s.undone
	for _, more := range []string{b.warning, done} {
		if more != "" {
			words = append(words, more)
		}
	}
	b.warning = strings.Join(words, "; ")
}

// quickCopy is the size in bytes up to which a store is copied before anybody notices.
const quickCopy = 64 << 20

// copyOnLeaving makes a copy of a store where one is due; a large one's is left to the next start, since nobody waits for it
// here.
func copyOnLeaving(s *store.Store, now time.Time, errOut io.Writer) {
	if info, err := os.Stat(s.Path()); err != nil || info.Size() > quickCopy {
		return
	}
	if _, err := s.BackupIfDue(now); err != nil {
		_, _ = fmt.Fprintf(errOut, "settee: the copy of the store that is due was not made (%s); what you keyed is kept\n", oneLine(err))
	}
}
