package tui

import (
	"fmt"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"coach.settee/model"
)

// recordOf starts the app without an evening on students who are kept, on the record of the first by name.
func recordOf(t *testing.T, students ...model.Student) *appTest {
	t.Helper()
	for i := range students {
		students[i].ID = model.ID(fmt.Sprintf("s%d", i+1))
		if students[i].Hand == "" {
			students[i].Hand = model.RightHand
		}
	}
	return startApp(t, &fakeReader{students: students}).press("<esc>s")
}

// on marks a field by its name.
func (d *appTest) on(field string) *appTest {
	d.t.Helper()
	for i, f := range d.student.fields {
		if f.Name == field {
			d.press("<home>" + strings.Repeat("<down>", i))
			return d
		}
	}
	d.t.Fatalf("no field %q", field)
	return d
}

// record gives the record shown, as it is on the test's disk.
func (d *appTest) record() model.Student {
	d.t.Helper()
	s, ok := d.recorder.records[model.Ref{Kind: model.StudentRecord, ID: d.student.student}].(model.Student)
	if !ok {
		d.t.Fatal("no record of the student shown was kept")
	}
	return s
}

func TestStudentOpens(t *testing.T) {
	t.Run("from the board on the student up", func(t *testing.T) {
		onBoard(t, "Ada 120", "Bo 172").press("<tab>s").says("Student", "▶ name              Bo", "here on 7/8")
	})
	t.Run("from the board on the student of the delivery that is open", func(t *testing.T) {
		onBoard(t, "Ada 120", "Bo 172").press("x@bo<enter>,s").says("▶ name              Ada")
	})
	t.Run("from Evening on the student marked", func(t *testing.T) {
		onBoard(t, "Ada 120", "Bo 172").press("e<down>s").says("▶ name              Bo")
	})
	t.Run("from Strip and Line on theirs", func(t *testing.T) {
		onBoard(t, "Ada 120", "Bo 172").press("g<tab>s").says("▶ name              Bo")
		d := onBoard(t, "Ada 120", "Bo 172").press("y<tab>")
		d.App.show(d.student)
		d.says("▶ name              Bo")
	})
	t.Run("without an evening on the first by name", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Cy"}, model.Student{Name: "Bo"})
		d.says("▶ name              Bo").press("<right>").says("▶ name              Cy")
		d.press("<right>").says("▶ name              Bo")
		d.press("<left>").says("▶ name              Cy")
		d.press("<esc>").says("No evening is on the board")
	})
	t.Run("where nobody is kept it says what to do", func(t *testing.T) {
		d := startApp(t, &fakeReader{}).press("<esc>s")
		d.says("No student is kept yet", "n   takes one in")
		for _, key := range []string{"<down>", "<enter>", "<right>", "/", "i", "I", "O", "A"} {
			d.press(key).says("no student is kept yet: n takes one in")
		}
		d.press("nAda 120 l<enter>").says("▶ name              Ada")
		if s := d.record(); s.Hand != model.LeftHand || s.Average != model.Known(120) {
			t.Errorf("%+v", s)
		}
	})
}

