package tui

import (
	"testing"

	"coach.settee/model"
)

// kestrel has students who are kept, one of them archived.
func kestrel() *fakeReader {
	return &fakeReader{students: []model.Student{
		{ID: "mira", Name: "Mira Kestrel", Hand: model.RightHand, Average: model.Known(98)},
		{ID: "old", Name: "Odo Fenn", Hand: model.RightHand, Archived: true},
		{ID: "jan", Name: "Jan Ash", Hand: model.RightHand},
		{ID: "june", Name: "June Ash", Hand: model.RightHand, Average: model.Known(150)},
	}}
}

// TestNumberInNewcomersName: an average that is not read as one is asked about before it is part of a name.
func TestNumberInNewcomersName(t *testing.T) {
	const words = "a number in the name?"
	for _, line := range []string{"Bo;172", "Bo 172 left", "172 Bo", "Bo (172)"} {
		for name, open := range map[string]string{"roster": "7<enter>", "student's n": "<esc>sn"} {
			d := startApp(t, &fakeReader{}).press(open + line + "<enter>").says(words)
			if len(d.students) != 0 {
				t.Errorf("%s, %s: taken in unasked", line, name)
			}
			if d.press("<enter>"); len(d.students) != 1 {
				t.Errorf("%s, %s: not taken in\n%s", line, name, d.show())
			}
		}
	}
	for _, line := range []string{"Bo 172", "Bo 172 l", "Bo 2nd", "Bo2", "Bo,172", "Bo, 172, l"} {
		if d := startApp(t, &fakeReader{}).press("7<enter>" + line + "<enter>").silent(words); len(d.students) != 1 {
			t.Errorf("%s: not taken in\n%s", line, d.show())
		}
	}
}

// TestNewcomerMayBeKept: the beginning of a name that is kept makes no new student unasked.
func TestNewcomerMayBeKept(t *testing.T) {
	const words = "Mira Kestrel 98 is kept: tab takes that one; enter again makes a new mira"
	roster := func(keys string) func() *appTest {
		return func() *appTest {
			d := startApp(t, kestrel()).press("7<enter>" + keys)
			d.send(sizeMsg(120, 30))
			return d
		}
	}
	for name, open := range map[string]func() *appTest{
		"roster": roster(""), "board": roster("<enter>A"), "evening": roster("<enter>ea"),
	} {
		t.Run(name, func(t *testing.T) {
			d := open().press("mira<enter>").says(words)
			if !d.status.refused || len(d.evening.Seats()) != 0 {
				t.Error(d.show())
			}
			d.press("<tab><enter>")
			if _, seated := d.evening.SeatOf("mira"); !seated || len(d.students) != 4 {
				t.Errorf("tab does not take that one:\n%s", d.show())
			}
			d = open().press("mira<enter><enter>")
			if seats := d.evening.Seats(); len(seats) != 1 || seats[0].Student == "mira" {
				t.Errorf("%+v", seats)
			}
			d = open().press("mira<enter> 90<enter>").says("Mira Kestrel 98 is kept: the whole name takes that one; enter again")
			if len(d.evening.Seats()) != 0 {
				t.Error("another line is taken unasked")
			}
		})
	}
	for _, c := range []struct{ keys, words string }{
		{"kes<enter>", "Mira Kestrel 98 is kept"},
		{"ash<enter>", "Jan Ash and June Ash 150 are kept: tab takes one of them; enter again makes a new ash"},
		{"odo<enter>", "Odo Fenn is kept, archived: s, Student, brings back; enter again makes a new odo"},
		{"mira kestrel<enter>mira<enter>", "Mira Kestrel 98 is here already; enter again makes a new mira"},
		{"odo fenn<enter>", "Odo Fenn is archived"},
	} {
		t.Run(c.keys, func(t *testing.T) { roster(c.keys)().says(c.words) })
	}
	t.Run("no beginning of a word", func(t *testing.T) {
		if d := roster("ira<enter>")(); len(d.evening.Seats()) != 1 {
			t.Error(d.show())
		}
	})
	t.Run("student's n", func(t *testing.T) {
		d := startApp(t, kestrel()).press("<esc>snmira<enter>")
		d.send(sizeMsg(120, 30))
		d.says("Mira Kestrel 98 is kept: esc and / find that name; enter again makes a new mira")
		if len(d.students) != 4 {
			t.Error("taken in unasked")
		}
		if d.press("<enter>"); len(d.students) != 5 {
			t.Error(d.show())
		}
	})
}

// TestNewcomerTypedAsThePromptListsIt: a comma between the parts is no part of the name, on the roster and behind A.
func TestNewcomerTypedAsThePromptListsIt(t *testing.T) {
	for name, open := range map[string]string{"roster": "7<enter>", "A": "7<enter><enter>A", "student's n": "<esc>sn"} {
		d := startApp(t, &fakeReader{}).press(open).says("name, average, l")
		d.press("Cy, 150, l<enter>")
		if len(d.students) != 1 {
			t.Fatalf("%s:\n%s", name, d.show())
		}
		for _, s := range d.students {
			if s.Name != "Cy" || s.Average != model.Known(150) || s.Hand != model.LeftHand {
				t.Errorf("%s: %+v", name, s)
			}
		}
	}
}
