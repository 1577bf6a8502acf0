package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/charmbracelet/lipgloss"
	"github.com/oklog/ulid/v2"
	"github.com/spf13/cobra"

	"coach.settee/model"
	"coach.settee/store"
	"coach.settee/tui"
)

// runBoard is `settee`: the board on the store that is kept for good.
func runBoard(cmd *cobra.Command, _ []string) error {
	path, err := storePath(cmd)
	if err != nil {
		return err
	}
	b, err := boardOf(cmd)
	if err != nil {
		return err
	}
	ctx, stop := untilSignal(cmd.Context())
	defer stop()
	b.notice = copiesOfEarlier(path)
	s, err := store.Open(path, store.Options{Book: model.StartingCues(newID)})
	if err != nil {
		return err
	}
	return b.show(ctx, s)
}

// copiesOfEarlier says where the automatic copies of a store are that is gone, whose place a new one is about to take; ""
// where the store is there or has no copies.
func copiesOfEarlier(path string) string {
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		return ""
	}
	made, err := store.Backups(path)
	if err != nil || len(made) == 0 {
		return ""
	}
	return fmt.Sprintf("a new store was begun; copies of an earlier one are in %s: settee restore lists them once this is left",
		filepath.Dir(made[0].Path))
}

// board is the terminal that the board is shown on, and how.
type board struct {
	in, out *os.File
	looks
	title string
	// usual is what a new evening begins with, warning says what is wrong with the settings.
	usual   tui.Beginning
	warning string
	// note is said after the path of a page that is written, notice on the first screen; "" for nothing.
	note, notice string
}

// boardOf gives the board of a command's terminal and flags, or says why there is none.
func boardOf(cmd *cobra.Command) (board, error) {
	var b board
	in, isFile := cmd.InOrStdin().(*os.File)
	out, alsoFile := cmd.OutOrStdout().(*os.File)
	if !isFile || !alsoFile {
		return b, tui.ErrNoTerminal
	}
	if err := tui.CheckTerminal(in, out); err != nil {
		return b, err
	}
	set, wrong := readConfig(configPath())
	if wrong != nil {
		b.warning = wrong.Error()
	}
	looks, err := looksOf(cmd, set)
	b.in, b.out, b.looks, b.usual = in, out, looks, set.beginning()
	return b, err
}

// show shows the board on a store until it is left, and closes the recorder, whatever ended the board, and then the
// store.
func (b board) show(ctx context.Context, s *store.Store) error {
	recorder := store.NewRecorder(s, store.RecorderOptions{})
	shown := b.run(ctx, s, recorder)
	kept := recorder.Close()
	if kept != nil {
		kept = setAside(s.Path(), recorder.Unkept(), kept)
	}
	shown = withTrace(shown, kept == nil)
	return errors.Join(kept, shown, s.Close())
}

func (b board) run(ctx context.Context, s *store.Store, recorder *store.Recorder) error {
	renderer := lipgloss.NewRenderer(b.out)
	renderer.SetHasDarkBackground(b.dark)
	pages, unkept := handoutsBeside{s, b.note}, aside{s, recorder}
	app, err := tui.New(tui.Config{
		Store: s, Recorder: recorder, Now: time.Now, NewID: newID,
		Renderer: renderer, Dark: b.dark, ASCII: b.ascii, Mouse: b.mouse, Tight: b.tight,
		Title: b.title, Notice: b.notice, Warning: b.warning, Beginning: b.usual,
		Backup:   func() (string, error) { return s.AutoBackup(time.Now()) },
		Handouts: pages.all, Handout: pages.one, After: time.After, Copy: clipboardOf(b.out, os.Getenv),
		KeepElsewhere: unkept.write, Elsewhere: unkept.proposed, Free: s.Free,
	})
	if err != nil {
		return err
	}
	return tui.Run(ctx, app, b.in, b.out)
}

// newID gives an id that sorts by when it was made.
func newID() model.ID { return model.ID(ulid.Make().String()) }

// withTrace writes where a fault of the program happened into a file of its own, since a person is told in one line, and
// says so where everything up to it is kept.
func withTrace(err error, allKept bool) error {
	var fault *tui.Fault
	if !errors.As(err, &fault) {
		return err
	}
	f, fileErr := os.CreateTemp("", "settee-fault-*.txt")
	if fileErr != nil {
		return err
	}
	defer f.Close()
	if _, fileErr = fmt.Fprintf(f, "%v\n\n%s", fault, fault.Stack); fileErr != nil {
		return err
	}
	if !allKept {
		return fmt.Errorf("%w; what a developer needs is in %s", err, f.Name())
	}
	return fmt.Errorf("%w; everything up to it is kept, and what a developer needs is in %s", err, f.Name())
}
