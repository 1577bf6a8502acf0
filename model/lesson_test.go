package model_test

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	gocmp "github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

// lesson is an evening under test. Every step that it gives is folded into plain records as a store would do it, and
// after each the records have to be those of the evening.
type lesson struct {
	*model.Evening
	t       tester
	kept    map[model.Ref]model.Record
	log     []model.Entry
	tallies map[model.ID]model.Tally
	up      model.Up
	// steps counts what was kept; refusal is the words of the last key refused.
	steps   int
	refusal error
	// offer is the correction that the coach was asked about last.
	offer *model.Reframing
}

// tester is a test, by table or by property.
type tester interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
	Errorf(format string, args ...any)
}

const sessionID model.ID = "s"

// beginLesson begins an evening on 7/8, and on 9/10 where there are students for it. A student is "Ada 172"; a name after
// "|" is on the next pair. Every lane's students alternate.
func beginLesson(t tester, students string) *lesson {
	t.Helper()
	groups := strings.Split(students, "|")
	session := model.Session{ID: sessionID, At: evening, Rotate: true}
	for i := range groups {
		session.Pairs = append(session.Pairs, model.Pair{7 + 2*i, 8 + 2*i})
	}
	l := &lesson{t: t, kept: map[model.Ref]model.Record{}, tallies: map[model.ID]model.Tally{}}
	e, step, err := model.NewEvening(session)
	if err != nil {
		t.Fatal(err)
	}
	l.Evening = e
	l.fold(step)
	for i, group := range groups {
		for _, text := range strings.Split(group, ",") {
			if strings.TrimSpace(text) == "" {
				continue
			}
			s, err := model.ParseNewcomer(text)
			if err != nil {
				t.Fatal(err)
			}
			s.ID = model.ID(s.Name)
			l.mustKeep(l.Seat(s, 7+2*i))
		}
	}
	if len(l.Seats()) > 0 {
		l.mustKeep(l.PutUp(l.Seats()[0].Student))
	}
	return l
}

func (l *lesson) mustKeep(step model.Step, err error) {
	l.t.Helper()
	if err != nil {
		l.t.Fatal(err)
	}
	l.fold(step)
}

// fold makes a step's changes, as a store does: each must find the record as the step says it was before.
func (l *lesson) fold(step model.Step) {
	l.t.Helper()
	if step.Session != sessionID {
		l.t.Fatalf("a step of session %q", step.Session)
	}
	for _, c := range step.Changes {
		if diff := gocmp.Diff(c.Before, l.kept[c.Ref]); diff != "" {
			l.t.Fatalf("%v is not as the step says it was (-said +kept):\n%s", c.Ref, diff)
		}
		if c.After == nil {
			delete(l.kept, c.Ref)
			delete(l.tallies, c.Ref.ID)
			continue
		}
		if c.After.Ref() != c.Ref {
			l.t.Fatalf("the change of %v gives %v", c.Ref, c.After.Ref())
		}
		if err := c.After.Validate(); err != nil {
			l.t.Fatalf("%v: %v", c.Ref, err)
		}
		l.kept[c.Ref] = c.After
	}
	for game, tally := range step.Tallies {
		if l.kept[model.Ref{Kind: model.GameRecord, ID: game}] == nil {
			l.t.Fatalf("a tally of %s, which is not there", game)
		}
		l.tallies[game] = tally
	}
	l.foldLog(step)
	l.up = step.Up
	l.steps++
	l.check()
}

func (l *lesson) foldLog(step model.Step) {
	l.t.Helper()
	switch {
	case step.Undo:
		last := len(l.log) - 1
		if last < 0 || l.log[last].N != step.Action.N {
			l.t.Fatalf("action %d taken back of a list of %d", step.Action.N, len(l.log))
		}
		l.log = l.log[:last]
	case len(step.Action.Changes) > 0:
		if step.Action.N != len(l.log)+1 {
			l.t.Fatalf("action %d after a list of %d", step.Action.N, len(l.log))
		}
		l.log = append(l.log, step.Action.Entry())
	}
}

// check compares the evening with the records kept.
func (l *lesson) check() {
	l.t.Helper()
	live := map[model.Ref]model.Record{l.Session().Ref(): l.Session()}
	tallies := map[model.ID]model.Tally{}
	for ref := range l.kept {
		if ref.Kind == model.StudentRecord {
			live[ref] = l.Student(ref.ID)
			for _, s := range l.Sheets(ref.ID) {
				live[s.Game.Ref()], tallies[s.Game.ID] = s.Game, s.Tally
				for _, d := range s.Deliveries {
					live[d.Ref()] = d
				}
			}
		}
	}
	if diff := gocmp.Diff(live, l.kept); diff != "" {
		l.t.Fatalf("the records kept are not the evening's (-evening +kept):\n%s", diff)
	}
	if diff := gocmp.Diff(tallies, l.tallies); diff != "" {
		l.t.Fatalf("the tallies kept are not the evening's (-evening +kept):\n%s", diff)
	}
	if diff := gocmp.Diff(l.Up(), l.up); diff != "" {
		l.t.Fatalf("who is up is kept wrong (-evening +kept):\n%s", diff)
	}
}

