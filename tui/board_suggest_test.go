package tui

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

func TestSuggestions(t *testing.T) {
	student := func(id model.ID, name string, average int) model.Student {
		return model.Student{ID: id, Name: name, Hand: model.RightHand, Average: model.Known(average)}
	}
	archived, another := student("s4", "Mona Grey", 150), student("s5", "Mona Grey", 170)
	archived.Archived, another.Archived = true, true
	start := func() *appTest {
		return startApp(t, &fakeReader{
			students: []model.Student{
				student("s1", "Ada Marsh", 120), student("s2", "Mo Lind", 160), student("s3", "Mo Lind", 180), archived, another,
			},
			cues: []model.Cue{{ID: "c1", Axis: model.Release, Text: "soft hand"}, {ID: "c2", Axis: model.Balance, Text: "tall and soft"}},
		}).press("7<enter>Ada Marsh<enter>Bo 172<enter><enter>@ada<enter>")
	}
	t.Run("cues of the book and of the evening", func(t *testing.T) {
		d := start().press("CSlow feet<enter>xCso")
		d.says("tab: soft hand, tall and soft")
		d.press("<tab><enter>x").press("Csl<tab><enter>x")
		want := []string{"Ada Marsh 1.1 10 AAAA Slow feet", "Bo 1.1 10 AAAA soft hand", "Ada Marsh 2.1 10 AAAA Slow feet"}
		if diff := cmp.Diff(want, d.spoken()); diff != "" {
			t.Error(diff)
		}
		if len(d.cues.book) != 2 {
			t.Error("a cue came into the book by itself")
		}
	})
	t.Run("what is typed holds where nothing is taken", func(t *testing.T) {
		d := start().press("Cso<enter>x")
		if diff := cmp.Diff([]string{"Ada Marsh 1.1 10 AAAA so"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("an empty line proposes nothing", func(t *testing.T) {
		start().press("C").silent("tab:")
	})
	t.Run("names of the evening", func(t *testing.T) {
		d := start().press("@b")
		d.says("tab: Bo")
		d.press("<tab><enter>x")
		if diff := cmp.Diff([]string{"Bo 1.1 10 AAAA"}, d.spoken()); diff != "" {
			t.Error(diff)
		}
	})
	t.Run("names that are kept and not here", func(t *testing.T) {
		d := start().press("Amo")
		d.says("tab: Mo Lind 160, Mo Lind 180")
		d.press("<tab><tab><enter>")
		if _, here := d.evening.SeatOf("s3"); !here {
			t.Error(d.show())
		}
		d.press("Aada").silent("tab:")
	})
	t.Run("who is archived stays so", func(t *testing.T) {
		d := start().press("Amona")
		d.silent("tab:")
		d.press(" grey<enter>")
		d.send(sizeMsg(140, 30))
		d.says("Mona Grey 150 or Mona Grey 170 is archived: s, Student, brings back; enter again makes a new mona grey")
		if !d.status.refused || len(d.evening.Seats()) != 2 {
			t.Error(d.show())
		}
	})
}