func TestStudentField(t *testing.T) {
	t.Run("begins with what it is, and what is refused stays and says why beside it", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("s").on("entering average").press("<enter>")
		d.says("entering average of Ada: 120│")
		d.press("0<enter>").says("120  an average of 1200: averages are 0 to 300", "entering average of Ada: 1200│")
		d.press("<bs>")
		d.silent("averages are 0 to 300")
		d.press("<bs>5<enter>").says("entering average  125", "last: Ada: entering average 125")
		if s := d.record(); s.Average != model.Known(125) || d.evening.Student(s.ID).Average != model.Known(125) {
			t.Errorf("%+v", s)
		}
	})
	t.Run("left as it was changes nothing", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("s")
		n := len(d.recorder.steps)
		d.press("<enter><enter>").says("name is as it was")
		d.press("<enter>x<esc>").says("dropped", "▶ name              Ada")
		if len(d.recorder.steps) != n {
			t.Error("something was kept")
		}
	})
	t.Run("empty takes it off", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo", Focus: "slow feet"}).on("focus")
		d.press("<enter><ctrl+u><enter>").says("Bo: focus taken off")
		if s := d.record(); s.Focus != "" {
			t.Errorf("%q", s.Focus)
		}
	})
	t.Run("weights that do not sum to 100 are refused", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo"}).on("weights")
		d.press("<enter>30 30 30 30<enter>").says("100")
		if len(d.recorder.steps) != 0 || d.prompt == nil {
			t.Error("it was taken")
		}
	})
	t.Run("a call begun is in the way of what changes it", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("bs").on("weights").press("<enter>25 25 25 25<enter>")
		d.says("Ada")
		if d.prompt == nil || !d.status.refused || d.evening.Student(d.student.student).Weights != (model.Weights{}) {
			t.Error("it was taken")
		}
	})
	t.Run("pages, ends and the wheel", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo"}).press("<end>")
		d.says("▶ intake            not taken yet: i asks")
		d.press("<up><down><down>").says("▶ intake")
		d.press("<home>").says("▶ name")
		d.press("<pgdown><pgup>").says("▶ name")
		d.send(tea.MouseMsg{Action: tea.MouseActionPress, Button: tea.MouseButtonWheelDown})
		d.says("▶ hand")
		d.send(tea.MouseMsg{Action: tea.MouseActionPress, Button: tea.MouseButtonWheelUp})
		d.says("▶ name")
	})
}

func TestStudentTakesBack(t *testing.T) {
	t.Run("in the evening what changed a record", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("xs").on("focus").press("<enter>quiet<enter>")
		d.press("<bs>").says("taken back: Bo: focus quiet", "focus             -")
		d.press("U").says("done again: Bo: focus quiet", "focus             quiet")
		d.press("<bs><bs>").says("the last action is a call: backspace on the board takes it back")
	})
	t.Run("at the desk, and turns to whose it was", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo"}, model.Student{Name: "Cy"}).on("focus").press("<enter>quiet<enter>")
		d.press("<right><bs>").says("taken back: Bo: focus quiet", "  Bo  new")
		if s := d.record(); s.Focus != "" {
			t.Errorf("%q", s.Focus)
		}
		d.press("<right>U").says("done again: Bo: focus quiet", "  Bo  new", "focus             quiet")
		d.press("<bs><bs>").says("nothing to take back")
	})
	t.Run("not for one who has come to the evening since", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo"}, model.Student{Name: "Cy"}).on("focus").press("<enter>quiet<enter><esc>")
		d.conf.NewID = func() model.ID { return "tonight" }
		d.press("n7<enter>Bo<enter><enter>s").says("here on 7/8")
		d.press("/cy<enter><bs>").says("Bo has changed since")
		if s := d.evening.Student("s1"); s.Focus != "quiet" {
			t.Errorf("%q", s.Focus)
		}
	})
	t.Run("a new one, unless there was an evening since", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo"}).press("nCy<enter>")
		id := d.student.student
		d.reader.left = map[model.ID]model.Left{id: {}}
		d.press("<bs>").says("Cy has been in an evening since: A archives instead", "  Cy  new")
		delete(d.reader.left, id)
		d.press("<bs>").says("taken back: new student: Cy", "  Bo  new")
		if _, there := d.students[id]; there {
			t.Error("Cy is there")
		}
		d.press("U").says("done again: new student: Cy", "  Cy  new")
	})
	t.Run("the evening just closed has the record as it became", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("x")
		onDisk := keptEvening(d)
		d.closed, d.evening = d.evening, nil
		d.App.show(d.student)
		onDisk.Students[0].Focus = "quiet"
		d.reader.evenings = []model.Kept{onDisk}
		d.on("focus").press("<enter>quiet<enter>")
		if s := d.closed.Student(d.student.student); s.Focus != "quiet" {
			t.Errorf("%q", s.Focus)
		}
	})
}