// asKept gives the evening as a store would give it back.
func (l *lesson) asKept() model.Kept {
	k := model.Kept{Session: l.Session(), Log: slices.Clone(l.log), Up: l.up}
	serial := func(id model.ID) int {
		n, _ := model.Serial(sessionID, id)
		k.Serial = max(k.Serial, n)
		return n
	}
	for _, r := range l.kept {
		switch r := r.(type) {
		case model.Student:
			k.Students = append(k.Students, r)
		case model.Game:
			serial(r.ID)
			k.Games = append(k.Games, r)
		case model.Delivery:
			serial(r.ID)
			k.Deliveries = append(k.Deliveries, r)
		}
	}
	slices.SortFunc(k.Deliveries, func(a, b model.Delivery) int { return cmp.Compare(serial(a.ID), serial(b.ID)) })
	return k
}

// restart gives the lesson after the program was left and started again.
func (l *lesson) restart() *lesson {
	l.t.Helper()
	e, err := model.Resume(l.asKept())
	if err != nil {
		l.t.Fatal(err)
	}
	again := &lesson{
		Evening: e, t: l.t, kept: map[model.Ref]model.Record{}, log: slices.Clone(l.log),
		tallies: map[model.ID]model.Tally{}, up: e.Up(), steps: l.steps,
	}
	for ref, r := range l.kept {
		again.kept[ref] = r
	}
	for id, tally := range l.tallies {
		again.tallies[id] = tally
	}
	again.check()
	return again
}

// view is all that a coach can see of an evening, for comparing.
type view struct {
	Session model.Session
	Sheets  map[model.ID][]played
	Calls   map[model.ID]model.Call
	Up      model.Up
	Last    model.Action
}

type played struct {
	Game       model.Game
	Deliveries []model.Delivery
	Racks      []model.Rack
	Tally      model.Tally
}

func (l *lesson) view() view {
	v := view{
		Session: l.Session(), Sheets: map[model.ID][]played{}, Calls: map[model.ID]model.Call{}, Up: l.Up(),
	}
	v.Last, _ = l.Last()
	for _, seat := range l.Seats() {
		for _, s := range l.Sheets(seat.Student) {
			v.Sheets[seat.Student] = append(v.Sheets[seat.Student], played{s.Game, s.Deliveries, s.Racks, s.Tally})
		}
		v.Calls[seat.Student] = l.CallOf(seat.Student)
	}
	return v
}

// sameAs compares two views of an evening.
func (v view) sameAs(t tester, what string, other view) {
	t.Helper()
	if diff := gocmp.Diff(v, other); diff != "" {
		t.Fatalf("%s (-want +got):\n%s", what, diff)
	}
}

// at gives the time of the next step, a quarter of a minute after the last.
func (l *lesson) at() time.Time { return evening.Add(time.Duration(l.steps) * 15 * time.Second) }

// press works the keys of a script, none of which may be refused.
func (l *lesson) press(keys string) *lesson {
	l.t.Helper()
	if n := l.run(keys); n != 0 {
		l.t.Fatalf("%q: key %d was refused: %v", keys, n, l.refusal)
	}
	return l
}

// refuse works the keys of a script, of which the last one must be refused, change nothing, and say why with words that
// hold those given.
func (l *lesson) refuse(keys, words string) {
	l.t.Helper()
	script := scriptOf(keys)
	before := l.view()
	for i, k := range script {
		before = l.view()
		err := l.key(k)
		if last := i == len(script)-1; (err != nil) != last {
			l.t.Fatalf("%q: key %d (%s): %v", keys, i+1, k, err)
		}
		l.refusal = err
	}
	if !strings.Contains(l.refusal.Error(), words) {
		l.t.Errorf("%q is refused with %q, want words like %q", keys, l.refusal, words)
	}
	before.sameAs(l.t, fmt.Sprintf("%q was refused and changed something", keys), l.view())
}

// run works the keys of a script up to one that is refused, and gives that one's place, 0 for none.
func (l *lesson) run(keys string) int {
	l.t.Helper()
	for i, k := range scriptOf(keys) {
		if l.refusal = l.key(k); l.refusal != nil {
			return i + 1
		}
	}
	return 0
}

// deliveries gives the deliveries of a student's last game in few words: see brief.
func (l *lesson) deliveries(student model.ID) string {
	if l.Sheet(student) == nil {
		return ""
	}
	return brief(l.Sheet(student).Deliveries)
}

// brief says deliveries in few words each: frame.ball, pins (? for unknown, F a foul, D dead), what stands, letters (u for
// unseen) and + for a good shot.
func brief(deliveries []model.Delivery) string {
	var out []string
	for _, d := range deliveries {
		out = append(out, briefOne(d))
	}
	return strings.Join(out, ", ")
}

func briefOne(d model.Delivery) string {
	pins := strconv.Itoa(d.Pins.Value)
	switch {
	case d.Dead:
		return fmt.Sprintf("%d.%d D", d.Frame, d.Ball)
	case d.Foul:
		pins = "F"
	case !d.Pins.Known:
		pins = "?"
	}
	left := d.After.Pins.String()
	switch {
	case !d.After.Known:
		left = "?"
	case d.After.Pins.Count() == 10:
		left = "all"
	case d.After.Pins == 0:
		left = "none"
	}
	letters := d.Letters.String()
	if !d.Seen {
		letters = "u"
	}
	if d.Good() {
		letters += "+"
	}
	return fmt.Sprintf("%d.%d %s/%s %s", d.Frame, d.Ball, pins, left, letters)
}
