package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"coach.settee/model"
	"coach.settee/model/insight"
	"coach.settee/store"
)

// statsCommand is `settee stats`: every figure of a student, as a page or for a machine.
func statsCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "stats STUDENT [--last N | --session ID | --game ID] [--reach SCORE]... [--json]",
		Short: "Print every figure of a student",
		Long: `Print every figure of a student, with its counts and how far it can be trusted:
over all that is kept, over the last N games, or over one evening or one game.
STUDENT is an id, a whole name, or a beginning that only one name has; of several
with one name, the name with what the program tells it apart by: 'Ada Marsh 172'.`,
		Example: `  settee stats 'Ada Marsh'
  settee stats ada --last 10 --reach 200
  settee stats ada --json > ada.json`,
		Args: aStudent,
		RunE: runStats,
	}
	cmd.Flags().Int("last", 0, "over the last `N` games, with the drills and warm-ups of their evenings")
	cmd.Flags().String("session", "", "over the evening with this `ID`")
	cmd.Flags().String("game", "", "over the game, drill or warm-up with this `ID`")
	cmd.Flags().IntSlice("reach", nil, "the chance of a game of at least `SCORE` too")
	cmd.Flags().Bool("json", false, "print one line of JSON")
	return cmd
}

func aStudent(_ *cobra.Command, args []string) error {
	if strings.TrimSpace(strings.Join(args, " ")) == "" {
		return errors.New("no student is named: give an id or a name")
	}
	return nil
}

func runStats(cmd *cobra.Command, args []string) error {
	scope, reach, err := statsWanted(cmd)
	if err != nil {
		return err
	}
	asJSON, err := cmd.Flags().GetBool("json")
	if err != nil {
		return err
	}
	p := newProgress(cmd, "read")
	p.still("reading what was bowled, and reckoning")
	defer p.watch()()
	s, err := openStore(cmd)
	if err != nil {
		return err
	}
	return errors.Join(printStats(cmd.OutOrStdout(), s, strings.Join(args, " "), scope, reach, asJSON), s.Close())
}

// statsWanted reads what the figures are to be over, and the scores whose chance is asked for.
func statsWanted(cmd *cobra.Command) (scope store.Scope, reach []int, err error) {
	flags := cmd.Flags()
	last, err := flags.GetInt("last")
	if err != nil {
		return scope, nil, err
	}
	session, err := flags.GetString("session")
	if err != nil {
		return scope, nil, err
	}
	game, err := flags.GetString("game")
	if err != nil {
		return scope, nil, err
	}
	if reach, err = flags.GetIntSlice("reach"); err != nil {
		return scope, nil, err
	}
	scope = store.Scope{Last: last, Session: model.ID(session), Game: model.ID(game), Earlier: insight.EarlierGames}
	if err := checkWanted(scope, reach, flags.Changed); err != nil {
		return scope, nil, usageError{cmd, err}
	}
	return scope, reach, nil
}

func checkWanted(scope store.Scope, reach []int, given func(flag string) bool) error {
	var scopes []string
	for _, flag := range []string{"last", "session", "game"} {
		if given(flag) {
			scopes = append(scopes, "--"+flag)
		}
	}
	switch {
	case len(scopes) > 1:
		return fmt.Errorf("%s together: give one of them", strings.Join(scopes, " and "))
	case given("last") && scope.Last < 1:
		return fmt.Errorf("--last %d: it is a number of games from 1", scope.Last)
	case given("session") && scope.Session.Validate() != nil:
		return fmt.Errorf("--session: %w", scope.Session.Validate())
	case given("game") && scope.Game.Validate() != nil:
		return fmt.Errorf("--game: %w", scope.Game.Validate())
	}
	for _, score := range reach {
		if score < 0 || score > 300 {
			return fmt.Errorf("--reach %d: scores are 0 to 300", score)
		}
	}
	return nil
}

// printStats finds the student, reads what was bowled, reckons the figures and prints them.
func printStats(w io.Writer, s *store.Store, who string, scope store.Scope, reach []int, asJSON bool) error {
	students, err := s.Students()
	if err != nil {
		return err
	}
	student, err := findStudent(who, students, lastEveningIn(s))
	if err != nil {
		return err
	}
	h, err := readHistory(s, student, scope)
	if err != nil {
		return err
	}
	in := insight.Input{Student: student, Over: h.Over, Earlier: h.Earlier, First: h.First, Reach: reach}
	report := insight.NewReport(in)
	if asJSON {
		return writeStatsJSON(w, in, report)
	}
	return writeStatsPage(w, in, report)
}

func readHistory(s *store.Store, student model.Student, scope store.Scope) (store.History, error) {
	h, err := s.History(student.ID, scope)
	switch {
	case errors.Is(err, store.ErrNoGame):
		return h, fmt.Errorf("no game %s of %s is kept: settee stats %s --json lists the games by their ids",
			scope.Game, student.Name, student.ID)
	case errors.Is(err, store.ErrNoSession):
		return h, fmt.Errorf("no session %s is kept: settee stats %s --json lists the sessions with the games",
			scope.Session, student.ID)
	case err != nil:
		return h, err
	case scope.Session != "" && len(h.Over) == 0:
		return h, fmt.Errorf("%s bowled nothing in session %s: leave out --session, or give another", student.Name, scope.Session)
	}
	return h, nil
}
