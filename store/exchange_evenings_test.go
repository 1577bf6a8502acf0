package store

import (
	"fmt"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/model/tenpin"
	"pgregory.net/rapid"
)

// wanderer works a store at random, through the evenings as the board does.
type wanderer struct {
	t        *rapid.T
	s        *Store
	e        *model.Evening
	students []model.Student
	clock    time.Time
	// steps are those that were kept.
	steps []model.Step
}

// randomStore gives the path of a store that some evenings were kept in.
func randomStore(t *rapid.T, dir string) string {
	path := filepath.Join(dir, "random.db")
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}()
	c := &wanderer{t: t, s: s, clock: time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)}
	for n := range rapid.IntRange(0, 3).Draw(t, "evenings") {
		c.evening(n)
	}
	return path
}

// evening begins a session and does things in it; it may stay open.
func (c *wanderer) evening(n int) {
	ids := []model.ID{"01HWA000000000000000000000", "e", "-_-"}
	lanes := rapid.SampledFrom([]string{"7", "1 2 9", "199-200"}).Draw(c.t, "lanes")
	pairs, err := model.ParseLanes(lanes)
	if err != nil {
		c.t.Fatal(err)
	}
	e, step, err := model.NewEvening(model.Session{
		ID: ids[n], At: c.now(), Pairs: pairs, Rotate: rapid.Bool().Draw(c.t, "rotate"), ArrowsFt: c.measure(12, 16),
		PatternKind: c.text(), Oiled: rapid.SampledFrom([]time.Time{{}, c.clock.Add(-time.Hour)}).Draw(c.t, "oiled"), Before: c.text(),
	})
	c.e = e
	c.keep(step, err)
	for range rapid.IntRange(0, 4).Draw(c.t, "students") {
		c.seat()
	}
	for range rapid.IntRange(0, 80).Draw(c.t, "actions") {
		rapid.SampledFrom(c.actions()).Draw(c.t, "action").do()
	}
}

// keep keeps what was done, now and then twice, as it is tried again after an error that came too late; what the evening
// refused changes nothing.
func (c *wanderer) keep(step model.Step, err error) {
	if err != nil || step.Session == "" {
		return
	}
	c.steps = append(c.steps, step)
	for range rapid.SampledFrom([]int{1, 1, 1, 2}).Draw(c.t, "times") {
		if err := c.s.Keep(step); err != nil {
			c.t.Fatal(err)
		}
	}
}

func (c *wanderer) now() time.Time {
	c.clock = c.clock.Add(time.Duration(rapid.IntRange(0, 90).Draw(c.t, "seconds")) * time.Second)
	return c.clock
}

func (c *wanderer) measure(low, high int) model.Optional[float64] {
	if rapid.Bool().Draw(c.t, "unknown") {
		return model.Optional[float64]{}
	}
	return model.Known(float64(rapid.IntRange(low*100, high*100).Draw(c.t, "hundredths")) / 100)
}

func (c *wanderer) text() string {
	return rapid.SampledFrom([]string{"", "quiet \"head\"", "<back> & \\ hold", "=1+1", "눈은 화살에", "slow feet"}).Draw(c.t, "text")
}

// seat seats a student who was there before, or a new one.
func (c *wanderer) seat() {
	pairs := c.e.Session().Pairs
	lane := rapid.SampledFrom(pairs).Draw(c.t, "pair")[rapid.IntRange(0, 1).Draw(c.t, "side")]
	if len(c.students) > 0 && rapid.Bool().Draw(c.t, "known") {
		i := rapid.IntRange(0, len(c.students)-1).Draw(c.t, "who")
		kept, err := c.s.Students()
		at := slices.IndexFunc(kept, func(s model.Student) bool { return s.ID == c.students[i].ID })
		if err != nil || at < 0 {
			return
		}
		was := kept[at]
		next := was
		next.Average = model.Known(rapid.IntRange(0, 300).Draw(c.t, "average"))
		step, err := c.e.SeatKnown(was, next, lane)
		if err == nil {
			c.students[i] = next
		}
		c.keep(step, err)
		return
	}
	s := c.student()
	c.students = append(c.students, s)
	c.keep(c.e.Seat(s, lane))
}

