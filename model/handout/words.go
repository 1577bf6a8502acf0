package handout

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// fewestShots is how many shots are behind a number that is told as a share; common practice, no source.
const fewestShots = 10

// lead is the first sentence, without its capital, where a minor's name goes before it: for gentle what went well, for blunt
// the truth. What held up and what to work on are told in their places, and not here too.
func (t told) lead() string {
	good := t.now.Counts.Good
	switch {
	case t.gentle(), t.minor() && good.N == 0:
		return t.gentleLead()
	case t.now.Games == 0 || good.Of == 0:
		return ""
	case t.minor():
		words := fmt.Sprintf("you threw %s of %d seen.", model.NumberOf(good.N, "good shot"), good.Of)
		return joined(" ", words, t.goals().words("You reached the goal", "The goal is still ahead."))
	case t.blunt():
		return joined(" ", fmt.Sprintf("%d good of %d.", good.N, good.Of), t.goals().words("Goal reached", "Goal not reached."), t.luck())
	}
	words := fmt.Sprintf("%d good of %s seen.", good.N, model.NumberOf(good.Of, "shot"))
	return joined(" ", words, t.goals().words("The goal was reached", "The goal was not reached."))
}

// gentleLead tells the first that there is of the goal, a run, good shots and spares.
func (t told) gentleLead() string {
	switch g := t.goals(); {
	case len(g.reached) > 0:
		return "you reached your goal" + g.gently() + ": well done."
	case t.now.Streaks.Longest >= fewestInARow:
		return fmt.Sprintf("you threw %d good shots in a row: well done.", t.now.Streaks.Longest)
	case t.now.Counts.Good.N > 0:
		return "you threw " + model.NumberOf(t.now.Counts.Good.N, "good shot") + " to build on: well done."
	case t.now.Spares.All().N > 0:
		return "you made " + model.NumberOf(t.now.Spares.All().N, "spare") + ": well done."
	}
	return "it was good to have you on the lanes."
}

// luck counts the lucky strikes.
func (t told) luck() string {
	o := t.now.Outcome
	if o.Lucky == 0 {
		return ""
	}
	return fmt.Sprintf("Lucky strikes: %d of %d.", o.Lucky, o.Lucky+o.Earned)
}

// goals are the games in which the goal was reached, and in how many of those seen that is decided: where it was reached,
// whatever was not seen, and where what was not seen of a finished game could not have reached it.
type goals struct {
	reached        []int
	decided, games int
}

func (t told) goals() (g goals) {
	goal := t.chosen.Goal.Whole()
	for i, x := range t.games() {
		if x.Tally.Seen == 0 {
			continue
		}
		g.games++
		switch unseen := x.Tally.Racks - x.Tally.Seen; {
		case x.Tally.Good >= goal:
			g.reached = append(g.reached, i+1)
			g.decided++
		case x.Finished() && x.Tally.Good+unseen < goal:
			g.decided++
		}
	}
	return g
}

// words say in how many games the goal was reached; where that is not decided of each, in which it was.
func (g goals) words(reached, not string) string {
	switch n := len(g.reached); {
	case n == 0 && g.decided < g.games, g.games == 0:
		return ""
	case n == 0:
		return not
	case g.decided < g.games:
		return reached + " in " + gameNames(g.reached) + "."
	case g.games == 1:
		return reached + "."
	}
	return fmt.Sprintf("%s in %d of %d games.", reached, len(g.reached), g.games)
}

// gently says in which games it was, and nothing of the others.
func (g goals) gently() string {
	switch n := len(g.reached); {
	case n < g.games:
		return " in " + gameNames(g.reached)
	case n == 1:
		return ""
	case n == 2:
		return " in both games"
	}
	return fmt.Sprintf(" in all %d games", g.games)
}

func gameNames(numbers []int) string {
	words := make([]string, len(numbers))
	for i, n := range numbers {
		words[i] = strconv.Itoa(n)
	}
	return "game" + plural(len(words)) + " " + listed(words)
}

// keep names the one thing to keep, an axis or the single pins, with its figure where enough is behind it; never what is to
// be worked on or is told in its reason, nor what has clearly gone down.
func (t told) keep() string {
	held, of := insight.HeldUpHabit(t.now, t.spokenOf()...)
	share := "A in "
	if t.dots() {
		share = "just right in "
	}
	switch {
	case held == insight.SinglePins && of.Of >= fewestShots:
		return fmt.Sprintf("%s, %s made", held, of)
	case held != "" && held != insight.SinglePins && of.Of >= fewestShots:
		return held + ", " + share + of.String()
	case held != "":
		return held
	}
	return t.steadiest(share)
}

// steadiest names the axis with most A's where none held up: for gentle without its figure, else of half or more.
func (t told) steadiest(share string) string {
	axis, of := insight.Steadiest(t.now, t.spokenOf()...)
	switch {
	case of.Of < fewestShots || of.N == 0:
		return ""
	case t.gentle():
		return axis
	case 2*of.N < of.Of:
		return ""
	}
	return axis + ", the steadiest: " + share + of.String()
}

// spokenOf names what the page shows to have gone down, and what the reason of the work speaks of.
func (t told) spokenOf() []string {
	var out []string
	if m := t.moved(); m != nil && m.down {
		out = append(out, m.of)
	}
	why := strings.ToLower(t.work().Why)
	for _, a := range model.Axes {
		if strings.Contains(why, a.String()) {
			out = append(out, a.String())
		}
	}
	return out
}

// work is the one thing to work on.
type work struct {
	// Head is "Work on", or "Next" where it is to go on.
	Head, What, Why string
	// Cue is the short thing that the coach said last.
	Cue string
}

// work is what the coach chose, else what the figures choose; nothing where too little was seen. Figures that speak of
// something else than the coach confuse, and are not told.
func (t told) work() work {
	n := t.now.Next
	w := work{Head: "Work on", What: n.What, Cue: t.cue()}
	switch {
	case n.ByCoach && !n.Early && n.What == n.Figures:
		w.Why = t.why(n.What, n.FiguresWhy)
	case n.ByCoach:
	case n.Early:
		w.What = ""
	case n.What == insight.KeepGoing && t.gentle():
		w.Head, w.What = "Next", "keep going just like this"
	case n.What == insight.KeepGoing:
		w.Head, w.Why = "Next", "Nothing stands out."
	default:
		w.Why = t.why(n.What, n.Why)
	}
	return w
}

// why gives the reason of what to work on; what an axis cost is not for those who get dots.
func (t told) why(what, words string) string {
	if t.dots() && !t.gentle() && slices.ContainsFunc(model.Axes[:], func(a model.Axis) bool { return a.String() == what }) {
		return ""
	}
	return sentence(words)
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
	return clipped(last, MaxCue)
}

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

// listed joins words to "1, 2 and 3".
func listed(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

func plural(n int) string {
	if n == 1 {
		return ""
	}
	return "s"
}
