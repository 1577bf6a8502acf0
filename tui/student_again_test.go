package tui

import "testing"

// TestStudentDoesAgainTheLast: U does again what was taken back last, of the evening or of the desk, whoever is shown, and
// nothing once something else is recorded at either.
func TestStudentDoesAgainTheLast(t *testing.T) {
	const nothing = "nothing to do again: nothing was taken back since"
	taken := func(t *testing.T) *appTest {
		d := onBoard(t, "Ada 180").press("s").on("focus").press("<enter>quiet head<enter><bs>")
		return d.says("taken back: Ada: focus quiet head")
	}
	t.Run("recorded at the desk, and that taken back", func(t *testing.T) {
		d := taken(t).press("nZed 100<enter><bs>").says("taken back: new student: Zed")
		d.press("U").says("done again: new student: Zed")
		d.press("U").says(nothing)
		if d.students["id2"].Focus != "" {
			t.Error("a focus of before is back")
		}
		d.press("<esc>U").says(nothing)
	})
	t.Run("recorded in the evening, on the board", func(t *testing.T) {
		d := onBoard(t, "Ada 180").press("snZed 100<enter><bs>").says("taken back: new student: Zed")
		d.press("<esc>xsU").says(nothing)
		if len(d.students) != 1 {
			t.Error("Zed is back")
		}
		d.press("<esc>cU").says(nothing)
	})
	t.Run("one after the other", func(t *testing.T) {
		d := onBoard(t, "Ada 180").press("s").on("focus").press("<enter>quiet head<enter>")
		d.press("nZed 100<enter><bs>").says("taken back: new student: Zed")
		d.press("<bs>").says("taken back: Ada: focus quiet head")
		d.press("U").says("done again: Ada: focus quiet head")
		d.press("U").says("done again: new student: Zed")
		d.press("<bs>").says("taken back: new student: Zed")
		d.press("<esc>xsU").says(nothing)
	})
	t.Run("the other's is shown", func(t *testing.T) {
		d := onBoard(t, "Ada 180").press("snZed 100<enter>/ada<enter>").on("focus").press("<enter>quiet head<enter><bs>")
		d.press("/zed<enter>U").says("done again: Ada: focus quiet head")
		if d.student.student != "id2" {
			t.Errorf("%s is shown", d.student.student)
		}
	})
}

// TestOnlyBehindTheName: where students have one name no letter of it tells them apart.
func TestOnlyBehindTheName(t *testing.T) {
	// The second of the name is entered again, which leaves the second pair asked for.
	d := onBoard(t, "Ada Marsh 120", "Ada Marsh 150", "Bo Marsh 180").press("<esc>")
	d.press("@ada<enter>").says("may be Ada Marsh 120 or Ada Marsh 150: add what tells them apart, or tab")
	d.press("<ctrl+u>marsh<enter>").says("Bo Marsh: a letter more")
	// Where nothing is proposed, tab is not spoken of.
	d.press("<esc>y@ada<enter>").says("Ada Marsh 150: add what tells them apart").silent("or tab")
}
