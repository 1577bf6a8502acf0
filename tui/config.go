package tui

import (
	"time"

	"github.com/charmbracelet/lipgloss"

	"coach.settee/model"
	"coach.settee/store"
)

// Recorder keeps steps on disk in the order in which it is given them.
type Recorder interface {
	// Keep takes a step without waiting for the disk and gives its ticket; tickets rise from 1.
	Keep(step model.Step) uint64
	// Progress tells how far it has come.
	Progress() store.Progress
	// Changed has something to receive whenever Progress may have changed.
	Changed() <-chan struct{}
}

// Reader reads what is kept.
type Reader interface {
	Students() ([]model.Student, error)
	// OpenSessions gives the evenings that are not closed, the oldest first.
	OpenSessions() ([]model.Session, error)
	// Sessions gives every evening, the oldest first.
	Sessions() ([]model.Session, error)
	EveningCount(session model.ID) (store.EveningCount, error)
	// Left gives what a student's last evening before a session left.
	Left(student, before model.ID) (model.Left, bool, error)
	Cues() ([]model.Cue, error)
	// Bowled gives what was bowled in the last evenings, for each student apart.
	Bowled(evenings int) ([][]model.DatedSheet, error)
	Evening(session model.ID) (model.Kept, error)
	// History gives what a student bowled, with its deliveries.
	History(student model.ID, of store.Scope) (store.History, error)
	// Played gives up to n of a student's games that keep takes, the newest first.
	Played(student model.ID, n int, keep func(store.Played) bool) ([]store.Played, error)
}

// Config is what the app is given.
type Config struct {
	Store    Reader
	Recorder Recorder
	// Now gives the time of a delivery, NewID the id of a new session or student.
	Now   func() time.Time
	NewID func() model.ID
	// Renderer says which colours the terminal has, Dark that its background is dark, ASCII that it shows no more.
	Renderer    *lipgloss.Renderer
	Dark, ASCII bool
	// Mouse makes clicks and the wheel act; the terminal's own selection then needs shift.
	Mouse bool
	// Backup makes a copy of the store and gives its path; nil where none is made. It is called beside the board. With a
	// path an error tells of something else than the copy.
	Backup func() (path string, err error)
	// Handouts writes everyone's page of an evening, tells after each how many of how many are written, and gives their
	// folder; nil where none are written. It is called beside the board.
	Handouts func(session model.ID, written func(n, of int)) (folder string, err error)
	// Handout writes a student's page of an evening, as text or for a browser, and gives its path; nil where none is
	// written. It is called beside the board.
	Handout func(session, student model.ID, asText bool) (path string, err error)
	// BackupDue makes a copy of the store where one is due, and gives after what time to look again; nil where the store is
	// not copied by itself. It is called beside the board.
	BackupDue func() (next time.Duration, err error)
	// After gives a channel with something to receive after a time; nil where the store is not copied by itself.
	After func(time.Duration) <-chan time.Time
	// KeepElsewhere writes what the recorder could not keep into a new file at path, and gives where that is and how many
	// steps it holds; nil where it cannot be. It is called beside the board. Elsewhere proposes a path.
	KeepElsewhere func(path string) (file string, steps int, err error)
	Elsewhere     func() string
	// Free gives how many bytes the store's disk has left; nil where nobody knows. It is called beside the board.
	Free func() (int64, error)
	// Copy hands a text to the terminal's clipboard; nil where the terminal has none.
	Copy func(text string) error
	// Notice stands on the first screen until an evening is begun, "" for nothing.
	Notice string
	// Brought is said beside what is resumed at the start: what was taken into the store before, and the like; "" for nothing.
	Brought string
	// Warning is said in the status line at the start, "" for nothing.
	Warning string
	// Tight keeps the board's rows to one line a student, NoColour draws without colours whatever the terminal has.
	Tight, NoColour bool
	// AutoDark and AutoASCII say what the terminal is taken for where no setting says it.
	AutoDark, AutoASCII bool
	// Settings are the values of the coach's settings that the Settings screen changes, by their keys in the settings file.
	// KeepSetting keeps one of them there and gives the file; nil where none is kept. It is called beside the board. Overruled
	// says what holds instead for this start, "" for nothing. SettingsFault says why the settings file takes none as it is at
	// the start, "" where it does.
	Settings                 map[string]string
	KeepSetting              func(key, value string) (file string, err error)
	Overruled, SettingsFault string
	// Introduced says that the coach has been through the introduction; RememberIntroduced has that remembered, and is nil
	// where nothing is. It is called beside the board.
	Introduced         bool
	RememberIntroduced func() error
	// Beginning is what a new evening begins with.
	Beginning Beginning
	// Title stands in the header: "demo" where nothing is kept for good.
	Title string
}

// Beginning is what a new evening begins with where the coach has it otherwise than usual.
type Beginning struct {
	// Place is where it is; "" for where the last one was.
	Place    string
	ArrowsFt model.Optional[float64]
	// ByHand leaves it to the coach who is up next, Block keeps a student up to the end of a drill.
	ByHand, Block bool
}
