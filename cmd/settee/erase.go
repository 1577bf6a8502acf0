package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"coach.settee/model"
	"coach.settee/store"
)

// eraseCommand is `settee erase`: all of a student taken out of the store for good.
func eraseCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "erase STUDENT [--yes] [--backups]",
		Short: "Take all of a student out of the store for good",
		Long: `Take all of a student out of the store for good: the record with its notes, the
games and deliveries, the seats, and what could be taken back in those evenings.
STUDENT is an id, a whole name, or a beginning that only one name has; of several
with one name, the name with what the program tells it apart by: 'Ada Marsh 172'.

What goes is told first, and asked about on the terminal unless --yes is given.
The store is then written anew without the student, so that the bytes are gone
from it, and must not be open meanwhile. What was typed about the student in the
records of others stays, and is counted.

Copies, exports and handouts that lie beside the store and hold the student are
named. With --backups they are cleansed too, which also works when the student
is in them only. Another store there, a file of any other kind with the name or
the id in it (up to 64 MiB) and a link to one are named and never written. Files
that lie elsewhere are not looked for.`,
		Example: `  settee erase 'Ada Marsh'
  settee erase ada --backups --yes`,
		Args: cobra.ArbitraryArgs,
		RunE: runErase,
	}
	cmd.Flags().Bool("yes", false, "do not ask")
	cmd.Flags().Bool("backups", false, "take the student out of the copies beside the store too")
	return cmd
}

// erasing is what was asked for, and what is known of it.
type erasing struct {
	path         string
	yes, backups bool
	progress     *progress
	// gone tells that the store itself does not keep the student any more.
	gone bool
	of   store.Erasure
	// beside are the files that hold the student too.
	beside []traced
	// others are those of them that settee does not write.
	others []traced
}

func runErase(cmd *cobra.Command, args []string) error {
	x, err := readErasing(cmd, args)
	if err != nil {
		return err
	}
	takeInFirst(cmd, x.path)
	x.progress = newProgress(cmd, "copied")
	end := x.progress.watch()
	err = x.look(strings.Join(args, " "))
	end()
	if err != nil {
		return err
	}
	if _, err := io.WriteString(cmd.OutOrStdout(), x.words()); err != nil {
		return err
	}
	if !x.yes {
		if err := askToErase(cmd, x.of.Student.Name); err != nil {
			return err
		}
	}
	// How long was thought about it is nothing to tell of.
	x.progress = newProgress(cmd, "copied")
	// A signal ends nothing half way.
	_, stop := untilSignal(cmd.Context())
	defer stop()
	keepPrivate(cmd, x.path)
	return x.erase(cmd.OutOrStdout())
}

// takeInFirst takes in what the disk refused the last time: once a student is out of a file of that, the file does not tell of
// the store any more, and the calls of the others in it would be lost.
func takeInFirst(cmd *cobra.Command, path string) {
	var s start
	s.takeIn(path, time.Now())
	for _, words := range append(s.did, s.undone...) {
		cmd.PrintErrln("settee: " + words)
	}
}

// erase takes the student out of the store, and where that is asked for out of the files beside it.
func (x *erasing) erase(told io.Writer) error {
	defer x.progress.watch()()
	if !x.gone {
		if _, err := store.Erase(x.path, x.of.Student.ID, x.progress.told); err != nil {
			return err
		}
		if _, err := fmt.Fprintf(told, "erased: %s is in %s no more\n", x.of.Student.Name, x.path); err != nil {
			return err
		}
	}
	if x.backups {
		return x.cleanse(told)
	}
	return nil
}

func readErasing(cmd *cobra.Command, args []string) (x erasing, err error) {
	if strings.TrimSpace(strings.Join(args, " ")) == "" {
		return x, usageError{cmd, errors.New("no student is named: give an id or a name")}
	}
	yes, errYes := cmd.Flags().GetBool("yes")
	backups, errBackups := cmd.Flags().GetBool("backups")
	if err := errors.Join(errYes, errBackups); err != nil {
		return x, err
	}
	path, err := storePath(cmd)
	return erasing{path: path, yes: yes, backups: backups}, err
}

// look finds the student whom a text means, what is kept of the student and which files hold something of it too.
func (x *erasing) look(text string) error {
	x.progress.still("looking for what is kept of the student")
	s, err := store.Open(x.path, store.Options{MustExist: true})
	if err != nil {
		return err
	}
	err = errors.Join(x.find(s, text), s.Close())
	if err != nil && !(x.backups && x.findCopied(text)) {
		return err
	}
	copies, err := store.CopiesOf(x.path, &x.of, x.progress.told)
	if err != nil {
		return err
	}
	pages, err := handoutsOf(x.path, x.of.Student)
	if err != nil {
		return err
	}
	x.beside, x.others = sorted(copies, pages, x.of.Student)
	return nil
}

