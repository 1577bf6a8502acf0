package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/model/insight"
	"coach.settee/store"
)

// handoutCommand is `settee handout`: the page that a student takes home.
func handoutCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "handout {STUDENT | --all} [--session ID] [--out FILE|DIR|-] [--text]",
		Short: "Write the page that a student takes home",
		Long: `Write the page that a student takes home from an evening: one file that opens in
a browser, on a phone too, needs nothing else, and prints on one sheet; with
--text plain text for a message. STUDENT is an id, a whole name, or a beginning
that only one name has.

Without --session it is the student's last evening, with --all the last evening
of all and a page for everyone who bowled in it. Without --out the file is named
after the student and the date, and one that is there already is not replaced.`,
		Example: `  settee handout 'Ada Marsh'
  settee handout ada --text --out -
  settee handout --all --out handouts`,
		Args: cobra.ArbitraryArgs,
		RunE: runHandout,
	}
	cmd.Flags().Bool("all", false, "a page for everyone of the evening")
	cmd.Flags().String("session", "", "the evening with this `ID`")
	cmd.Flags().String("out", "", "write to `FILE` or into a folder, or to the standard output with -")
	cmd.Flags().Bool("text", false, "plain text for a message")
	return cmd
}

// handoutWanted is what was asked for.
type handoutWanted struct {
	who     string
	all     bool
	session model.ID
	out     string
	// named tells that --out names where to write.
	named, text bool
	// minor, where it is set, is made true by a minor's page.
	minor *bool
}

func runHandout(cmd *cobra.Command, args []string) error {
	wanted, err := readHandoutWanted(cmd, args)
	if err != nil {
		return err
	}
	s, err := openStore(cmd)
	if err != nil {
		return err
	}
	write := oneHandout
	if wanted.all {
		write = allHandouts
	}
	wanted.minor = new(bool)
	if err := errors.Join(write(cmd.OutOrStdout(), s, wanted), s.Close()); err != nil || !*wanted.minor {
		return err
	}
	_, err = fmt.Fprintln(cmd.ErrOrStderr(), "This is a minor's page, or one of them is: "+model.ConsentFirst+".")
	return err
}

func readHandoutWanted(cmd *cobra.Command, args []string) (w handoutWanted, err error) {
	flags := cmd.Flags()
	session, errSession := flags.GetString("session")
	all, errAll := flags.GetBool("all")
	out, errOut := flags.GetString("out")
	text, errText := flags.GetBool("text")
	if err := errors.Join(errSession, errAll, errOut, errText); err != nil {
		return w, err
	}
	w = handoutWanted{
		who: strings.Join(args, " "), all: all, session: model.ID(session), out: out, named: flags.Changed("out"), text: text,
	}
	if err := w.check(flags.Changed("session")); err != nil {
		return w, usageError{cmd, err}
	}
	return w, nil
}

func (w handoutWanted) check(session bool) error {
	switch someone := strings.TrimSpace(w.who) != ""; {
	case w.all && someone:
		return fmt.Errorf("%q and --all: give one of them", w.who)
	case !w.all && !someone:
		return errors.New("no student is named: give an id or a name, or --all")
	case w.named && w.out == "":
		return errors.New("--out needs the name of a file, or -")
	case w.all && w.out == "-":
		return errors.New("--all writes several files: --out names a folder for them")
	case session && w.session.Validate() != nil:
		return fmt.Errorf("--session: %w", w.session.Validate())
	}
	return nil
}

// oneHandout writes the page of one student.
func oneHandout(w io.Writer, s *store.Store, wanted handoutWanted) error {
	students, err := s.Students()
	if err != nil {
		return err
	}
	student, err := findStudent(wanted.who, students, lastEveningIn(s))
	if err != nil {
		return err
	}
	if wanted.session == "" {
		if wanted.session, err = lastSession(s, student); err != nil {
			return err
		}
	}
	h, err := readHistory(s, student, eveningScope(wanted.session))
	if err != nil {
		return err
	}
	evening, sessions, err := eveningWanted(s, wanted.session)
	if err != nil {
		return err
	}
	in := handout.NewInput(student, evening, time.Local, h.Over, h.Earlier, h.First)
	page, err := wanted.page(in)
	if err != nil {
		return err
	}
	if wanted.out == "-" {
		_, err := io.WriteString(w, page)
		return err
	}
	return wanted.write(w, s.Path(), handoutFile{wanted.fileName(in, sessions, students), page})
}

// page makes the page, or its text.
func (w handoutWanted) page(in handout.Input) (string, error) {
	if w.minor != nil && in.Figures.Student.Minor {
		*w.minor = true
	}
	if w.text {
		return handout.Text(in), nil
	}
	return handout.HTML(in)
}

// lastSession gives the last evening in which a student bowled.
func lastSession(s *store.Store, student model.Student) (model.ID, error) {
	played, err := s.Played(student.ID, 1, nil)
	switch {
	case err != nil:
		return "", err
	case len(played) == 0:
		return "", fmt.Errorf("%s has not bowled yet: there is nothing to hand out", student.Name)
	}
	return played[0].Game.Session, nil
}

func eveningScope(session model.ID) store.Scope {
	return store.Scope{Session: session, Earlier: insight.EarlierGames}
}
