package tui

import (
	"fmt"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/model/insight"
	"coach.settee/store"
)

// handoutScreen shows the page that a student takes home from the last evening, as the text of a message.
type handoutScreen struct {
	bindings table
	// from is the screen that it was opened from.
	from    screen
	student model.ID
	page    handoutMsg
	// read tells that page is what was asked for, or why there is none.
	read bool
	// top is the first line shown.
	top int
	// consent says of a minor's page what goes with it, once it is written or handed on.
	consent string
}

func newHandout() *handoutScreen { return &handoutScreen{bindings: handoutKeys} }

func (s *handoutScreen) title() string      { return "Page" }
func (s *handoutScreen) about() string      { return "the page that the student takes home" }
func (s *handoutScreen) letter() string     { return "" }
func (s *handoutScreen) table() table       { return s.bindings }
func (s *handoutScreen) moment(*App) moment { return momentPage }

// handoutMsg brings a student's page.
type handoutMsg struct {
	student, session model.ID
	text             string
	err              error
}

// handoutFileMsg says that a page was written, or handed to the clipboard, or why not.
type handoutFileMsg struct {
	path   string
	err    error
	copied bool
}

// openHandout is the key of the student's record that turns to the page.
var openHandout = binding{
	keys: []string{"h"}, group: groupProfile, help: "the page to take home from the last evening",
	hints: map[moment]string{momentProfile: "page"}, refused: nobodyKept,
	act: func(a *App, _ string) { a.showHandout(a.student.student) },
}

// showHandout turns to the page of a student's last evening.
func (a *App) showHandout(student model.ID) {
	s := a.handout
	*s = handoutScreen{bindings: s.bindings, from: a.screen, student: student}
	a.over, a.screen = nothingOver, s
	a.do(a.readHandout(student))
}

// readHandout reads what a page is made from, and makes it.
func (a *App) readHandout(student model.ID) tea.Cmd {
	reader, record, zone := a.conf.Store, a.students[student], a.zone()
	return func() tea.Msg {
		msg := handoutMsg{student: student}
		played, err := reader.Played(student, 1, nil)
		switch {
		case err != nil:
			msg.err = fmt.Errorf("the page cannot be made: %w", err)
		case len(played) == 0:
			msg.err = fmt.Errorf("%s has not bowled yet: there is nothing to take home", record.Name)
		default:
			msg.session = played[0].Game.Session
			if msg.text, err = handoutText(reader, record, played[0], zone); err != nil {
				msg.err = fmt.Errorf("the page cannot be made: %w", err)
			}
		}
		return msg
	}
}

// handoutText makes a student's page of the evening that a game was played on.
func handoutText(reader Reader, record model.Student, last store.Played, zone *time.Location) (string, error) {
	session := last.Game.Session
	h, err := reader.History(record.ID, store.Scope{Session: session, Earlier: insight.EarlierGames})
	if err != nil {
		return "", err
	}
	sessions, err := reader.Sessions()
	if err != nil {
		return "", err
	}
	evening := model.Session{ID: session, At: last.At}
	if i := slices.IndexFunc(sessions, func(s model.Session) bool { return s.ID == session }); i >= 0 {
		evening = sessions[i]
	}
	return handout.Text(handout.NewInput(record, evening, zone, h.Over, h.Earlier, h.First)), nil
}

// hearHandout takes in a page that was read, if it is still the one asked for.
func (a *App) hearHandout(msg handoutMsg) {
	if a.handout.student != msg.student {
		return
	}
	a.handout.page, a.handout.read = msg, true
	if msg.err != nil && a.screen == screen(a.handout) {
		a.refuse(msg.err)
	}
}

// noHandout refuses a key that needs the page.
func noHandout(a *App) string {
	switch s := a.handout; {
	case !s.read:
		return "the page is being made: try again in a moment"
	case s.page.err != nil:
		return s.page.err.Error()
	}
	return ""
}

// notWritten refuses a key that needs a place for the files too.
func notWritten(a *App) string {
	if a.conf.Handout == nil {
		return "there is no place here for a file: settee handout writes one"
	}
	return noHandout(a)
}

