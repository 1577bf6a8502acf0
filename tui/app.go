package tui

import (
	"errors"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"coach.settee/model"
)

// The smallest window that the screens are made for, and the size taken for one that is not known.
const (
	minWidth, minHeight         = 60, 16
	unknownWidth, unknownHeight = 80, 24
)

// App is the program on the screen: it passes on what comes from the terminal, the recorder and the store, and draws
// header, screen, status line and hints. What keys mean is the screens' to say.
type App struct {
	conf  Config
	theme *theme
	w, h  int

	// evening is the one that is open, nil for none; closed is the one just closed, open the others that are open.
	evening, closed *model.Evening
	open            []model.Session
	// students are all that are kept, by id.
	students map[model.ID]model.Student
	// desk is what was changed outside of an evening.
	desk   desk
	ledger ledger
	paces  paces

	screens  []screen
	board    *boardScreen
	session  *sessionScreen
	strip    *stripScreen
	line     *lineScreen
	glance   *glanceScreen
	student  *studentScreen
	cues     *cuesScreen
	settings *settingsScreen
	// closing and handout are opened from other screens and have no letter.
	closing *closingScreen
	handout *handoutScreen
	screen  screen
	over    over
	// helpTop is the first line of the help that is shown, helpWords what it is narrowed to, "" for all of it.
	helpTop   int
	helpWords string
	intro     intro
	// demo says that the program ends to begin the demo.
	demo     bool
	prompt   *prompt
	question *question
	status   status
	packing  packing
	errands  []errand
	// copyFailed says that the last copy of the store that is made by itself was not.
	copyFailed bool
	// leaving says that the program ends as soon as everything is kept.
	leaving bool
	cmds    []tea.Cmd
}

// New makes the app and reads what it starts from: the evening that was left open last is resumed.
func New(c Config) (*App, error) {
	a := &App{
		conf: c, theme: themeOf(c), w: unknownWidth, h: unknownHeight,
		ledger: newLedger(c.Recorder.Progress()), paces: newPaces(), students: map[model.ID]model.Student{},
		board: newBoard(), session: newSession(), strip: newStrip(),
	}
	a.line, a.glance = newLineScreen(a.board.table()), newGlance(a.board.table())
	a.student, a.cues, a.settings = newStudentScreen(), newCuesScreen(), newSettings(c.Settings)
	a.screens = []screen{a.board, a.session, a.strip, a.line, a.glance, a.student, a.cues, a.settings}
	a.closing, a.handout = newClosing(), newHandout()
	a.screen = a.session
	if err := a.readBook(); err != nil {
		return nil, err
	}
	if err := a.start(); err != nil {
		return nil, err
	}
	if c.Warning != "" {
		a.refuseWith(c.Warning)
	}
	return a, nil
}

// Init waits for the recorder and asks for what earlier evenings say.
func (a *App) Init() tea.Cmd {
	a.do(a.awaitKept())
	a.awaitCopy(firstCopy)
	a.askRoom()
	if a.conf.Mouse {
		a.do(tea.EnableMouseCellMotion)
	}
	return a.settle()
}

// Update takes a message in.
func (a *App) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		a.resize(msg)
	case keptMsg:
		a.hearKept()
	case playedMsg:
		a.hearPlayed(msg)
	case leftMsg:
		a.hearLeft(msg)
	case countsMsg:
		a.hearCounts(msg)
	case historyMsg:
		a.hearHistory(msg)
	case effectsMsg:
		a.hearEffects(msg)
	case factsMsg:
		a.student.hear(a, msg)
	case packCopiedMsg, packPageMsg, packPagesMsg, copyDueMsg, copyMsg, handoutMsg, handoutFileMsg:
		a.hearBeside(msg)
	case errandMsg:
		a.hearErrand(msg)
	case roomMsg:
		a.ledger.room.hear(msg)
	case elsewhereMsg:
		a.hearElsewhere(msg)
	case tea.KeyMsg:
		a.keys(msg)
	case tea.MouseMsg:
		a.mouse(msg)
	}
	return a, a.settle()
}

// do has a command run after this message.
func (a *App) do(cmd tea.Cmd) { a.cmds = append(a.cmds, cmd) }

// settle brings what is shown up to date with what the message changed, and gives the commands to run.
func (a *App) settle() tea.Cmd {
	a.settleLefts()
	a.settleEarlier()
	if a.evening != nil {
		for _, id := range a.paces.unread(a.evening) {
			a.do(a.readPlayed(a.evening.Session().ID, id))
		}
		a.paces.refresh(a.evening)
	}
	a.settleStrip()
	a.settleLine()
	a.settleStudent()
	a.settleCues()
	cmds := a.cmds
	a.cmds = nil
	return tea.Batch(cmds...)
}

func (a *App) resize(msg tea.WindowSizeMsg) {
	a.w, a.h = msg.Width, msg.Height
	if a.w <= 0 || a.h <= 0 {
		a.w, a.h = unknownWidth, unknownHeight
	}
}

func (a *App) tooSmall() bool { return a.w < minWidth || a.h < minHeight }

// keys takes the keys of one message in.
func (a *App) keys(msg tea.KeyMsg) {
	keys, paste := unroll(msg)
	switch {
	case paste && a.prompt != nil:
		a.insertText(string(msg.Runes))
	case paste || a.isPaste(keys):
		a.refuseWith("a paste changes nothing here: keys grade one by one")
		a.status.forStudent = true
	default:
		for _, k := range keys {
			a.key(k)
		}
	}
}

