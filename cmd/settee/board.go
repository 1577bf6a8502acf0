package main

import (
	"context"
	"errors"
	"fmt"
	"io"
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
	"coach.settee/tui/probe"
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
	for {
		begun := prepare(path, time.Now())
		begun.tell(&b)
		s, err := store.Open(path, store.Options{Book: model.StartingCues(newID)})
		if err != nil {
			return err
		}
		demo, err := b.show(ctx, s)
		begun.explain(b.errOut)
		if err != nil || !demo {
			return err
		}
		// What was chosen in the demo is in the settings file.
		if err := b.asDemo().showDemo(ctx, demoSeed); err != nil {
			return err
		}
		if b, err = boardOf(cmd); err != nil {
			return err
		}
	}
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
	// errOut takes what is said after the board is left.
	errOut io.Writer
	looks
	title string
	// usual is what a new evening begins with, warning says what is wrong with the settings.
	usual   tui.Beginning
	warning string
	// settingsFault says why the settings file takes no setting, "" where it does.
	settingsFault string
	// set is what the settings file says.
	set config
	// note is said after the path of a page that is written, notice on the first screen, brought at the start; "" for nothing.
	note, notice, brought string
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
		b.warning, b.settingsFault = wrong.Error(), wrong.Error()
	}
	looks, err := looksOf(cmd, set)
	b.in, b.out, b.looks, b.usual, b.set = in, out, looks, set.beginning(), set
	b.errOut = cmd.ErrOrStderr()
	return b, err
}

// show shows the board on a store until it is left, and closes the recorder, whatever ended the board, and then the
// store. It tells whether the board was left for the demo.
func (b board) show(ctx context.Context, s *store.Store) (demo bool, err error) {
	b.warning = warningOf(s, b.warning)
	recorder := store.NewRecorder(s, store.RecorderOptions{})
	unkept := &aside{store: s, recorder: recorder}
	demo, shown := b.run(ctx, s, recorder, unkept)
	kept := recorder.Close()
	switch {
	case kept != nil:
		kept = setAside(s.Path(), recorder.Unkept(), kept)
	default:
		unkept.settled(b.errOut)
		if shown == nil && ctx.Err() == nil && b.title == "" && recorder.Progress().Durable > 0 {
			copyOnLeaving(s, time.Now(), b.errOut)
		}
	}
	shown = withTrace(shown, kept == nil)
	return demo, errors.Join(kept, shown, s.Close())
}

func (b board) run(ctx context.Context, s *store.Store, recorder *store.Recorder, unkept *aside) (demo bool, err error) {
	introduced, err := s.Introduced()
	if err != nil {
		return false, err
	}
	renderer := lipgloss.NewRenderer(b.out)
	renderer.SetHasDarkBackground(b.dark)
	pages := handoutsBeside{s, b.note}
	app, err := tui.New(tui.Config{
		Store: s, Recorder: recorder, Now: time.Now, NewID: newID,
		Renderer: renderer, Dark: b.dark, ASCII: b.ascii, Mouse: b.mouse, Tight: b.tight,
		Title: b.title, Notice: b.notice, Brought: b.brought, Warning: b.warning, Beginning: b.usual,
		Backup:    func() (string, error) { return s.AutoBackup(time.Now()) },
		BackupDue: b.backupDue(s),
		Handouts:  pages.all, Handout: pages.one, After: time.After, Copy: clipboardOf(b.out, os.Getenv),
		KeepElsewhere: unkept.write, Elsewhere: unkept.proposed, Free: s.Free,
		NoColour: b.noColour, AutoDark: probe.Dark(), AutoASCII: hasOnlyASCII(os.Getenv),
		Settings: b.set.values(), Overruled: b.overruled(b.set), KeepSetting: keptSetting, SettingsFault: b.settingsFault,
		Introduced: introduced, RememberIntroduced: s.SetIntroduced,
	})
	if err != nil {
		return false, err
	}
	err = tui.Run(ctx, app, b.in, b.out)
	return app.WantsDemo(), err
}

// backupDue gives what makes a copy of a store where one is due; nil for the demo, which keeps nothing.
func (b board) backupDue(s *store.Store) func() (time.Duration, error) {
	if b.title != "" {
		return nil
	}
	return func() (time.Duration, error) { return s.BackupIfDue(time.Now()) }
}

// keptSetting keeps a setting and gives the file.
func keptSetting(key, value string) (file string, err error) {
	file = configPath()
	return file, keepSetting(file, key, value)
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
