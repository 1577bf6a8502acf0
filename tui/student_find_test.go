package tui

import (
	"fmt"
	"strings"
	"testing"

	"coach.settee/model"
)

func TestStudentFind(t *testing.T) {
	t.Run("of 500 by a few letters, a list that follows each letter", func(t *testing.T) {
		students := make([]model.Student, 500)
		for i := range students {
			students[i].Name = fmt.Sprintf("%c%c Student%d", 'A'+i%16, 'a'+i/16%16, i)
		}
		students[321].Name = "Ximena Quist"
		d := recordOf(t, students...).press("/")
		d.says("500 of 500", "find: │")
		d.press("q").says("1 of 500", "▶ Ximena Quist")
		d.press("z").says("0 of 500", "nobody fits").press("<enter>").says("nobody fits: fewer letters")
		d.press("<bs><enter>").says("▶ name              Ximena Quist")
		d.press("fqu<esc>").says("dropped", "▶ name              Ximena Quist")
	})
	t.Run("the arrows choose, and begin at the student shown", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Ada"}, model.Student{Name: "Bo"}, model.Student{Name: "Cy"}).press("<right>/")
		d.says("▶ Bo").press("<down><down>").says("▶ Cy").press("<pgup><down>").says("▶ Bo")
		d.press("<down><enter>").says("▶ name              Cy")
	})
	t.Run("two of the same name are told apart", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Ada", Average: model.Known(120)}, model.Student{Name: "Ada", Average: model.Known(172)})
		d.says("  Ada 120  developing").press("<enter>").says("name of Ada 120: Ada│").press("<esc>")
		d.press("/ada").says("▶ Ada 120", "  Ada 172").press("<down><enter>").says("  Ada 172  regular")
		d.on("focus").press("<enter>quiet<enter>").says("Ada 172: focus quiet")
	})
	t.Run("of a long name what tells it apart is shown", func(t *testing.T) {
		long := "Anne-Marie Thornquill-Okkendale of Pellanor"
		d := recordOf(t, model.Student{Name: long, Hand: model.RightHand}, model.Student{Name: long, Hand: model.LeftHand}).press("/")
		d.says("▶ Anne-Mar", "… left-handed", "… right-handed")
	})
	t.Run("who is here, who is a minor", func(t *testing.T) {
		d := onBoard(t, "Ada 120", "Bo 172").press("s").on("minor").press("<enter><ctrl+u>yes<enter>")
		d.says("  Ada  minor").press("/")
		for _, line := range strings.Split(d.App.View(), "\n") {
			if strings.Contains(line, "Ada") && strings.Contains(line, "▶") && !strings.Contains(line, "on 7/8  minor") {
				t.Error(line)
			}
		}
		d.says("on 7/8  minor")
	})
}

func TestStudentNew(t *testing.T) {
	t.Run("is turned to, and seated nowhere", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("snCyd Okafor 195 l<enter>")
		d.says("new student: Cyd Okafor", "  Cyd Okafor  advanced", "hand              left")
		if len(d.evening.Seats()) != 1 || d.record().Average != model.Known(195) {
			t.Error("the evening changed, or the average is lost")
		}
	})
	t.Run("of a name that is kept only when enter is pressed again", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Ada", Average: model.Known(120)}).press("nada 172<enter>")
		d.says("Ada 120 is kept: esc and / find that name; enter again makes a new ada")
		d.press("<bs><bs>80<enter>").says("Ada 120 is kept").press("<enter>")
		d.says("  ada 180  regular")
	})
	t.Run("is refused in words", func(t *testing.T) {
		d := recordOf(t).press("nAda 400<enter>")
		d.says("an average of 400: averages are 0 to 300", "new student: name, average, l for left-handed: Ada 400│")
	})
}

func TestStudentArchive(t *testing.T) {
	t.Run("hides in lists, keeps, and is taken back", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Ada"}, model.Student{Name: "Bo"}, model.Student{Name: "Cy"}).press("<right>A")
		d.says("Bo is archived", "  Bo  archived")
		if !d.record().Archived {
			t.Error("it is not kept")
		}
		d.press("<left><right>").says("  Cy").press("/b").says("nobody fits")
		d.press("<tab>").says("▶ Bo", "archived too").press("<enter>").says("  Bo  archived")
		d.press("A").says("Bo is back from the archive")
		d.press("<bs>").says("taken back: Bo is back", "  Bo  archived")
	})
	t.Run("each search begins without them, and counts what it looks through", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Ada"}, model.Student{Name: "Bo", Archived: true}, model.Student{Name: "Cy"})
		d.press("/").says("2 of 2").press("<tab>").says("3 of 3").press("<esc>/").says("2 of 2", "tab: archived too")
		d.press("<esc>v/").says("2 of 2").press("<esc><right>").says("  Bo  archived")
		d.press("<right>A").says("Cy is archived: backspace takes it back, v lists it")
	})
	t.Run("v lists archived ones too", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Ada"}, model.Student{Name: "Bo", Archived: true}, model.Student{Name: "Cy"})
		d.press("<right>").says("  Cy").press("<right>v").says("archived students are listed too")
		d.press("<right>").says("  Bo  archived").press("v<right>").says("  Cy")
	})
	t.Run("where all are archived it says so", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo", Archived: true}).says("Every student is archived", "v   lists them too")
		d.press("<enter>").says("every student is archived: v lists them too").press("v").says("  Bo  archived")
	})
	t.Run("not one who is here, nor in another evening that is open", func(t *testing.T) {
		d := onBoard(t, "Ada 120").press("sA").says("Ada is here tonight: close the evening first")
		d.open, d.evening = []model.Session{d.evening.Session()}, nil
		d.press("A").says("Ada is in the evening of 4 March 2026, which is open")
		if d.students[d.student.student].Archived {
			t.Error("archived")
		}
	})
}
