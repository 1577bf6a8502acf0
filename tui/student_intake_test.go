package tui

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

func TestStudentIntake(t *testing.T) {
	all := model.Intake{
		On: "2026-03-04", Motion: model.Swing, Direction: model.Inward, HandAt: model.Beside, Timing: model.Late,
		Learns: model.Feeling, Hurts: "left knee",
	}
	for _, c := range []struct {
		name, keys string
		was        model.Student
		intake     model.Intake
		limits     string
	}{
		{"a key a question, and what hurts becomes a limit", "isisslf" + "left knee<enter>", model.Student{}, all, "left knee"},
		{"limits that are kept stay", "isisslf" + "left knee<enter>", model.Student{Limits: "no jumps"}, all, "no jumps"},
		{"enter and space skip", "it<enter>o h<enter>", model.Student{},
			model.Intake{On: "2026-03-04", Motion: model.Throw, HandAt: model.Over, Learns: model.Hearing}, ""},
		{"back to the question before", "it<bs>ms<bs><enter>be <enter>", model.Student{},
			model.Intake{On: "2026-03-04", Motion: model.Mixed, HandAt: model.Behind, Timing: model.Early}, ""},
		{"only what hurts", "i     wrist<enter>", model.Student{}, model.Intake{On: "2026-03-04", Hurts: "wrist"}, "wrist"},
		{"another one takes the place of the first", "isssos<enter>", model.Student{Intake: all},
			model.Intake{On: "2026-03-04", Motion: model.Swing, Direction: model.Straight, HandAt: model.Beside, Timing: model.OnTime,
				Learns: model.Seeing}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.was.Name = "Bo"
			d := recordOf(t, c.was).press(c.keys)
			if diff := cmp.Diff(c.intake, d.record().Intake); diff != "" {
				t.Error(diff)
			}
			if got := d.record().Limits; got != c.limits {
				t.Errorf("limits %q, want %q", got, c.limits)
			}
			if len(d.recorder.steps) != 1 {
				t.Errorf("%d steps", len(d.recorder.steps))
			}
			d.press("<bs>").says("taken back: Bo: intake")
			if diff := cmp.Diff(c.was.Intake, d.record().Intake); diff != "" {
				t.Error(diff)
			}
		})
	}
	for name, keys := range map[string]string{
		"esc drops it": "is<esc>", "esc at what hurts drops all": "isisslf" + "knee<esc>", "nothing answered": "i     <enter>",
	} {
		t.Run(name, func(t *testing.T) {
			d := recordOf(t, model.Student{Name: "Bo"}).press(keys)
			if len(d.recorder.steps) != 0 {
				t.Error("something was kept")
			}
			d.says("▶ name              Bo")
		})
	}
	t.Run("another screen's letter is no way out", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo"}).press("isg").says("the intake is being asked", "▶ direction")
		d.press("k").says("k has no meaning here", "▶ direction")
	})
	t.Run("every question says what it means, and every answer", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo"}).press("i")
		d.send(sizeMsg(60, 16))
		for _, q := range intakeQuestions {
			d.says("▶ "+q.name, q.means)
			for _, a := range q.answers {
				d.says(a.key+" "+a.word, a.means)
			}
			d.press("<enter>")
		}
		d.says("what hurts, in words (empty: nothing)")
	})
	t.Run("enter on the intake's row asks it", func(t *testing.T) {
		recordOf(t, model.Student{Name: "Bo"}).press("<end><enter>").says("▶ motion")
	})
	t.Run("the help says what swing and throw go by", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo"}).press("?<end>")
		d.send(sizeMsg(160, 50))
		d.says("about 70% of the effort comes from the legs", "more than half", "near 90%")
	})
}

// Others read the screen: what limits, notes and an intake say is shown on a key only, and gone with the next.
func TestStudentPrivate(t *testing.T) {
	const limits, notes, hurts = "left knee", "shy of crowds", "sore wrist"
	for name, d := range map[string]*appTest{
		"at the desk":    recordOf(t, model.Student{Name: "Bo"}),
		"in the evening": onBoard(t, "Bo 172").press("s"),
	} {
		t.Run(name, func(t *testing.T) {
			hidden := func() {
				t.Helper()
				for _, size := range sizes {
					d.send(sizeMsg(size.w, size.h))
					for _, text := range []string{limits, notes, hurts} {
						d.silent(text)
					}
				}
			}
			d.on("limits").press("<enter>" + limits + "<enter>")
			hidden()
			d.says("limits            set: I shows it", limitCaution)
			d.on("notes").press("<enter>" + notes + "<enter>")
			hidden()
			d.press("isisslf" + hurts + "<enter>")
			hidden()
			d.press("<end>")
			if words := strings.Join(strings.Fields(d.show()), " "); !strings.Contains(words, "what hurts is set: I shows it") {
				t.Error(words)
			}
			d.press("I").says(limits, notes, hurts, "any key hides it", limitCaution)
			d.press("<down>")
			hidden()
			d.press("<bs>")
			hidden()
			d.press("<bs><bs>")
			hidden()
			d.press("U")
			hidden()
		})
	}
	t.Run("that of the field marked comes first where not all fits", func(t *testing.T) {
		d := recordOf(t, model.Student{Name: "Bo", Limits: strings.Repeat("slow ", 200), Notes: notes})
		d.send(sizeMsg(60, 16))
		d.press("I").says("slow slow", "more: mark the field")
		d.silent(notes)
		d.on("notes").press("I").says(notes)
	})
	t.Run("nothing to show", func(t *testing.T) {
		recordOf(t, model.Student{Name: "Bo"}).press("I").says("no limits, no notes, and nothing that hurts")
	})
}