// find finds the student in the store.
func (x *erasing) find(s *store.Store, text string) error {
	students, err := s.Students()
	if err != nil {
		return err
	}
	student, err := findStudent(text, students, lastEveningIn(s))
	if err == nil {
		x.of, err = s.Erasable(student.ID)
		return err
	}
	return err
}

// findCopied finds the student in the copies of the store, which is closed.
func (x *erasing) findCopied(text string) bool {
	copied, err := store.CopiedStudents(x.path)
	if err != nil {
		return false
	}
	never := func(model.ID) (time.Time, error) { return time.Time{}, nil }
	found, err := findStudent(text, copied, never)
	if err != nil {
		return false
	}
	x.gone, x.of = true, store.Erasure{Student: found}
	return true
}

// words says what goes and what stays.
func (x *erasing) words() string {
	var b strings.Builder
	who := fmt.Sprintf("%s (id %s)", x.of.Student.Name, x.of.Student.ID)
	if x.gone {
		fmt.Fprintf(&b, "%s is not in the store any more, but in copies of it\n", who)
	} else {
		fmt.Fprintf(&b, "%s is erased for good: the record, %s, %s, the seats in %s\n", who,
			amount(x.of.Games, "game", "games"), deliveries(x.of.Deliveries), amount(x.of.Evenings, "evening", "evenings"))
	}
	if n := x.of.Emptied; n > 0 {
		fmt.Fprintf(&b, "nobody else is in %s of these, which goes too\n", amount(n, "evening", "evenings"))
	}
	if n := x.of.Lists; n > 0 {
		fmt.Fprintf(&b, "in %s what was done so far cannot be taken back any more\n", amount(n, "evening", "evenings"))
	}
	switch n := x.of.Others; {
	case x.gone:
	case n == 0:
		fmt.Fprintln(&b, "words typed about someone in the records of others stay: none of them holds the first name")
	default:
		fmt.Fprintf(&b, "words typed about someone in the records of others stay: %s of others with the first name\n",
			amount(n, "record", "records"))
	}
	switch n := len(x.beside); {
	case n == 0:
		fmt.Fprintln(&b, "no copy, export or handout that settee knows as one holds the student beside the store")
	case x.backups:
		fmt.Fprintf(&b, "beside the store, cleansed too: %s\n", amount(n, "file", "files"))
	default:
		fmt.Fprintf(&b, "beside the store, left with the student in it unless --backups is given: %s\n", amount(n, "file", "files"))
	}
	for _, t := range x.beside {
		fmt.Fprintf(&b, "  %s (%s)\n", t.path, t.what)
	}
	if n := len(x.others); n > 0 {
		fmt.Fprintf(&b, "beside the store, and not written by settee: %s\n", amount(n, "file", "files"))
	}
	for _, t := range x.others {
		fmt.Fprintf(&b, "  %s (%s)\n", t.path, t.what)
	}
	return b.String()
}

// askToErase asks on the terminal, and gives nil for a yes.
func askToErase(cmd *cobra.Command, name string) error {
	if !isTerminal(cmd.InOrStdin()) {
		return errors.New("nothing was erased: there is no terminal to ask on; with --yes nothing is asked")
	}
	if _, err := fmt.Fprintf(cmd.OutOrStdout(), "Erase %s? Type y or the name: ", name); err != nil {
		return err
	}
	// What was typed without a newline before the end counts as well.
	line, _ := bufio.NewReader(cmd.InOrStdin()).ReadString('\n')
	switch answer := folded(line); answer {
	case "y", "yes", folded(name):
		return nil
	}
	return errors.New("nothing was erased")
}

// cleanse takes the student out of the files beside the store and tells each; one that cannot be cleansed does not hold up
// the others.
func (x *erasing) cleanse(told io.Writer) error {
	left := 0
	for _, t := range x.others {
		if !t.namesake {
			left++
		}
		if _, err := fmt.Fprintf(told, "  %s: %s\n", t.path, t.done); err != nil {
			return err
		}
	}
	for _, t := range x.beside {
		said := t.done
		if err := t.cleanse(&x.of, x.progress.told); err != nil {
			left++
			said = "left as it was: " + strings.Join(strings.Fields(err.Error()), " ")
		}
		if _, err := fmt.Fprintf(told, "  %s: %s\n", t.path, said); err != nil {
			return err
		}
	}
	if left > 0 {
		return fmt.Errorf("%s beside the store left with the student in it: see above, and remove by hand what is not needed",
			amount(left, "file", "files"))
	}
	return nil
}
