package tui

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

// weeklyReader has two evenings that are closed, one a week ago with three students on two pairs and one yesterday, and what
// a week ago has left.
func weeklyReader() *fakeReader {
	seat := func(id model.ID, lane, order int) model.Seat {
		return model.Seat{Student: id, Lane: lane, Order: order, Alternate: true, Cue: "slow feet", Focus: "quiet head"}
	}
	week := model.Session{
		ID: "week", At: testTime.AddDate(0, 0, -7), Closed: testTime.AddDate(0, 0, -7).Add(2 * time.Hour), Place: "Parkside",
		Pairs: []model.Pair{{7, 8}, {9, 10}}, Rotate: true, PatternFt: model.Known(41.), PatternKind: "house",
		Roster: []model.Seat{seat("ada", 7, 1), seat("bo", 8, 2), seat("cy", 9, 1)},
	}
	yesterday := model.Session{
		ID: "yesterday", At: testTime.AddDate(0, 0, -1), Closed: testTime.AddDate(0, 0, -1).Add(time.Hour), Place: "Millrace",
		Pairs: []model.Pair{{1, 2}}, Rotate: true, Roster: []model.Seat{seat("ada", 1, 1)},
	}
	student := func(id model.ID, name string, average int) model.Student {
		return model.Student{ID: id, Name: name, Hand: model.RightHand, Average: model.Known(average)}
	}
	ada, cy := student("ada", "Ada Marsh", 120), student("cy", "Cyd Okafor", 195)
	ada.Limits, cy.Archived = "left knee: no more than 40 balls", true
	students := []model.Student{ada, student("bo", "Bo Winter", 172), cy}
	return &fakeReader{
		students: students,
		evenings: []model.Kept{
			{Session: week, Students: students, Up: model.Up{Lane: 7}},
			{Session: yesterday, Students: students[:1], Up: model.Up{Lane: 1}},
		},
		left: map[model.ID]model.Left{
			"ada": {At: week.At, Seat: model.Seat{
				Student: "ada", Lane: 7, Focus: "quiet head", Homework: "10 pin, 3 times 10",
				Aimed: [2]model.Line{{Arrows: model.Known(17.), Slide: model.Known(34.)}},
			}},
		},
	}
}

func TestNoEvening(t *testing.T) {
	d := startApp(t, weeklyReader())
	d.says("Type the lanes below", "then = begins one like an earlier one")
	d.press("<esc>").says("n   begins one", "=   begins one like", "E   lists the evenings", "s   is for the students' records",
		"c for the book of cues", "g   goes over", "q   leaves")
	for key, title := range map[string]string{"s": d.student.title(), "c": d.cues.title()} {
		d.show()
		d.App.screen = d.session
		if d.press(key); d.screen.title() != title {
			t.Errorf("%s turns to %s", key, d.screen.title())
		}
	}
}

func TestSameAgain(t *testing.T) {
	t.Run("it asks first, and any other key begins nothing", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("<esc>=")
		d.says("same as Wednesday 25 February, Parkside, 3 students? y begins it")
		if d.press("<nul>y"); d.evening != nil {
			t.Error("begun without being asked")
		}
	})
	t.Run("arranged as then, without who is no longer there", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("<esc>=y")
		d.says("begun as on Wednesday 25 February, without Cyd Okafor", "Parkside", "pairs 7/8  9/10", "oil: 41 ft, house")
		var got []string
		for _, seat := range d.evening.Seats() {
			got = append(got, fmt.Sprint(seat.Student, " ", seat.Lane, " ", seat.Order, " ", seat.Alternate, seat.Cue, seat.Focus))
		}
		if diff := cmp.Diff([]string{"ada 7 1 true", "bo 8 2 true"}, got); diff != "" {
			t.Error(diff)
		}
		if d.screen != screen(d.session) || !d.evening.Session().At.Equal(testTime) {
			t.Error(d.show())
		}
		if _, kept := d.recorder.records[d.evening.Session().Ref()]; !kept {
			t.Error("it is not kept")
		}
		d.press("<esc>x")
		if diff := cmp.Diff([]string{"Ada Marsh 1.1 10 AAAA"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
		d.press("e=").says("an evening is open: x closes it first")
	})
	t.Run("where there is none", func(t *testing.T) {
		startApp(t, &fakeReader{}).press("<esc>=").says("no earlier evening is kept: n begins one")
	})
	t.Run("where they cannot be read", func(t *testing.T) {
		reader := weeklyReader()
		d := startApp(t, reader).press("<esc>")
		reader.err = errors.New("damaged")
		d.press("=").says("the evenings cannot be read: damaged")
		d.press("E").says("the evenings cannot be read: damaged")
	})
}

