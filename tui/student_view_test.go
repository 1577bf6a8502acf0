package tui

import (
	"fmt"
	"strings"
	"testing"

	"coach.settee/model"
	"coach.settee/store"
)

// twoGames are the games of Ada, every shot seen, with so many good full racks each; all others are two steps off balance.
func twoGames(t *testing.T, good ...int) *appTest {
	t.Helper()
	d := onBoard(t, "Ada Marsh 172", "Bo Winter 120").press("GG<esc>@bo<enter>V@ada<enter>")
	for _, n := range good {
		for rack := range 12 {
			if rack >= n {
				d.press("bb")
			}
			d.press("x")
		}
	}
	return d
}

// The goal after the first two games is their mean plus one, to the half: (3 + 4)/2 + 1 = 4.5.
func TestStudentGoalOffered(t *testing.T) {
	t.Run("after two games, and taken with one key", func(t *testing.T) {
		d := twoGames(t, 3, 4).press("s").says("goal offered after two games: 4.5 - O takes it")
		d.press("O").says("last: Ada Marsh: goal 4.5").silent("goal offered")
		if s := d.record(); s.Goal.Shots() != 4.5 {
			t.Errorf("%v", s.Goal.Shots())
		}
		d.press("O").says("the goal was chosen, 4.5; after the first two games it would be 4.5")
		d.press("<bs>").says("goal offered after two games: 4.5")
	})
	t.Run("not after one", func(t *testing.T) {
		d := twoGames(t, 3).press("s").silent("goal offered")
		d.press("O").says("a goal is offered after the first two games")
	})
	t.Run("follows a game that the report is not over", func(t *testing.T) {
		later := func(x model.DatedSheet) model.DatedSheet {
			sheet := *x.Sheet
			sheet.Game.Session, sheet.Game.ID = "later", "later-2"
			return model.DatedSheet{Sheet: &sheet, At: x.At.AddDate(0, 0, 7)}
		}
		was, corrected := twoGames(t, 3, 4), twoGames(t, 3, 9)
		ada := was.evening.UpStudent()
		bowled := dated(was.evening, ada)
		d := startApp(t, &fakeReader{
			students: keptEvening(was).Students,
			history:  map[model.ID]store.History{ada: {First: []model.DatedSheet{bowled[0], later(bowled[1])}}},
		}).press("<esc>s").says("goal offered after two games: 4.5")
		d.student.facts.first[1] = later(dated(corrected.evening, ada)[1])
		d.press("<f5>").says("goal offered after two games: 7")
	})
	t.Run("of an evening before", func(t *testing.T) {
		was := twoGames(t, 3, 4)
		ada := was.evening.UpStudent()
		k := keptEvening(was)
		k.Session.Closed = k.Session.At.Add(1)
		bowled := dated(was.evening, ada)
		d := startApp(t, &fakeReader{
			students: k.Students, evenings: []model.Kept{k},
			history: map[model.ID]store.History{ada: {Over: bowled, First: bowled}},
			left:    map[model.ID]model.Left{ada: {At: k.Session.At, Seat: model.Seat{Student: ada, Homework: "10 pin, 3 times 10"}}},
		}).press("<esc>s")
		d.says("goal offered after two games: 4.5", "1 evening before, the last 4 March 2026", "from last time: 10 pin, 3 times 10 (homework)")
		d.press("O").says("Ada Marsh: goal 4.5")
	})
}

func TestStudentFacts(t *testing.T) {
	t.Run("without a game", func(t *testing.T) {
		onBoard(t, "Ada 120").press("s").says("no games yet: the first ten full racks seen are the baseline", "the first evening is tonight")
	})
	t.Run("the baseline and the trend, as one coach's eye", func(t *testing.T) {
		for games, want := range map[int]string{
			2: "trend: 3 of 10 good at the start; too few games to say; this is one coach's eye",
			3: "trend: 3 of 10 at the start, ",
		} {
			d := twoGames(t, []int{3, 4, 5}[:games]...).press("s")
			if words := strings.Join(strings.Fields(d.show()), " "); !strings.Contains(words, want) {
				t.Errorf("%q is not in %s", want, words)
			}
		}
	})
	t.Run("the average of the finished games, its fraction dropped", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("s").silent("bowled here")
		// 300 and 299 are 299.5 a game, and the game begun does not count.
		d.press("<esc>" + strings.Repeat("x", 12)).press("s").says("bowled here: 300 over 1 game").silent("over 1 games")
		d.press("<esc>" + strings.Repeat("x", 11) + "1<enter>" + "x").press("s").says("bowled here: 299 over 2 games")
		d.press("<esc><bs><bs>s").says("bowled here: 300 over 1 game")
	})
	t.Run("the average is over what was read and what is in memory, each game once", func(t *testing.T) {
		was := twoGames(t, 3, 4)
		ada := was.evening.UpStudent()
		k := keptEvening(was)
		k.Session.Closed = k.Session.At.Add(1)
		bowled := dated(was.evening, ada)
		d := startApp(t, &fakeReader{
			students: k.Students, evenings: []model.Kept{k},
			history: map[model.ID]store.History{ada: {Over: bowled[1:], Earlier: bowled[:1], First: bowled}},
		}).press("<esc>s")
		d.says("bowled here: 300 over 2 games")
	})
	t.Run("a store that fails says so", func(t *testing.T) {
		d := onBoard(t, "Ada 120")
		d.reader.err = errFull
		d.press("s").says("the evenings of Ada cannot be read, the record is as kept")
	})
	t.Run("an answer for another student is passed over", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("s")
		d.send(factsMsg{facts: facts{of: factsKey{student: "nobody"}, read: true, evenings: 7}})
		d.silent("7 evenings")
	})
}

// recorded is a record with something in every kind of field.
func recorded(t *testing.T) *appTest {
	t.Helper()
	d := twoGames(t, 3, 4, 5).press("s").on("style").press("<enter>one-hand<enter>")
	d.on("limits").press("<enter>left knee, no long approach<enter>")
	d.on("focus").press("<enter>a quiet head to the line<enter>")
	d.on("minor").press("<enter><ctrl+u>yes<enter>")
	return d.press("isis ssore after school<enter>")
}

func TestStudentScreens(t *testing.T) {
	usual := []struct{ w, h int }{{80, 24}, {160, 50}}
	for _, c := range []struct {
		name, keys string
		sizes      []struct{ w, h int }
	}{
		{"student", "<home>", sizes}, {"student_end", "<end>", usual}, {"student_find", "/", usual}, {"student_private", "I", usual},
		{"student_refused", "<home><down><down><down><enter>0<enter>", sizes}, {"student_intake", "is", sizes},
	} {
		for _, size := range c.sizes {
			t.Run(fmt.Sprintf("%s %dx%d", c.name, size.w, size.h), func(t *testing.T) {
				d := recorded(t).press(c.keys)
				d.send(sizeMsg(size.w, size.h))
				golden(t, fmt.Sprintf("%s_%dx%d", c.name, size.w, size.h), d.View())
			})
		}
	}
}

// Whatever field is marked, it is in view with its mark at every size.
func TestStudentMarkedIsInView(t *testing.T) {
	d := recorded(t)
	for _, size := range sizes {
		d.send(sizeMsg(size.w, size.h))
		d.press("<home>")
		for _, f := range d.student.fields {
			d.says("▶ " + f.Name)
			d.press("<down>")
		}
		d.says("▶ intake")
	}
}
