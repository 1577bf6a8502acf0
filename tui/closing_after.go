package tui

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
)

// packing is what follows the closing of an evening: once everything is on disk a copy of the store, then everyone's page.
// It runs beside the board, one evening after the other.
type packing struct {
	// waiting are the evenings to come; busy tells that at is being worked on. minors says of an evening whose pages are
	// minors', with what goes with them.
	waiting []model.ID
	minors  map[model.ID]string
	at      model.ID
	busy    bool
	// closed says that the evening is closed, words how far the work is or what came of it, and failed that it did not all
	// come about.
	closed, words string
	failed        bool
	// outcomes are what is done of the work in hand, in words.
	outcomes []string
}

// The messages of the work: the copy is made, so many pages are written, all of them are.
type (
	packCopiedMsg struct {
		path string
		err  error
	}
	packPageMsg struct {
		n, of int
		more  <-chan packPageMsg
	}
	packPagesMsg struct {
		folder string
		err    error
	}
)

// pending tells whether there is work left.
func (p *packing) pending() bool { return p.busy || len(p.waiting) > 0 }

// packUp has a copy and the pages of a closed evening made; closed are the words for its being closed.
func (a *App) packUp(evening *model.Evening, closed string) {
	session := evening.Session().ID
	a.say(closed)
	if a.conf.Backup == nil && a.conf.Handouts == nil {
		return
	}
	if !slices.Contains(a.packing.waiting, session) {
		a.packing.waiting = append(a.packing.waiting, session)
	}
	if a.packing.minors == nil {
		a.packing.minors = map[model.ID]string{}
	}
	a.packing.minors[session] = evening.MinorsPages()
	// What follows is said beside these words as long as no key is pressed, so they stand there too.
	a.status, a.packing.closed = status{}, closed
	a.goOnPacking()
}

// goOnPacking begins with the next evening as soon as everything is on disk. One that was opened again needs nothing.
func (a *App) goOnPacking() {
	p := &a.packing
	if a.evening != nil {
		p.waiting = slices.DeleteFunc(p.waiting, func(id model.ID) bool { return id == a.evening.Session().ID })
	}
	switch {
	case p.busy || len(p.waiting) == 0:
		return
	case !a.ledger.settled():
		p.words, p.failed = "waiting for the disk…", false
		return
	}
	p.at, p.waiting = p.waiting[0], p.waiting[1:]
	p.busy, p.failed, p.outcomes = true, false, nil
	if a.conf.Backup == nil {
		a.writePages()
		return
	}
	p.words = "copying the store…"
	backup := a.conf.Backup
	a.do(func() tea.Msg {
		path, err := backup()
		return packCopiedMsg{path, err}
	})
}

func (a *App) hearPackCopied(msg packCopiedMsg) {
	p := &a.packing
	switch {
	case msg.err == nil:
		p.outcomes = append(p.outcomes, "a copy of the store: "+msg.path)
	case msg.path != "":
		p.failed = true
		p.outcomes = append(p.outcomes, fmt.Sprintf("a copy of the store: %s, but %v", msg.path, msg.err))
	default:
		p.failed = true
		p.outcomes = append(p.outcomes, fmt.Sprintf("no copy of the store was made: %v; settee backup makes one", msg.err))
	}
	a.writePages()
}

// writePages has everyone's page written; how far it is comes through a channel that holds the newest count only, so that
// the writing never waits for the screen.
func (a *App) writePages() {
	if a.conf.Handouts == nil {
		a.finishPacking()
		return
	}
	a.packing.words = "writing the pages…"
	write, session, counts := a.conf.Handouts, a.packing.at, make(chan packPageMsg, 1)
	a.do(func() tea.Msg {
		defer close(counts)
		folder, err := write(session, func(n, of int) {
			select {
			case <-counts:
			default:
			}
			counts <- packPageMsg{n, of, counts}
		})
		return packPagesMsg{folder, err}
	})
	a.do(awaitPage(counts))
}

// awaitPage waits for the next count.
func awaitPage(counts <-chan packPageMsg) tea.Cmd {
	return func() tea.Msg {
		if msg, ok := <-counts; ok {
			return msg
		}
		return nil
	}
}

func (a *App) hearPackPage(msg packPageMsg) {
	if a.packing.busy {
		a.packing.words = fmt.Sprintf("page %d of %d…", msg.n, msg.of)
	}
	a.do(awaitPage(msg.more))
}

func (a *App) hearPackPages(msg packPagesMsg) {
	p := &a.packing
	words := "the pages to take home: " + msg.folder
	switch {
	case msg.err == nil && msg.folder == "":
		words = "nobody bowled, so there is no page"
	case msg.err != nil:
		p.failed = true
		words = fmt.Sprintf("not all pages are written: %v; settee handout --all writes them", msg.err)
	}
	said := []string{words}
	if minors := p.minors[p.at]; minors != "" && msg.folder != "" {
		said = append(said, minors)
	}
	p.outcomes = append(said, p.outcomes...)
	a.finishPacking()
}

// finishPacking says what came of it, and goes on with the next evening or with leaving.
func (a *App) finishPacking() {
	p := &a.packing
	p.busy, p.words = false, strings.Join(p.outcomes, "; ")
	if a.evening != nil && a.question == nil {
		// Another evening is on the board: it is said until the next key.
		a.status = status{words: p.words, refused: p.failed}
	}
	a.goOnPacking()
	a.leaveIfDone()
}

// said gives what the status line says: what a key left there, else how the work after closing stands, for as long as it
// goes on, and on the evening's screen until another is on the board.
func (a *App) said() status {
	p := a.packing
	switch {
	case a.status.words != "" || p.words == "":
		return a.status
	case p.pending() && a.evening != nil:
		return status{words: p.words}
	case p.pending():
		return status{words: p.closed + "; " + p.words}
	case a.evening != nil || a.screen != screen(a.session):
		return a.status
	case p.failed:
		return status{words: "the evening is closed, but not all that follows was done: e tells", refused: true}
	}
	return status{words: p.closed}
}

// packed tells on the evening's screen what came of the work after closing, whole paths and all, until another evening is
// on the board.
func (a *App) packed(w int) []string {
	if a.packing.pending() || len(a.packing.outcomes) == 0 {
		return nil
	}
	lines := []string{""}
	for _, words := range a.packing.outcomes {
		lines = append(lines, a.whole(words, w)...)
	}
	return lines
}

// hearBeside takes in what came of work that goes on beside the board.
func (a *App) hearBeside(msg tea.Msg) {
	switch msg := msg.(type) {
	case packCopiedMsg:
		a.hearPackCopied(msg)
	case packPageMsg:
		a.hearPackPage(msg)
	case packPagesMsg:
		a.hearPackPages(msg)
	case copyDueMsg:
		a.hearCopyDue()
	case copyMsg:
		a.hearCopy(msg)
	case handoutMsg:
		a.hearHandout(msg)
	case handoutFileMsg:
		a.hearHandoutFile(msg)
	}
}