func TestWhatWasLeft(t *testing.T) {
	words := "last time, 25 February: 10 pin, 3 times 10 (homework); quiet head (focus)"
	t.Run("at a new evening, as the students come", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("7<enter>ada marsh<enter>")
		d.says(words, "Ada Marsh !")
		d.silent("knee")
	})
	t.Run("at an evening like an earlier one", func(t *testing.T) {
		startApp(t, weeklyReader()).press("<esc>=y").says(words, "Ada Marsh !")
	})
	t.Run("at the foot for the one marked where there is no room", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("7<enter>bo winter<enter>ada marsh<enter>")
		for i := range 10 {
			d.press(fmt.Sprintf("Guest %c<enter>", 'A'+i))
		}
		d.press("<enter>e")
		d.send(sizeMsg(60, 16))
		d.silent("last time")
		d.press("<down>").says("last time, 25 February", "▶ 7/8", "Ada Marsh !")
		for range 10 {
			d.press("<down>")
			d.says("Guest")
			d.silent("last time")
		}
	})
	t.Run("limits only on their key, until the next", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("<esc>=yI")
		d.says("Ada Marsh: limits: left knee: no more than 40 balls")
		d.press("<down>").silent("knee")
		d.press("I").says("nothing noted for Bo Winter")
	})
	t.Run("once a student", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("<esc>=y")
		n := 0
		for _, msg := range d.press("<down><up>r").seen {
			if _, ok := msg.(leftMsg); ok {
				n++
			}
		}
		if n != 2 {
			t.Errorf("read %d times", n)
		}
	})
	t.Run("that of an evening turned away from is passed over", func(t *testing.T) {
		d := startApp(t, weeklyReader()).press("<esc>=y")
		d.send(leftMsg{session: "week", student: "bo", found: true, left: model.Left{Seat: model.Seat{Focus: "elsewhere"}}})
		d.silent("elsewhere")
		d.send(leftMsg{session: d.evening.Session().ID, student: "bo", err: errors.New("damaged")})
		d.says("what was left of Bo Winter last time cannot be read: damaged")
	})
}

func TestTheMarked(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172", "Cy 90", "Di 190").press("e<down>")
	seat := func(name string) model.Seat {
		for _, s := range d.evening.Seats() {
			if d.evening.Label(s.Student) == name {
				return s
			}
		}
		t.Fatalf("%s has no seat", name)
		return model.Seat{}
	}
	for _, c := range []struct {
		keys, words string
		holds       func(s model.Seat) bool
	}{
		{"fquiet head<enter>", "focus: quiet head", func(s model.Seat) bool { return s.Focus == "quiet head" }},
		{"f<enter>", "tonight's focus of Bo taken off", func(s model.Seat) bool { return s.Focus == "" }},
		{"wb t<enter>", "watching balance, target", func(s model.Seat) bool { return s.Watched.String() == "balance, target" }},
		{"wsmile<enter>", "is no axis", func(s model.Seat) bool { return s.Watched.Has(model.Balance) }},
		{"<esc>w<enter>", "watched otherwise", func(s model.Seat) bool { return s.Watched == 0 }},
		{"v", "Bo  out", func(s model.Seat) bool { return s.Out }},
		{"v", "Bo is back in the rotation", func(s model.Seat) bool { return !s.Out }},
		{"W", "Bo goes to lane 7", func(s model.Seat) bool { return s.Lane == 7 }},
		{"t", "Bo stays on lane 7", func(s model.Seat) bool { return !s.Alternate }},
		{"P10<enter>", "Bo goes to lane 10", func(s model.Seat) bool { return s.Lane == 10 }},
		{"Px<enter>", "is no lane", func(s model.Seat) bool { return s.Lane == 10 }},
		{"<esc>u", "Bo bowls in place 2 on 9/10", func(s model.Seat) bool { return s.Order == 2 }},
	} {
		t.Run(c.keys, func(t *testing.T) {
			d.press(c.keys).says(c.words)
			if s := seat("Bo"); !c.holds(s) {
				t.Errorf("%+v", s)
			}
			if d.screen != screen(d.session) || d.session.marked != seat("Bo").Student {
				t.Errorf("the screen or the mark moved:\n%s", d.show())
			}
			same(t, d)
		})
	}
}

