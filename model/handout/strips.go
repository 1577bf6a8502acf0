package handout

import (
	"fmt"
	"slices"
	"strings"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// strip is a game as it went.
type strip struct {
	Name, Score string
	Count       string
	Frames      []frame
	// Alt says it in words.
	Alt string
}

// frame is one frame of a strip.
type frame struct {
	Number int
	Marks  string
	Total  string
	// Signs are the full racks', one and in the tenth up to three; Last tells the tenth.
	Signs []sign
	Last  bool
}

// sign is how a full rack was thrown: its mark, good or not, and its words.
type sign struct {
	Mark string
	Good bool
	// Quiet tells that it is neither good nor a grade.
	Quiet bool
	Words string
}

// mostStrips is how many games' strips the page has room for.
const mostStrips = 6

// strips give the last games of the evening, and tell how many there is no room for.
func (t told) strips() (strips []strip, omitted string) {
	games := t.games()
	first := max(0, len(games)-mostStrips)
	for i, g := range games {
		if i >= first {
			strips = append(strips, t.strip(i+1, g.Sheet))
		}
	}
	if first > 0 {
		omitted = model.NumberOf(first, "earlier game") + " of the evening not shown"
	}
	return strips, omitted
}

func (t told) strip(number int, x *model.Sheet) strip {
	s := strip{Name: fmt.Sprintf("Game %d", number), Score: fmt.Sprint(x.Card.Score)}
	if !x.Card.Complete {
		s.Score = "open"
	}
	s.Count = fmt.Sprintf("%d good", x.Tally.Good)
	switch {
	case x.Tally.Seen == 0 || t.gentle() && x.Tally.Good == 0:
		s.Count = ""
	case x.Tally.Seen < x.Tally.Racks:
		s.Count = fmt.Sprintf("%d good of %d seen", x.Tally.Good, x.Tally.Seen)
	}
	for i, f := range x.Card.Frames {
		part := frame{Number: i + 1, Marks: strings.Join(f.Marks(), " "), Last: i == 9}
		if f.Known {
			part.Total = fmt.Sprint(f.Total)
		}
		s.Frames = append(s.Frames, part)
	}
	for i, d := range x.Deliveries {
		if d.Frame > 0 && d.Frame <= len(s.Frames) && !d.Dead && x.Racks[i].Full {
			f := &s.Frames[d.Frame-1]
			f.Signs = append(f.Signs, t.sign(d))
		}
	}
	s.Alt = fmt.Sprintf("%s, score %s: %s", joined(", ", s.Name, s.Count), s.Score, x.Card.Notation())
	return s
}

// sign marks a good full rack with a dot, one not seen with a dash; any other for gentle with an open dot, else with what
// cost it.
func (t told) sign(d model.Delivery) sign {
	switch {
	case d.Good():
		return sign{Mark: "●", Good: true, Words: "good"}
	case !d.Seen:
		return sign{Mark: "–", Quiet: true, Words: "unseen"}
	case t.dots():
		return sign{Mark: "○", Quiet: true, Words: "a try"}
	case d.Grade() == model.Ungraded:
		return sign{Mark: "·", Quiet: true, Words: "not graded"}
	}
	lowest := lowestOf(d.Letters)
	return sign{Mark: d.Grade().String() + " " + lowest.String()[:1], Words: lowest.String()}
}

// lowestOf gives the axis with the lowest letter, of equals the earlier.
func lowestOf(letters model.Letters) model.Axis {
	lowest, worst := model.Balance, model.NoLetter
	for _, a := range model.Axes {
		if l := letters[a]; l != model.NoLetter && (worst == model.NoLetter || l < worst) {
			lowest, worst = a, l
		}
	}
	return lowest
}

// legend says what the signs that occur mean.
func legend(strips []strip) []sign {
	var signs []sign
	for _, s := range []sign{
		{Mark: "●", Good: true, Words: "good shot"}, {Mark: "○", Quiet: true, Words: "a try"},
		{Mark: "B+ r", Words: "the grade, and what cost it: balance, target, release, finish"},
		{Mark: "–", Quiet: true, Words: "unseen"}, {Mark: "·", Quiet: true, Words: "not graded"},
	} {
		if slices.ContainsFunc(strips, func(x strip) bool { return x.has(s) }) {
			signs = append(signs, s)
		}
	}
	return signs
}

// has tells whether a strip has such a sign; a grade stands for any.
func (s strip) has(like sign) bool {
	for _, f := range s.Frames {
		for _, x := range f.Signs {
			if x.Mark == like.Mark || !x.Good && !x.Quiet && !like.Good && !like.Quiet {
				return true
			}
		}
	}
	return false
}

// fewestInARow is from how many strikes on a run is named.
const fewestInARow = 3

// truths name for blunt every run of strikes with luck in it.
func (t told) truths() []string {
	if !t.blunt() {
		return nil
	}
	var out []string
	for i, g := range t.games() {
		out = append(out, luckyRuns(i+1, g.Sheet)...)
	}
	return out
}

// luckyRuns name the runs of three or more strikes of a game that hold a lucky one, and which those were.
func luckyRuns(game int, x *model.Sheet) []string {
	var out, lucky []string
	run := 0
	end := func() {
		if run >= fewestInARow && len(lucky) > 0 {
			out = append(out, runWords(game, run, lucky))
		}
		run, lucky = 0, nil
	}
	for i, d := range x.Deliveries {
		r := x.Racks[i]
		if d.Dead {
			continue
		}
		if !r.Full || d.Foul || d.Pins.Value != r.Count {
			end()
			continue
		}
		run++
		if insight.ResultOf(d, r) == insight.Lucky {
			lucky = append(lucky, ballName(d))
		}
	}
	end()
	return out
}

func runWords(game, run int, lucky []string) string {
	words := fmt.Sprintf("Game %d: %d strikes in a row, ", game, run)
	if len(lucky) == run {
		words += "all "
	}
	return words + "lucky in frame" + plural(len(lucky)) + " " + strings.Join(lucky, ", ") + "."
}

// ballName gives the frame of a full rack, in the tenth with the ball.
func ballName(d model.Delivery) string {
	if d.Frame < 10 {
		return fmt.Sprint(d.Frame)
	}
	return fmt.Sprintf("10.%d", d.Ball)
}