func (c *wanderer) student() model.Student {
	t := c.t
	s := model.Student{
		ID:   model.ID(fmt.Sprintf("%s%d", rapid.SampledFrom([]string{"s", "S-", "_"}).Draw(t, "prefix"), len(c.students))),
		Name: rapid.SampledFrom([]string{"Bo", "Åsa \"Å\" <b>", "ليلى", "하늘"}).Draw(t, "name"),
		Hand: rapid.SampledFrom([]model.Hand{model.RightHand, model.LeftHand}).Draw(t, "hand"),
	}
	if rapid.Bool().Draw(t, "plain") {
		return s
	}
	s.Style = rapid.SampledFrom([]model.Style{"", model.OneHand, model.TwoHand, model.NoThumb}).Draw(t, "style")
	s.Level = rapid.SampledFrom(append(model.Levels[:], "")).Draw(t, "level")
	s.Bar = rapid.SampledFrom([]model.ShotGrade{model.Ungraded, model.GradeB, model.GradeA}).Draw(t, "bar")
	s.Goal = model.Goal(rapid.IntRange(0, 20).Draw(t, "goal"))
	s.Weights = rapid.SampledFrom([]model.Weights{{}, {0, 0, 0, 100}, {10, 20, 30, 40}}).Draw(t, "weights")
	s.Tone = rapid.SampledFrom([]model.Tone{"", model.Gentle, model.Plain, model.Blunt}).Draw(t, "tone")
	s.Start = rapid.SampledFrom([]model.Letters{{}, {model.B, model.NoLetter, model.A, model.C}}).Draw(t, "start")
	s.Watched = model.AxisSet(rapid.IntRange(0, int(model.AllAxes)).Draw(t, "watched"))
	s.SlideOffset, s.SpeedMPH = c.measure(-9, 9), c.measure(8, 25)
	s.RevRPM, s.AxisRotation = c.measure(50, 600), c.measure(0, 90)
	s.Balls = rapid.SampledFrom([][]string{nil, {"dull blue 15"}, {"a", "b \"c\""}}).Draw(t, "balls")
	s.BallUp = rapid.SampledFrom(append(slices.Clip(s.Balls), "")).Draw(t, "ball up")
	s.Focus, s.Limits, s.Notes, s.AverageOn = c.text(), c.text(), c.text(), c.text()
	s.Intake = c.intake()
	s.LoadLimit = rapid.SampledFrom([]int{0, 1, 60}).Draw(t, "limit")
	s.Minor, s.Archived = rapid.Bool().Draw(t, "minor"), rapid.Bool().Draw(t, "archived")
	for pin := 1; pin <= 10; pin++ {
		if rapid.IntRange(0, 4).Draw(t, "spare") == 0 {
			s.SpareLines = append(s.SpareLines, model.SpareLine{Pin: pin, Line: c.line()})
		}
	}
	return s
}

func (c *wanderer) intake() model.Intake {
	if rapid.Bool().Draw(c.t, "no intake") {
		return model.Intake{}
	}
	return model.Intake{
		On:        rapid.SampledFrom([]string{"2026-03-04", "2024-02-29"}).Draw(c.t, "on"),
		Motion:    rapid.SampledFrom(append(slices.Clip(model.Motions), "")).Draw(c.t, "motion"),
		Direction: rapid.SampledFrom(append(slices.Clip(model.Directions), "")).Draw(c.t, "direction"),
		HandAt:    rapid.SampledFrom(append(slices.Clip(model.HandsAt), "")).Draw(c.t, "hand at"),
		Timing:    rapid.SampledFrom(append(slices.Clip(model.Timings), "")).Draw(c.t, "timing"),
		Learns:    rapid.SampledFrom(append(slices.Clip(model.Learnings), "")).Draw(c.t, "learns"),
		Hurts:     c.text(),
	}
}

// deed is something a coach does; its name is what a failing run shows.
type deed struct {
	name string
	do   func()
}

func (d deed) String() string { return d.name }

func (c *wanderer) actions() []deed {
	e, t := c.e, c.t
	return []deed{
		{"all down", func() { c.keep(e.RecordAllDown(c.now())) }},
		{"spare", func() { c.keep(e.RecordSpare(c.now())) }},
		{"count", func() { c.keep(e.RecordCount(c.now(), rapid.IntRange(0, 9).Draw(t, "felled"))) }},
		{"named", func() { c.name(); c.keep(e.RecordNamed(c.now())) }},
		{"none down", func() { _ = e.NameNoneDown(); c.keep(e.RecordNamed(c.now())) }},
		{"dead", func() { c.keep(e.RecordDead(c.now())) }},
		{"call", c.call},
		{"call more", c.call},
		{"change the last", func() { c.reopen(); c.call(); c.name(); c.keep(e.RecordNamed(c.now())); e.Leave() }},
		{"hand over", func() { c.reopen(); c.keep(e.HandOver(c.someone())); e.Leave() }},
		{"take back", func() { c.keep(e.Undo()) }},
		{"do again", func() { c.keep(e.Redo()) }},
		{"begin", c.begin},
		{"catch up", func() {
			c.keep(e.CatchUp(c.now(), rapid.SampledFrom([]string{"X", "9/", "43", "F/ X"}).Draw(t, "frames")))
		}},
		{"cue", func() { c.keep(e.SetCue(c.text())) }},
		{"place", func() { c.keep(e.SetPlace(c.text())) }},
		{"pattern", func() { c.keep(e.SetPattern(rapid.SampledFrom([]string{"", "41", "39.5"}).Draw(t, "feet"))) }},
		{"block", func() { c.keep(e.ToggleBlock()) }},
		{"sentence", func() { c.keep(e.SetSentence(c.someone(), c.text())) }},
		{"watched tonight", func() {
			c.keep(e.WatchTonight(c.someone(), model.AxisSet(rapid.IntRange(0, int(model.AllAxes)).Draw(t, "watched"))))
		}},
		{"other lane", func() { c.keep(e.ChangeLane()) }},
		{"other pair", func() { c.keep(e.MovePair(rapid.IntRange(1, 20).Draw(t, "lane"), rapid.Bool().Draw(t, "all"))) }},
		{"aim", c.aim},
		{"own spare line", c.spareLine},
		{"alternate", func() { c.keep(e.ToggleAlternate(c.someone())) }},
		{"out", func() { c.keep(e.ToggleOut()) }},
		{"next pair", func() { c.keep(e.NextPair()) }},
		{"another up", func() { c.keep(e.PutUp(c.someone())) }},
		{"seat", c.seat},
		{"drop the call", func() { e.Clear() }},
		{"close", func() { c.keep(e.Close(c.now())) }},
	}
}

