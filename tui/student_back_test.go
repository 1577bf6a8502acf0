package tui

import (
	"testing"

	"coach.settee/model"
)

// TestStudentTakesBackRecordsOnly: backspace and U on the record take back and do again no ball.
func TestStudentTakesBackRecordsOnly(t *testing.T) {
	d := onBoard(t, "Ada 120", "Bo 172").press("s").on("focus").press("<enter>quiet head<enter>")
	d.press("<esc>x@ada<enter>s")
	n := len(d.recorder.steps)
	d.press("<bs>").says("the last action is a call: backspace on the board takes it back")
	if !d.status.refused || len(d.recorder.steps) != n || d.evening.Load("id2") != 1 {
		t.Error("a ball is taken back")
	}
	d.press("<esc><bs>s<bs>").says("taken back: Ada: focus quiet head")
	d.press("U").says("done again: Ada: focus quiet head")
	d.press("U").says("what was taken back last is a call: U on the board does it again")
	if d.evening.Load("id2") != 0 {
		t.Error("a ball is done again")
	}
	d.send(sizeMsg(120, 30))
	d.press("<esc>er<esc>s<bs>").says("backspace on the board takes it back")
	if !d.status.refused {
		t.Error(d.show())
	}
	t.Run("a place", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("V@ada<enter>s<bs>").says("taken back: Ada is out of the rotation")
		if seat, _ := d.evening.SeatOf("id2"); seat.Out {
			t.Error("out")
		}
	})
	t.Run("nor on the book of cues", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("xc<bs>").says("nothing to take back: nothing was changed here")
		if d.evening.Load("id2") != 1 {
			t.Error("a ball is taken back")
		}
	})
}

// TestStudentWhoHasBowledStays: a refused taking back leaves what can be taken back as it was, whatever else the change was of.
func TestStudentWhoHasBowledStays(t *testing.T) {
	reader := &fakeReader{students: []model.Student{{ID: "ada", Name: "Ada", Hand: model.RightHand}}, left: map[model.ID]model.Left{}}
	d := startApp(t, reader).press("<esc>s")
	ada := d.students["ada"]
	focused, bo := ada, model.Student{ID: "bo", Name: "Bo", Hand: model.RightHand}
	focused.Focus = "quiet head"
	step, err := d.desk.ChangeAll([]model.Change{{Ref: ada.Ref(), Before: ada, After: focused}, {Ref: bo.Ref(), After: bo}}, "both")
	if err := d.done(step, err); err != nil {
		t.Fatal(err)
	}
	d.idle()
	reader.left["bo"] = model.Left{}
	d.press("<bs>").says("Bo has been in an evening since: A archives instead").silent("has changed since")
	delete(reader.left, "bo")
	d.press("<bs>").says("taken back: both")
}
