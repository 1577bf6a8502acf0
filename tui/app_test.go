package tui

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"

	"coach.settee/model"
	"coach.settee/store"
)

// fakeRecorder takes steps and has them on its disk when the test says so. It keeps the records as the steps make them.
type fakeRecorder struct {
	steps    []model.Step
	progress store.Progress
	changed  chan struct{}
	records  map[model.Ref]model.Record
}

func newFakeRecorder() *fakeRecorder {
	return &fakeRecorder{changed: make(chan struct{}, 1), records: map[model.Ref]model.Record{}}
}

func (r *fakeRecorder) Keep(step model.Step) uint64 {
	r.steps = append(r.steps, step)
	for _, c := range step.Changes {
		if c.After == nil {
			delete(r.records, c.Ref)
		} else {
			r.records[c.Ref] = c.After
		}
	}
	r.progress.Issued++
	return r.progress.Issued
}

func (r *fakeRecorder) Progress() store.Progress { return r.progress }

func (r *fakeRecorder) Changed() <-chan struct{} { return r.changed }

// fakeReader has what a test gives it.
type fakeReader struct {
	students []model.Student
	evenings []model.Kept
	played   map[model.ID][]store.Played
	history  map[model.ID]store.History
	cues     []model.Cue
	left     map[model.ID]model.Left
	counts   map[model.ID]store.EveningCount
	bowled   [][]model.DatedSheet
	asked    []model.ID
	// counted are the evenings whose counts were read; uncounted is why they cannot be.
	counted   []model.ID
	uncounted error
	err       error
}

func (r *fakeReader) Sessions() ([]model.Session, error) {
	var sessions []model.Session
	for _, k := range r.evenings {
		sessions = append(sessions, k.Session)
	}
	return sessions, r.err
}

func (r *fakeReader) Cues() ([]model.Cue, error) { return r.cues, r.err }

func (r *fakeReader) EveningCount(session model.ID) (store.EveningCount, error) {
	r.counted = append(r.counted, session)
	return r.counts[session], cmp.Or(r.uncounted, r.err)
}

func (r *fakeReader) Left(student, _ model.ID) (model.Left, bool, error) {
	left, ok := r.left[student]
	return left, ok, r.err
}

func (r *fakeReader) Bowled(int) ([][]model.DatedSheet, error) { return r.bowled, r.err }

func (r *fakeReader) Students() ([]model.Student, error) { return r.students, r.err }

func (r *fakeReader) OpenSessions() ([]model.Session, error) {
	var sessions []model.Session
	for _, k := range r.evenings {
		if k.Session.Open() {
			sessions = append(sessions, k.Session)
		}
	}
	return sessions, r.err
}

func (r *fakeReader) History(student model.ID, _ store.Scope) (store.History, error) {
	return r.history[student], r.err
}

func (r *fakeReader) Evening(session model.ID) (model.Kept, error) {
	for _, k := range r.evenings {
		if k.Session.ID == session {
			return k, r.err
		}
	}
	return model.Kept{}, errors.New("no such evening")
}

func (r *fakeReader) Played(student model.ID, n int, keep func(store.Played) bool) ([]store.Played, error) {
	r.asked = append(r.asked, student)
	var out []store.Played
	for _, p := range r.played[student] {
		if (keep == nil || keep(p)) && len(out) < n {
			out = append(out, p)
		}
	}
	return out, r.err
}