func TestBeginningForEveryone(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172", "Cy 90").press("e<down>v")
	d.press("G10 corner 10<enter>")
	for _, seat := range d.evening.Seats() {
		x, name := d.evening.Sheet(seat.Student), d.evening.Label(seat.Student)
		if drill := x != nil && x.Game.Kind == model.KindDrill && x.Game.Length == 10 && x.Game.Name == "corner"; drill == seat.Out {
			t.Errorf("%s, out %v: %+v", name, seat.Out, x)
		}
	}
	d.press("<bs>")
	for _, seat := range d.evening.Seats() {
		if x := d.evening.Sheet(seat.Student); x != nil {
			t.Errorf("one key does not take it back: %+v", x)
		}
	}
	d.press("Gnonsense<enter>")
	if d.prompt == nil || !d.status.refused {
		t.Error(d.show())
	}
	d.press("<esc><esc>@ada<enter>x").press("eGg<enter>").says("Ada")
	if d.prompt == nil || !d.status.refused {
		t.Errorf("an unfinished game is not in the way:\n%s", d.show())
	}
}

// TestNamesAreProposed: the names of those kept are shown while one is typed, and tab takes them.
func TestNamesAreProposed(t *testing.T) {
	reader := weeklyReader()
	reader.students = append(reader.students, model.Student{ID: "alan", Name: "Alan Marsh", Hand: model.RightHand})
	d := startApp(t, reader).press("7<enter>")
	d.silent("(tab:")
	d.press("a").says("(tab: Ada Marsh, Alan Marsh)")
	d.press("<tab>").says("Ada Marsh│", "(tab: Alan Marsh)")
	d.press("<tab>").says("Alan Marsh│", "(tab: Ada Marsh)")
	d.press("<tab><enter>")
	if seats := d.evening.Seats(); len(seats) != 1 || seats[0].Student != "ada" {
		t.Errorf("%+v", seats)
	}
	t.Run("not who is here, nor who is archived", func(t *testing.T) {
		d.press("marsh").says("(tab: Alan Marsh)")
		d.press("<ctrl+u>cyd").silent("(tab:")
	})
	t.Run("nothing is taken where nothing is proposed", func(t *testing.T) {
		d.press("<ctrl+u>zed<tab>").says("zed│")
	})
	t.Run("a line stays a line in the narrowest window", func(t *testing.T) {
		d.send(sizeMsg(minWidth, minHeight))
		d.press("<ctrl+u>al").says("al│", "(tab: Alan Marsh)")
		d.press(strings.Repeat("w", 60))
		filled(t, d, minWidth, minHeight)
	})
}

func TestEveningScreens(t *testing.T) {
	for name, keys := range map[string]string{
		"evening-none": "<esc>", "evening-left": "<esc>=yfstill head<enter>wbt<enter>m1600<enter>jleague night<enter>J15<enter>",
		"evening-list": "<esc>=yE<down>", "evening-names": "7<enter>a",
	} {
		for _, s := range [][2]int{{60, 16}, {80, 24}, {100, 30}, {160, 50}} {
			t.Run(fmt.Sprintf("%s %dx%d", name, s[0], s[1]), func(t *testing.T) {
				d := startApp(t, weeklyReader()).press(keys)
				d.send(sizeMsg(s[0], s[1]))
				golden(t, fmt.Sprintf("%s_%dx%d", name, s[0], s[1]), d.View())
			})
		}
	}
}

// TestEveningAtEverySize draws the screen and the list at every size, also with names and texts that are hard to draw.
func TestEveningAtEverySize(t *testing.T) {
	hard := weeklyReader()
	long := strings.Repeat("東京 é́ w", 8)
	hard.students[0].Name, hard.students[1].Name = "An Exceptionally Long Name "+long[:20], long
	hard.evenings[0].Session.Place, hard.evenings[0].Session.PatternKind = long, long[:40]
	hard.left["bo"] = model.Left{At: testTime, Seat: model.Seat{Lane: 8, Focus: strings.Repeat("quiet 東京 head ", 12)}}
	for name, open := range map[string]func() *appTest{
		"evening": func() *appTest {
			return startApp(t, hard).press("<esc>=yj" + strings.Repeat("league ", 8) + "<enter><down>")
		},
		"list":     func() *appTest { return startApp(t, hard).press("<esc>=yE") },
		"no place": func() *appTest { return startApp(t, manyEvenings(60)).press("<esc>E<end>") },
		"names":    func() *appTest { return startApp(t, hard).press("7<enter>a") },
		"question": func() *appTest { return startApp(t, hard).press("<esc>=") },
	} {
		t.Run(name, func(t *testing.T) {
			d := open()
			for w := minWidth; w <= 200; w += 1 + w/40 {
				for h := minHeight; h <= 60; h += 1 + h/20 {
					d.send(sizeMsg(w, h))
					filled(t, d, w, h)
					if d.session.earlier != nil || d.evening != nil && len(d.evening.Seats()) > 0 && d.prompt == nil {
						d.says("▶")
					}
				}
			}
		})
	}
}