// handoutKeys turn the page, copy it and write it.
var handoutKeys = table{
	{
		keys: []string{"up", "down", "pgup", "pgdown", "home", "end"}, shown: "arrows pgup pgdn", group: groupPage,
		help: "turn the page", hints: map[moment]string{momentPage: "scroll"},
		act: func(a *App, key string) { a.handout.turn(a, key) },
	},
	{
		keys: []string{"y"}, group: groupPage, help: "copy the page as the text of a message, and write it beside the store",
		hints: map[moment]string{momentPage: "copy"}, refused: notWritten,
		act: func(a *App, _ string) { a.writeHandout(true) },
	},
	{
		keys: []string{"w"}, group: groupPage, help: "write the page as a file for a browser or the printer",
		hints: map[moment]string{momentPage: "write"}, refused: notWritten,
		act: func(a *App, _ string) { a.writeHandout(false) },
	},
	{
		keys: []string{"esc"}, group: groupPage, help: "back",
		hints: map[moment]string{momentPage: "back"},
		act:   func(a *App, _ string) { a.screen = a.handout.from },
	},
}

// writeHandout has the page written beside the board: as text, which is handed to the clipboard too, or for a browser.
func (a *App) writeHandout(asText bool) {
	page, write, clipboard := a.handout.page, a.conf.Handout, a.conf.Copy
	a.say("writing the page…")
	a.do(func() tea.Msg {
		var msg handoutFileMsg
		msg.path, msg.err = write(page.session, page.student, asText)
		if asText && clipboard != nil {
			msg.copied = clipboard(page.text) == nil
		}
		return msg
	})
}

func (a *App) hearHandoutFile(msg handoutFileMsg) {
	if of := a.handout.student; a.students[of].Minor && (msg.err == nil || msg.copied) {
		a.handout.consent = model.ConsentForPages([]string{a.labelOf(of)})
	}
	switch {
	case a.question != nil:
		// The question stays to be read; the file is there or can be asked for again.
	case msg.copied && msg.err != nil:
		a.say(fmt.Sprintf("handed to the terminal's clipboard; it is not written as a file: %v", msg.err))
	case msg.copied:
		a.say("handed to the terminal's clipboard; if it did not arrive: " + msg.path)
	case msg.err != nil:
		a.refuse(fmt.Errorf("the page is not written: %w", msg.err))
	default:
		a.say("the page is written: " + msg.path)
	}
}

// turn moves the first line shown.
func (s *handoutScreen) turn(a *App, key string) {
	room := a.bodyHeight() - 1 - len(s.consentLines(a, a.w))
	s.top = turned(s.top, key, max(room, 1), len(s.lines(a.w)))
}

// widestPage is how wide the page's lines are at most: longer ones are hard to read.
const widestPage = 100

// lines gives the page's lines for a window of w cells.
func (s *handoutScreen) lines(w int) []string {
	room := max(min(w, widestPage)-4, 10)
	var lines []string
	for text := range strings.SplitSeq(strings.TrimRight(s.page.text, "\n"), "\n") {
		for _, line := range strings.Split(wrapped(clean(text), room), "\n") {
			lines = append(lines, cut("  "+line, w))
		}
	}
	return lines
}

func (s *handoutScreen) draw(a *App, w, h int) string {
	switch {
	case !s.read:
		return "\n" + cut("  The page is being made…", w)
	case s.page.err != nil:
		return "\n" + strings.Join(wrap("  "+clean(s.page.err.Error()), w), "\n")
	}
	consent := s.consentLines(a, w)
	shown, where := pageFrom(s.lines(w), s.top, max(h-1-len(consent), 0))
	return strings.Join(append(append(shown, consent...), a.theme.quiet.on(cut("  "+where, w))), "\n")
}

func (s *handoutScreen) consentLines(a *App, w int) []string {
	if s.consent == "" {
		return nil
	}
	lines := wrap(clean(s.consent), w-4)
	for i := range lines {
		lines[i] = a.theme.alert.on(cut("  "+lines[i], w))
	}
	return lines
}