// key takes one key in. Who gets it, in this order:
//
//   - ctrl+c leaves from anywhere
//   - the introduction, then an open prompt, has every other key
//   - the layers: see there
//
// In a window that is too small only leaving and drawing anew act.
func (a *App) key(k tea.KeyMsg) {
	a.status, a.board.scrolled = status{}, 0
	a.student.bared = false
	key := keyName(k)
	if key != "ctrl+c" && a.prompt != nil && !a.tooSmall() {
		a.withdraw(false)
		before := a.beforeWalk(key)
		if !a.introKey(k) {
			a.promptKey(k)
		}
		a.sayIfStill(before)
		return
	}
	asked := a.question != nil
	// Several keys come in one message: each finds what the one before has changed.
	a.settleLine()
	before := a.beforeWalk(key)
	switch {
	case a.act(key):
		a.sayIfStill(before)
	case a.tooSmall():
		a.refuseWith("the window is too small: no key grades")
	default:
		a.sayMeaningless(clean(key), asked)
	}
}

// act does what a key means, or says why not; it tells whether the key has a meaning.
func (a *App) act(key string) bool {
	b, ok := lookup(a.layers(), key)
	if !ok {
		return false
	}
	if words := b.refusal(a); words != "" {
		a.refuseWith(words)
		return true
	}
	b.act(a, key)
	return true
}

// layers gives the tables that are asked for a key, the first that has it acts:
//
//   - the question asked last, which any other key withdraws
//   - the digit begun with d, then the count begun with =, which any other key drops
//   - the menu or the help, which a key of the tables below closes
//   - the keys that act anywhere
//   - the screen's, then the letters of the other screens
func (a *App) layers() []layer {
	layers := []layer{{a.question.table(), a.withdraw}}
	if a.tooSmall() {
		return append(layers, layer{table: alwaysKeys})
	}
	if a.intro.behind != nil {
		return append(layers, layer{table: helpKeys}, layer{table: alwaysKeys})
	}
	if a.board.lettered {
		layers = append(layers, layer{letterKeys(), func(bool) { a.board.lettered = false }})
	}
	if a.board.counting {
		layers = append(layers, layer{slices.Concat(countKeys, digitKeys), func(bool) { a.board.counting = false }})
	}
	if a.shielded() {
		return append(layers, layer{table: alwaysKeys}, layer{table: a.screen.table()})
	}
	switch a.over {
	case menuOver:
		layers = append(layers, layer{menuKeys, a.uncover})
	case helpOver:
		layers = append(layers, layer{helpKeys, a.uncover})
	}
	return append(layers, layer{table: alwaysKeys}, layer{table: anywhereKeys}, layer{table: a.screen.table()},
		layer{table: screenKeys(a.screens)})
}

// uncover takes away what lies over the screen where a key has a meaning below.
func (a *App) uncover(found bool) {
	if found {
		a.over = nothingOver
	}
}

// View draws the window for any terminal.
func (a *App) View() string { return steady(a.picture()) }

// picture draws the window: every line is as wide as it, and there are as many as it is high.
func (a *App) picture() string {
	if a.tooSmall() {
		return a.finished(strings.Split(a.filled(a.smallWords(), a.h), "\n"))
	}
	body := ""
	switch h := a.bodyHeight(); a.over {
	case menuOver:
		body = a.filled(a.drawMenu(a.w, h), h)
	case helpOver:
		body = a.filled(a.drawHelp(a.w, h), h)
	default:
		body = a.filled(a.screen.draw(a, a.w, h), h)
	}
	return a.finished(append(a.top(), a.foot(strings.Split(body, "\n"))...))
}

// finished joins the window's lines, the last of which leaves its last cell blank.
func (a *App) finished(lines []string) string {
	if last := len(lines) - 1; !strings.HasSuffix(ansi.Strip(lines[last]), " ") {
		lines[last] = fit(fit(lines[last], a.lastWidth()), a.w)
	}
	return a.theme.finish(strings.Join(lines, "\n"))
}

// lastWidth is how many cells of the window's last line are drawn in. After it the library clears what is below the cursor,
// which in many terminals stands on the last cell still when that was drawn.
func (a *App) lastWidth() int { return max(a.w-1, 0) }

// top gives the lines above the screen.
func (a *App) top() []string {
	lines := []string{a.header()}
	if banner := a.banner(); banner != "" {
		lines = append(lines, banner)
	}
	return lines
}

// bodyHeight gives the lines between what is above the screen and the two below it.
func (a *App) bodyHeight() int { return a.h - len(a.top()) - 2 }

// filled gives a picture in exactly h lines of exactly the window's width.
func (a *App) filled(picture string, h int) string {
	lines := strings.Split(picture, "\n")
	for len(lines) < h {
		lines = append(lines, "")
	}
	lines = lines[:h]
	for i := range lines {
		lines[i] = fit(lines[i], a.w)
	}
	return strings.Join(lines, "\n")
}

func (a *App) smallWords() string {
	words := "Settee needs a window of 60x16. Make it larger: nothing is lost, and no key grades until then."
	if a.status.words != "" {
		words = clean(a.status.words) + "\n" + words
	}
	if trouble := a.ledger.trouble(); trouble != "" {
		words += "\n" + clean(trouble)
	}
	return wrapped(words, a.w)
}

var (
	errNoEvening = errors.New("no evening is open: e and then n begins one")
	errNotKept   = errors.New("not everything is kept yet: try again in a moment")
)