// tester is what checks need of a test, so that a property can shrink what it drew.
type tester interface {
	Helper()
	Error(args ...any)
	Errorf(format string, args ...any)
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// appTest drives the app as the runtime does: it hands in messages, runs the commands that come back and hands in what
// they give, until only the one that waits for the recorder is left.
type appTest struct {
	*App
	t        tester
	recorder *fakeRecorder
	reader   *fakeReader
	// slow leaves it to the test when the disk has what it was given.
	slow bool
	// waiting is the command that waits for the recorder.
	waiting tea.Cmd
	quit    bool
	seen    []tea.Msg
}

func testConfig(recorder Recorder, reader Reader) Config {
	minted := 0
	renderer := lipgloss.NewRenderer(&strings.Builder{})
	return Config{
		Store: reader, Recorder: recorder, Renderer: renderer, Dark: true, Mouse: true,
		Now:   func() time.Time { return testTime },
		NewID: func() model.ID { minted++; return model.ID(fmt.Sprintf("id%d", minted)) },
	}
}

// startApp starts the app on what a reader has.
func startApp(t tester, reader *fakeReader) *appTest {
	t.Helper()
	recorder := newFakeRecorder()
	a, err := New(testConfig(recorder, reader))
	if err != nil {
		t.Fatal(err)
	}
	d := &appTest{App: a, t: t, recorder: recorder, reader: reader}
	d.run(a.Init())
	d.idle()
	return d
}

// onBoard starts the app with students seated in turn on the pairs of 7/8, 9/10 and so on, two on a pair.
func onBoard(t tester, names ...string) *appTest {
	t.Helper()
	d := startApp(t, &fakeReader{})
	lanes := make([]string, (len(names)+1)/2)
	for i := range lanes {
		lanes[i] = fmt.Sprint(7 + 2*i)
	}
	d.press(strings.Join(lanes, " ") + "<enter>")
	for i, name := range names {
		d.press(name + "<enter>")
		if i%2 == 1 || i == len(names)-1 {
			d.press("<enter>")
		}
	}
	return d
}

// run runs a command and hands in what it gives; the one that waits for the recorder is put aside.
func (d *appTest) run(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	if code(cmd) == code(d.awaitKept()) {
		d.waiting = cmd
		return
	}
	msg := cmd()
	d.seen = append(d.seen, msg)
	switch msg := msg.(type) {
	case tea.BatchMsg:
		for _, cmd := range msg {
			d.run(cmd)
		}
	case tea.QuitMsg:
		d.quit = true
	default:
		d.send(msg)
	}
}

// code tells commands made at different places apart.
func code(cmd tea.Cmd) uintptr { return reflect.ValueOf(cmd).Pointer() }

// idle has the disk keep what it was given.
func (d *appTest) idle() {
	if !d.slow && d.recorder.progress.Durable < d.recorder.progress.Issued {
		d.ack()
	}
}

// send hands a message in and runs what comes back.
func (d *appTest) send(msg tea.Msg) {
	_, cmd := d.Update(msg)
	d.run(cmd)
}

// ack has everything on disk.
func (d *appTest) ack() { d.disk(store.Progress{Durable: d.recorder.progress.Issued}) }

// disk says how far the disk has come.
func (d *appTest) disk(p store.Progress) {
	p.Issued = d.recorder.progress.Issued
	d.recorder.progress = p
	d.recorder.changed <- struct{}{}
	d.send(d.waiting())
}

var namedKeys = map[string]tea.KeyMsg{
	"enter": {Type: tea.KeyEnter}, "esc": {Type: tea.KeyEsc}, "bs": {Type: tea.KeyBackspace}, "tab": {Type: tea.KeyTab},
	"shift+tab": {Type: tea.KeyShiftTab}, "up": {Type: tea.KeyUp}, "down": {Type: tea.KeyDown}, "left": {Type: tea.KeyLeft},
	"right": {Type: tea.KeyRight}, "home": {Type: tea.KeyHome}, "end": {Type: tea.KeyEnd}, "pgup": {Type: tea.KeyPgUp},
	"pgdown": {Type: tea.KeyPgDown}, "ctrl+c": {Type: tea.KeyCtrlC}, "ctrl+l": {Type: tea.KeyCtrlL},
	"ctrl+u": {Type: tea.KeyCtrlU}, "ctrl+w": {Type: tea.KeyCtrlW}, "del": {Type: tea.KeyDelete}, "nul": {Type: tea.KeyNull},
	"f1": {Type: tea.KeyF1}, "f5": {Type: tea.KeyF5},
}

// keysOf reads keys as tests write them: each character is a key, names are in angle brackets.
func keysOf(keys string) []tea.KeyMsg {
	var msgs []tea.KeyMsg
	for keys != "" {
		if name, rest, ok := strings.Cut(keys[1:], ">"); keys[0] == '<' && ok {
			msgs = append(msgs, namedKeys[name])
			keys = rest
			continue
		}
		r := []rune(keys)[0]
		msgs = append(msgs, single(r))
		keys = keys[len(string(r)):]
	}
	return msgs
}

// press presses keys one by one, each in a read of its own.
func (d *appTest) press(keys string) *appTest {
	for _, k := range keysOf(keys) {
		d.send(k)
		d.idle()
	}
	return d
}

// burst hands keys in as one read.
func (d *appTest) burst(text string) {
	d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: append([]rune{burstMark}, []rune(text)...), Paste: true})
	d.idle()
}

