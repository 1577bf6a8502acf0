package model_test

import (
	"strings"
	"testing"
	"time"

	"coach.settee/model"
)

func TestTheStateOfTheLanes(t *testing.T) {
	zone := time.FixedZone("west", -5*3600)
	for name, c := range map[string]struct {
		set  func(*lesson, string) (model.Step, error)
		of   func(model.Session) any
		said map[string]string
		want map[string]any
		none any
		bad  []string
	}{
		"kind": {
			set:  func(l *lesson, text string) (model.Step, error) { return l.SetPatternKind(text) },
			of:   func(s model.Session) any { return s.PatternKind },
			said: map[string]string{" sport 2 ": "kind of pattern: sport 2", "": "kind of pattern taken off"},
			want: map[string]any{" sport 2 ": "sport 2"}, none: "",
			bad: []string{"two\nlines", strings.Repeat("é", 61)},
		},
		"before": {
			set:  func(l *lesson, text string) (model.Step, error) { return l.SetBefore(text) },
			of:   func(s model.Session) any { return s.Before },
			said: map[string]string{"a youth league": "bowled before: a youth league", "": "bowled before taken off"},
			want: map[string]any{"a youth league": "a youth league"}, none: "",
			bad: []string{"two\nlines", strings.Repeat("é", 61)},
		},
		"oiled": {
			set:  func(l *lesson, text string) (model.Step, error) { return l.SetOiled(text, zone) },
			of:   func(s model.Session) any { return s.Oiled },
			said: map[string]string{"12:30": "oiled on 2026-03-04 at 12:30", "": "when it was oiled taken off"},
			want: map[string]any{"12:30": time.Date(2026, 3, 4, 17, 30, 0, 0, time.UTC)}, none: time.Time{},
			bad: []string{"25:00", "noon"},
		},
		"arrows": {
			set:  func(l *lesson, text string) (model.Step, error) { return l.SetArrows(text) },
			of:   func(s model.Session) any { return s.ArrowsFt },
			said: map[string]string{"14.5": "arrows at 14.5 feet", "": "distance of the arrows taken off"},
			want: map[string]any{"14.5": model.Known(14.5), "12": model.Known(12.0), "18": model.Known(18.0)},
			none: model.Optional[float64]{}, bad: []string{"11.9", "18.1", "x", "NaN", "+15", "1e1"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			l := beginLesson(t, "Ada 172")
			for text, want := range c.want {
				l.mustKeep(c.set(l, text))
				if got := c.of(l.Session()); got != want {
					t.Errorf("%q is kept as %v, want %v", text, got, want)
				}
				if words, ok := c.said[text]; ok {
					l.said(words)
				}
			}
			kept := c.of(l.Session())
			for _, text := range c.bad {
				if _, err := c.set(l, text); err == nil || c.of(l.Session()) != kept {
					t.Errorf("%q was taken", text)
				}
			}
			l.mustKeep(c.set(l, ""))
			l.said(c.said[""])
			if got := c.of(l.Session()); got != c.none {
				t.Errorf("taken off, it is %v", got)
			}
			l = l.restart()
			l.mustKeep(l.Undo())
			if got := c.of(l.Session()); got != kept {
				t.Errorf("taken back, it is %v, want %v", got, kept)
			}
			l.mustKeep(l.Redo())
			if got := c.of(l.Session()); got != c.none {
				t.Errorf("done again, it is %v", got)
			}
		})
	}
}

func TestOiledDuringTheEvening(t *testing.T) {
	l := beginLesson(t, "Ada 172")
	l.mustKeep(l.SetOiled("18:02", time.UTC))
	l.said("oiled on 2026-03-03 at 18:02")
	for range 8 {
		l.press("x")
	}
	l.mustKeep(l.SetOiled("18:02", time.UTC))
	l.said("oiled on 2026-03-04 at 18:02")
}
