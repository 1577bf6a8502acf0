package tui

import (
	"fmt"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/model/insight"
)

var testTime = time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)

// eveningTest plays an evening as a coach keys it.
type eveningTest struct {
	*model.Evening
	t testing.TB
}

func newEveningTest(t testing.TB, pairs ...int) eveningTest {
	t.Helper()
	s := model.Session{ID: "session", At: testTime, Rotate: true}
	for _, lane := range pairs {
		s.Pairs = append(s.Pairs, model.PairOf(lane))
	}
	e, _, err := model.NewEvening(s)
	if err != nil {
		t.Fatal(err)
	}
	return eveningTest{e, t}
}

// must says that an operation of the evening has to be taken.
func (e eveningTest) must(_ model.Step, err error) {
	e.t.Helper()
	e.done(err)
}

func (e eveningTest) done(err error) {
	e.t.Helper()
	if err != nil {
		e.t.Fatal(err)
	}
}

// seat adds a student under an id by which play finds the student.
func (e eveningTest) seat(id model.ID, name string, average, lane int) {
	e.t.Helper()
	s := model.Student{ID: id, Name: name, Hand: model.RightHand, Average: model.Known(average)}
	e.must(e.Seat(s, lane))
}

// play puts a student up and keys calls: every character is a key of the board, as far as the test knows it.
func (e eveningTest) play(id model.ID, keys string) {
	e.t.Helper()
	e.must(e.PutUp(id))
	for i := 0; i < len(keys); i++ {
		if keys[i] == '=' {
			i++
			e.must(e.RecordCount(testTime, int(keys[i]-'0')))
		} else {
			e.key(keys[i])
		}
		if i < len(keys)-1 {
			e.must(e.PutUp(id))
		}
	}
}

func (e eveningTest) key(key byte) {
	e.t.Helper()
	switch key {
	case 'b', 't', 'r', 'f':
		for _, a := range model.Axes {
			if axisKeys[a][0] == key {
				e.done(e.Lower(a))
			}
		}
	case 'i':
		e.done(e.Miss(model.Inside))
	case 'o':
		e.done(e.Miss(model.Outside))
	case 'h':
		e.done(e.Meet(model.High, model.Nose, model.Brooklyn))
	case 'p':
		e.done(e.Meet(model.Pocket))
	case 'z':
		e.done(e.ToggleUnseen())
	case '!':
		e.done(e.ToggleFoul())
	case '-':
		e.done(e.NameNoneDown())
	case 'x':
		e.must(e.RecordAllDown(testTime))
	case 'D':
		e.must(e.RecordDead(testTime))
	case '.':
		e.must(e.RecordNamed(testTime))
	default:
		pin := int(key - '0')
		if pin == 0 {
			pin = 10
		}
		e.done(e.TogglePin(pin))
	}
}

// paces reckons the pace of everyone who is in a game, without history.
func (e eveningTest) paces() map[model.ID]insight.Pace {
	paces := map[model.ID]insight.Pace{}
	for _, seat := range e.Seats() {
		chosen, sheet := e.Student(seat.Student).Chosen(), e.Sheet(seat.Student)
		in := insight.PaceInput{Goal: chosen.Goal.Shots(), Rates: insight.LevelRates(chosen.Level)}
		switch {
		case sheet == nil || sheet.Game.Kind == model.KindWarmup:
		case sheet.Game.Kind == model.KindGame:
			in.Good, in.Seen, in.Unseen = sheet.Tally.Good, sheet.Tally.Seen, sheet.Tally.Racks-sheet.Tally.Seen
			paces[seat.Student] = insight.GamePace(in, sheet.Card.At)
		default:
			in.Good, in.Seen, in.Unseen = sheet.Tally.Good, sheet.Tally.Seen, sheet.Tally.Racks-sheet.Tally.Seen
			if pace, ok := insight.DrillPace(in, insight.Drill{Length: sheet.Game.Length, AtPins: sheet.Game.Pins != 0}); ok {
				paces[seat.Student] = pace
			}
		}
	}
	return paces
}

func (e eveningTest) picture() boardPicture {
	return boardPicture{Evening: e.Evening, Pace: e.paces(), Theme: plainTheme()}
}

// midEvening is six students on three pairs in the middle of a game.
func midEvening(t testing.TB) eveningTest {
	t.Helper()
	e := newEveningTest(t, 7, 9, 11)
	e.seat("ada", "Ada Marsh", 120, 7)
	e.seat("bo", "Bo Winter", 172, 7)
	e.seat("cyd", "Cyd Okafor", 195, 9)
	e.seat("dov", "Dov Lind", 88, 9)
	e.seat("eve", "Eve Tanaka", 214, 11)
	e.seat("finn", "Finnegan Ashdown", 151, 11)
	e.play("ada", "x0.xbb6.xz3.x7.xi=8=1")
	e.play("bo", "xrr70.=1xxtt4.x")
	e.play("cyd", "x6.xxxr8.x")
	e.play("dov", "b=7=0bb-.=4o=6x")
	e.play("eve", "x0.xxrxx0.x")
	e.play("finn", "7.xz=8=1ff2.xx=9-.x!.")
	return e
}

// fullHouse is sixteen students on eight pairs.
func fullHouse(t testing.TB) eveningTest {
	t.Helper()
	e := newEveningTest(t, 1, 3, 5, 7, 9, 11, 13, 15)
	for i := range 16 {
		id := model.ID(fmt.Sprintf("s%02d", i))
		e.seat(id, fmt.Sprintf("Student%c Lane", 'A'+i), 90+8*i, 1+2*(i/2))
		e.play(id, "x7.xb=9=0"[:1+i%2*3])
	}
	return e
}
