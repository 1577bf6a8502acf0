package handout

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// fewestShots is how many shots are behind a number that is told as a share; common practice, no source.
const fewestShots = 10

// lead is the first sentence: for gentle what held up, for blunt the truth.
func (t told) lead() string {
	good := t.now.Counts.Good
	switch {
	case t.gentle():
		return t.gentleLead()
	case t.now.Games == 0 || good.Of == 0:
		return ""
	case t.blunt():
		words := fmt.Sprintf("%d good of %d.", good.N, good.Of) + t.goalReached(" Goal reached in %d of %s.")
		if n := t.now.Next; !n.Early {
			words += " " + sentence(why(n))
		}
		return words
	}
	return fmt.Sprintf("%d good of %d shots seen.", good.N, good.Of) + t.goalReached(" The goal was reached in %d of %s.")
}

// goalReached tells in how many games the goal was reached, of those with every full rack seen.
func (t told) goalReached(format string) string {
	reached, games := 0, 0
	for _, g := range t.now.ByGame {
		if !g.Complete || g.Counts.Unseen > 0 {
			continue
		}
		games++
		if g.Counts.Good.N >= t.chosen.Goal.Whole() {
			reached++
		}
	}
	if games == 0 {
		return ""
	}
	return fmt.Sprintf(format, reached, model.NumberOf(games, "game"))
}

func (t told) gentleLead() string {
	held := t.keep()
	switch {
	case strings.HasPrefix(held, "a run"):
		return sentence(held + ": well done")
	case held != "":
		return sentence("your " + held + " held up: well done")
	case t.now.Counts.Good.N > 0:
		return sentence(model.NumberOf(t.now.Counts.Good.N, "good shot") + " to build on: well done")
	}
	return "It was good to have you on the lanes."
}

// keep names the one thing to keep; for gentle without the letter that it goes by.
func (t told) keep() string {
	held := insight.HeldUp(t.now)
	if t.gentle() {
		held, _, _ = strings.Cut(held, ",")
	}
	return held
}

// work is the one thing to work on.
type work struct {
	What, Why string
	// Cue is the short thing that the coach said last.
	Cue string
}

func (t told) work() work {
	n := t.now.Next
	w := work{What: n.What, Why: sentence(why(n)), Cue: t.cue()}
	switch {
	case n.Early && !n.ByCoach:
		w.What, w.Why = insight.KeepGoing, ""
	case n.What == insight.KeepGoing && n.Why != "" && !n.ByCoach:
		w.What, w.Why = n.Why, ""
	case n.ByCoach && (n.Early || n.What != n.Figures), t.blunt():
		// Figures that speak of something else confuse; the expert has read them at the top.
		w.Why = ""
	}
	return w
}

// why gives the reason of what to work on, by the figures where the coach chose something else.
func why(n insight.Next) string {
	if n.ByCoach {
		return n.FiguresWhy
	}
	return n.Why
}

// cue gives the cue that was left in force, else the last one that was.
func (t told) cue() string {
	if t.Seat.Cue != "" {
		return t.Seat.Cue
	}
	last := ""
	for _, s := range t.Figures.Over {
		for i := range s.Deliveries {
			if c := s.Deliveries[i].Cue; c != "" {
				last = c
			}
		}
	}
	return clipped(last, mostCue)
}

// spares tells the spares; for gentle only those that were made.
func (t told) spares() string {
	all := t.now.Spares.All()
	switch {
	case all.Of == 0, t.gentle() && all.N == 0:
		return ""
	case t.gentle():
		return model.NumberOf(all.N, "spare") + " made"
	}
	words := t.now.Spares.Words()
	if missed := t.now.Spares.WordsMissed(); missed != "" {
		words += "; " + missed
	}
	return words
}

// drills tell what the drills came to; for gentle what was made.
func (t told) drills() []string {
	var out []string
	for _, d := range t.now.Drills {
		d.Name = clipped(d.Name, mostDrillName)
		words := d.Words()
		if t.gentle() {
			words = gentleDrill(d)
		}
		if words != "" && len(out) < mostDrills {
			out = append(out, words)
		}
	}
	return out
}

// mostDrills and mostDrillName are the drills, and the characters of a name, that the page has room for.
const mostDrills, mostDrillName = 4, 40

func gentleDrill(d insight.DrillCount) string {
	name := d.Name
	if name == "" {
		name = "drill"
	}
	switch {
	case d.Made.N > 0:
		return fmt.Sprintf("%s: %d made", name, d.Made.N)
	case d.Good.N > 0:
		return fmt.Sprintf("%s: %d good", name, d.Good.N)
	}
	return fmt.Sprintf("%s: %s", name, model.NumberOf(d.Balls, "ball"))
}

// homework is what to do until the next time.
type homework struct {
	// Drill, Count and Days are the parts of a homework that has them, Text one that has not.
	Drill, Count, Days string
	Text               string
	// Boxes are the places to write in how it went, each for Of balls.
	Boxes []string
	Of    int
}

// homeworkOf reads homework typed as drill, count, days ("corner pin, 3 times 10, Tuesday and Thursday"); any other is told
// as it is.
func homeworkOf(text string) *homework {
	if text == "" {
		return nil
	}
	times, of := boxesOf(text)
	h := &homework{Text: text, Boxes: boxNames[:times], Of: of}
	parts := strings.Split(text, ",")
	if len(parts) != 3 {
		return h
	}
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	if parts[0] != "" && parts[2] != "" && strings.ContainsAny(parts[1], "0123456789") {
		h.Text, h.Drill, h.Count, h.Days = "", parts[0], parts[1], parts[2]
	}
	return h
}

// boxNames name the places to write in how homework went; the page has room for so many.
var boxNames = []string{"first time", "second time", "third time"}

// boxesOf reads from homework how many times of how many balls it is, "5 times 20" or "3 sets of 10"; three of ten where it
// does not say.
func boxesOf(text string) (times, of int) {
	const usual, balls = 3, 10
	m := timesOf.FindStringSubmatch(text)
	if m == nil {
		return usual, balls
	}
	times, _ = strconv.Atoi(m[1])
	of, _ = strconv.Atoi(m[2])
	if times < 1 || of < 1 {
		return usual, balls
	}
	return min(times, len(boxNames)), of
}

var timesOf = regexp.MustCompile(`\b(\d{1,3}) ?(?:times|x|×|sets of) ?(\d{1,3})\b`)

// sentence gives words a capital and a full stop.
func sentence(words string) string {
	if words == "" {
		return ""
	}
	words = strings.ToUpper(words[:1]) + words[1:]
	if !strings.HasSuffix(words, ".") {
		words += "."
	}
	return words
}
