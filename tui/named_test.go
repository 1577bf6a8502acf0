package tui

import (
	"strings"
	"testing"

	"coach.settee/model"
)

// marshes has four students of one name, some of them as good as alike, and another.
func marshes() *fakeReader {
	right, left := model.RightHand, model.LeftHand
	return &fakeReader{students: []model.Student{
		{ID: "01KM0HGF", Name: "Ada Marsh", Hand: right, Average: model.Known(165)},
		{ID: "01KM0HGG", Name: "Ada Marsh", Hand: left, Average: model.Known(165)},
		{ID: "01KM0HGH", Name: "Ada Marsh", Hand: right, Average: model.Known(172)},
		{ID: "01KM0HGJ", Name: "Ada Marsh", Hand: left, Average: model.Known(165)},
		{ID: "01KM0HGK", Name: "Bo", Hand: right},
	}}
}

// whereSeated opens each prompt that takes a student into the evening.
func whereSeated(t *testing.T) map[string]func() *appTest {
	start := func(keys string) func() *appTest {
		return func() *appTest {
			d := startApp(t, marshes()).press("7<enter>" + keys)
			d.send(sizeMsg(150, 30))
			return d
		}
	}
	return map[string]func() *appTest{"roster": start(""), "board": start("<enter>A"), "evening": start("<enter>ea")}
}

// TestLabelSeats: at every prompt the label seats the one who is labelled so, and so does what tab proposes.
func TestLabelSeats(t *testing.T) {
	for where, open := range whereSeated(t) {
		for _, s := range marshes().students {
			label := open().labelOf(s.ID)
			for _, typed := range []string{label, strings.ToUpper(label), strings.ToLower(label)} {
				d := open().press(typed + "<enter>")
				if seats := d.evening.Seats(); len(seats) != 1 || seats[0].Student != s.ID || len(d.students) != 5 {
					t.Errorf("%s: %s seats %+v\n%s", where, typed, seats, d.show())
				}
			}
		}
		seated := map[model.ID]bool{}
		for n := range 4 {
			d := open().press("ada" + strings.Repeat("<tab>", n+1) + "<enter>")
			if seats := d.evening.Seats(); len(seats) != 1 || len(d.students) != 5 {
				t.Errorf("%s: proposal %d seats %+v\n%s", where, n, seats, d.show())
			} else {
				seated[seats[0].Student] = true
			}
		}
		if len(seated) != 4 {
			t.Errorf("%s: the four proposals seat %v", where, seated)
		}
	}
}

// TestLabelRefused: what names nobody, or several, says who there is; a label makes no student with a part of it in the name,
// and who is meant as a new one is made by entering it again.
func TestLabelRefused(t *testing.T) {
	for where, open := range whereSeated(t) {
		for _, c := range []struct{ line, words, made string }{
			{"ada marsh", "that may be Ada Marsh #0HGF or Ada Marsh #0HGG or Ada Marsh 172 or 1 more; enter again makes a new ada marsh", "ada marsh"},
			{"Ada Marsh 165 l", "that may be Ada Marsh #0HGG or Ada Marsh #0HGJ; enter again makes a new Ada Marsh", "Ada Marsh"},
			{"Ada Marsh 190", "none of that name is so: Ada Marsh #0HGF or", "Ada Marsh"},
			{"Ada Marsh #ZZZZ", "none of that name is so: Ada Marsh #0HGF or", ""},
			{"Bo left-handed", "none of that name is so: Bo; enter again makes a new Bo", "Bo"},
			{"Cy left-handed", "nobody is called Cy; enter again makes a new Cy", "Cy"},
			{"Cy #0HGF", "leave it out for a new Cy", ""},
			{"Cy #1 Ash", "# or a hand in the name?", "Cy #1 Ash"},
		} {
			d := open().press(c.line + "<enter>").says(c.words)
			if len(d.students) != 5 || len(d.evening.Seats()) != 0 {
				t.Errorf("%s: %s is taken unasked", where, c.line)
			}
			d.press("<enter>")
			seats := d.evening.Seats()
			switch {
			case c.made == "" && len(seats) > 0:
				t.Errorf("%s: %s makes a student", where, c.line)
			case c.made != "" && (len(seats) != 1 || len(d.students) != 6 || d.students[seats[0].Student].Name != c.made):
				t.Errorf("%s: %s entered again makes %+v\n%s", where, c.line, seats, d.show())
			}
		}
		d := open().press("Bo<enter>")
		if where == "board" {
			d.press("A")
		}
		d.press("Bo 120<enter>").says("Bo is here already; enter again makes a new Bo").press("<enter>")
		if len(d.evening.Seats()) != 2 || len(d.students) != 6 {
			t.Errorf("%s: no second Bo\n%s", where, d.show())
		}
	}
}

// TestLabelFinds: the label turns to the one who is labelled so, on every screen that asks for a name.
func TestLabelFinds(t *testing.T) {
	d := startApp(t, marshes()).press("7<enter>")
	var labels []string
	for _, s := range marshes().students {
		labels = append(labels, d.labelOf(s.ID))
		d.press(d.labelOf(s.ID) + "<enter>")
	}
	d.press("<enter>")
	for i, s := range marshes().students {
		for screen, keys := range map[string]string{"the find": "s/", "the board": "<esc>@"} {
			d.press("<esc>" + keys + labels[i] + "<enter>")
			got := d.evening.UpStudent()
			if screen == "the find" {
				got = d.student.student
			}
			if got != s.ID {
				t.Errorf("%s: %s is %s, want %s\n%s", screen, labels[i], got, s.ID, d.show())
			}
		}
		d.press("<esc>y@" + labels[i] + "<enter>")
		if d.line.student != s.ID {
			t.Errorf("the line: %s is %s", labels[i], d.line.student)
		}
		d.press("<esc>g@" + labels[i] + "<enter>")
		if d.strip.student != s.ID {
			t.Errorf("the strip: %s is %s", labels[i], d.strip.student)
		}
		d.press("<esc>e@" + labels[i] + "<enter>")
		if d.session.marked != s.ID {
			t.Errorf("the evening: %s is %s", labels[i], d.session.marked)
		}
	}
	d.press("<esc>s/ada m 172").says("▶ Ada Marsh 172", "1 of 5").press("<ctrl+u>ada").says("4 of 5")
	d.press(" #0hgj").says("▶ Ada Marsh #0HGJ", "1 of 5")
	d.press("<esc><esc>@ada m<enter>").says("may be Ada Marsh #0HGF or Ada Marsh #0HGG or Ada Marsh 172 or")
}

// TestNewOfTheSameName: on the Student screen a second one of a name and average is made by entering it again, and the two
// are told apart from then on.
func TestNewOfTheSameName(t *testing.T) {
	d := startApp(t, marshes()).press("<esc>sn")
	d.send(sizeMsg(150, 30))
	d.press("Ada Marsh #0HGF<enter>").says("leave it out for a new Ada Marsh").press("<ctrl+u>")
	d.press("Bo left-handed<enter>").says("Bo is kept: esc and / find that name; enter again makes a new Bo").press("<enter>")
	if made := d.record(); made.Name != "Bo" || made.Hand != model.LeftHand {
		t.Errorf("%+v", made)
	}
	d.says("Bo left-handed").press("/bo").says("Bo left-handed", "Bo right-handed")
}