func (c *wanderer) someone() model.ID {
	if len(c.students) == 0 {
		return "nobody"
	}
	return rapid.SampledFrom(c.students).Draw(c.t, "who").ID
}

// aim sets a line on a lane of someone's pair.
func (c *wanderer) aim() {
	who := c.someone()
	seat, ok := c.e.SeatOf(who)
	if !ok {
		return
	}
	pair := seat.Pair()
	c.keep(c.e.Aim(who, rapid.SampledFrom(pair[:]).Draw(c.t, "lane"), c.line(), c.text()))
}

func (c *wanderer) line() model.Line {
	text := rapid.SampledFrom([]string{"17 34 8@43", "15", ". 20.25", ". . 0@20.5"}).Draw(c.t, "line")
	line, err := model.ParseAim(text, model.Line{})
	if err != nil {
		c.t.Fatal(err)
	}
	return line
}

// spareLine keeps an own line of someone's for a pin, or takes it off.
func (c *wanderer) spareLine() {
	line := c.line()
	if rapid.IntRange(0, 3).Draw(c.t, "off") == 0 {
		line = model.Line{}
	}
	c.keep(c.e.SetSpareLine(c.someone(), rapid.IntRange(1, 10).Draw(c.t, "pin"), line))
}

// name names pins left standing.
func (c *wanderer) name() {
	for range rapid.IntRange(0, 3).Draw(c.t, "pins") {
		_ = c.e.TogglePin(rapid.IntRange(1, 10).Draw(c.t, "pin"))
	}
}

func (c *wanderer) reopen() {
	for range rapid.IntRange(1, 3).Draw(c.t, "back") {
		_ = c.e.Reopen()
	}
}

func (c *wanderer) begin() {
	plan := model.Plan{Kind: rapid.SampledFrom([]model.Kind{model.KindGame, model.KindDrill, model.KindWarmup}).Draw(c.t, "kind")}
	if plan.Kind == model.KindDrill {
		plan.Name = c.text()
		plan.Length = rapid.SampledFrom([]int{0, 2, 10}).Draw(c.t, "length")
		plan.Pins = tenpin.PinSet(rapid.SampledFrom([]int{0, 1 << 9, 0b1011, int(tenpin.AllPins)}).Draw(c.t, "rack"))
	}
	c.keep(c.e.Begin(plan, c.text()))
}

// call says something of the next delivery, or of the one that is open again.
func (c *wanderer) call() {
	e, t := c.e, c.t
	says := []deed{
		{"lower", func() { _ = e.Lower(rapid.SampledFrom(model.Axes[:]).Draw(t, "axis")) }},
		{"raise", func() { _ = e.Raise(rapid.SampledFrom(model.Axes[:]).Draw(t, "axis")) }},
		{"in", func() { _ = e.Miss(model.Inside) }},
		{"out", func() { _ = e.Miss(model.Outside) }},
		{"high", func() { _ = e.Meet(model.High, model.Nose, model.Brooklyn) }},
		{"light", func() { _ = e.Meet(model.Light, model.Missed) }},
		{"foul", func() { _ = e.ToggleFoul() }},
		{"unseen", func() { _ = e.ToggleUnseen() }},
		{"own", func() { _ = e.SetOwn(model.ShotGrade(rapid.IntRange(0, 12).Draw(t, "grade"))) }},
		{"note", func() { _ = e.SetNote(c.text()) }},
		{"line", func() {
			_ = e.SetLine(rapid.SampledFrom([]string{"17 34 8@43 16.1 +1.5", ". 20.25", "-0"}).Draw(t, "line"))
		}},
	}
	for range rapid.IntRange(1, 3).Draw(t, "says") {
		rapid.SampledFrom(says).Draw(t, "say").do()
	}
}

func mustOpen(t testing.TB, path string) *Store {
	t.Helper()
	s, err := Open(path, Options{NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}