// show gives the window as text.
func (d *appTest) show() string { return ansi.Strip(d.picture()) }

// says tells that words are on the screen.
func (d *appTest) says(words ...string) *appTest {
	d.t.Helper()
	for _, w := range words {
		if !strings.Contains(d.show(), w) {
			d.t.Errorf("%q is not on the screen:\n%s", w, d.show())
		}
	}
	return d
}

// silent tells that words are not on the screen.
func (d *appTest) silent(words string) *appTest {
	d.t.Helper()
	if strings.Contains(d.show(), words) {
		d.t.Errorf("%q is on the screen:\n%s", words, d.show())
	}
	return d
}

// spoken writes down the deliveries of the evening in the order of recording: whose, frame, pins, standing and letters.
func (d *appTest) spoken() []string {
	var ds []model.Delivery
	names := map[model.ID]string{}
	for _, seat := range d.evening.Seats() {
		for _, s := range d.evening.Sheets(seat.Student) {
			ds = append(ds, s.Deliveries...)
			for _, x := range s.Deliveries {
				names[x.ID] = d.evening.Label(seat.Student)
			}
		}
	}
	slices.SortFunc(ds, func(a, b model.Delivery) int { return serialOf(a.ID) - serialOf(b.ID) })
	out := make([]string, len(ds))
	for i, x := range ds {
		out[i] = names[x.ID] + " " + inWords(x)
	}
	return out
}

func serialOf(id model.ID) int {
	_, digits, _ := strings.Cut(string(id), "-")
	n := 0
	if _, err := fmt.Sscan(digits, &n); err != nil {
		panic(err)
	}
	return n
}

func inWords(x model.Delivery) string {
	words := []string{fmt.Sprintf("%d.%d", x.Frame, x.Ball)}
	switch {
	case x.Dead:
		words = append(words, "dead")
	case x.Foul:
		words = append(words, "foul")
	case !x.Pins.Known:
		words = append(words, "?")
	default:
		words = append(words, fmt.Sprint(x.Pins.Value))
	}
	if x.After.Known && x.After.Pins != 0 {
		words = append(words, "left "+x.After.Pins.String())
	}
	if x.Seen {
		words = append(words, x.Letters.String())
	} else if !x.Dead {
		words = append(words, "unseen")
	}
	if x.Side != "" {
		words = append(words, fmt.Sprintf("%s %d", x.Side, x.SideBoards))
	}
	for _, extra := range []string{string(x.Hit), x.Own.String(), x.Cue, x.Note} {
		if extra != "" {
			words = append(words, extra)
		}
	}
	return strings.Join(words, " ")
}

// eveningRecords gives every record of an evening by its name.
func eveningRecords(e *model.Evening) map[model.Ref]model.Record {
	records := map[model.Ref]model.Record{e.Session().Ref(): e.Session()}
	for _, seat := range e.Seats() {
		records[e.Student(seat.Student).Ref()] = e.Student(seat.Student)
		for _, s := range e.Sheets(seat.Student) {
			records[s.Game.Ref()] = s.Game
			for _, x := range s.Deliveries {
				records[x.Ref()] = x
			}
		}
	}
	return records
}

// tidy drops the students who have no seat from records: they stay kept when a place is taken back.
func tidy(records map[model.Ref]model.Record, e *model.Evening) map[model.Ref]model.Record {
	out := maps.Clone(records)
	maps.DeleteFunc(out, func(ref model.Ref, _ model.Record) bool {
		_, seated := e.SeatOf(ref.ID)
		return ref.Kind == model.StudentRecord && !seated
	})
	return out
}
