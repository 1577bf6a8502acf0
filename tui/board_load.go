package tui

import (
	"fmt"
	"strconv"
	"strings"

	"coach.settee/model"
)

// notedKeys say what is noted of the student up, which the board keeps to itself.
var notedKeys = table{
	{
		keys: []string{"I"}, group: groupUp,
		help:    "what is noted of the student up, limits, what hurts, a load reached, until the next key: others read the screen",
		refused: nobody, act: func(a *App, _ string) {
			id, _ := a.evening.Speaking()
			a.sayNoted(id)
		},
	},
}

// sayNoted says what is noted of a student, as far as the status line takes it.
func (a *App) sayNoted(id model.ID) {
	s, name := a.evening.Student(id), a.evening.Label(id)
	var words []string
	if s.Limits != "" {
		words = append(words, "limits: "+clean(s.Limits))
	}
	if s.Intake.Hurts != "" {
		words = append(words, fmt.Sprintf("hurts (%s): %s", s.Intake.On, clean(s.Intake.Hurts)))
	}
	if load := a.evening.Load(id); s.LoadState(load) == model.LoadReached {
		words = append(words, fmt.Sprintf("load reached: %d of %d", load, s.LoadLimit))
	}
	if len(words) == 0 {
		a.say("nothing noted for " + name)
		return
	}
	noted := name + ": " + strings.Join(words, "; ")
	const rest, wrapping = " (all: s, Student)", 16
	if room := 2*a.w - len(rest) - wrapping; width(noted) > room {
		noted = cut(noted, room) + rest
	}
	a.say(noted)
}

// careful tells whether a row bears the sign that there is something to mind: a caution, or a load at its limit.
func careful(s model.Student, load int) bool {
	return s.Limits != "" || s.Intake.Hurts != "" || s.LoadState(load) == model.LoadReached
}

// loadWords says from 80% of the limit on how the load stands, in w cells: "load 48/60", or the load alone.
func loadWords(r boardRow, w int) string {
	if r.student.LoadState(r.load) == model.LoadFree {
		return ""
	}
	words := "load " + strconv.Itoa(r.load)
	if long := words + "/" + strconv.Itoa(r.student.LoadLimit); width(long) <= w {
		return long
	}
	if width(words) > w {
		return ""
	}
	return words
}

// The words for a load at its limit are common practice, no source.
const loadReached = ": common practice, rest or stop; the coach decides"

// loadFact says how the load stands from 80% of the limit on, nothing before.
func loadFact(s model.Student, load int, t *theme) fact {
	state := s.LoadState(load)
	if state == model.LoadFree {
		return fact{}
	}
	words := fmt.Sprintf("load %d of %d", load, s.LoadLimit)
	if state == model.LoadReached {
		return fact{text: words + loadReached, ink: t.alert}
	}
	return fact{text: words, ink: t.quiet}
}

// loadNews says that the balls just recorded have brought a student to 80% or to all of the limit, "" where they have not.
func (a *App) loadNews(step model.Step) string {
	id := step.Action.Student
	s, load := a.evening.Student(id), a.evening.Load(id)
	before := load
	for _, c := range step.Changes {
		if _, ball := c.After.(model.Delivery); ball && c.Before == nil {
			before--
		}
	}
	state := s.LoadState(load)
	if state == s.LoadState(before) {
		return ""
	}
	words := fmt.Sprintf("load of %s %d of %d", a.evening.Label(id), load, s.LoadLimit)
	if state == model.LoadReached {
		return words + loadReached
	}
	return words
}

// news says what recorded balls have brought: the goal, a game's end or beginning, a load near its limit or at it.
func (a *App) news(step model.Step) string {
	var words []string
	for _, text := range []string{a.goalNews(step), a.gameNews(step), a.loadNews(step)} {
		if text != "" {
			words = append(words, text)
		}
	}
	return strings.Join(words, "; ")
}
