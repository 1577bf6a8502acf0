package handout

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"coach.settee/model"
	"coach.settee/model/lane"
	"coach.settee/model/tenpin"
)

// card is the card of feet and eyes to take to practice.
type card struct {
	Shots []shot
	// Note says from which side boards are counted, and what is computed.
	Note string
}

// shot is where to stand and where to look for one thing.
type shot struct {
	Name, Where string
	// Feet and Eyes are boards, Arrow the arrow that the eyes are at; Words says the move where there is no line to move from.
	Feet, Eyes, Arrow, Out, Words string
	// From says where the line comes from, where that is not the student's own.
	From string
	// NoFeet and NoEyes tell that the boards are not known and left to be filled in by hand.
	NoFeet, NoEyes bool
	Picture        *picture
	Alt            string
}

// card gives the strike line on each lane that was bowled on last, and the lines for the corner pins; what is not known is
// left to be filled in.
func (t told) card() *card {
	student := t.Figures.Student
	all := t.strikeLines()
	strikes := slices.DeleteFunc(slices.Clone(all), func(l laneLine) bool { return !l.line.Slide.Known && !l.line.Arrows.Known })
	c := &card{Note: fmt.Sprintf("Boards are counted from the %s edge of the lane: the slide foot at the foul line, the eyes at the arrows.",
		student.Hand)}
	for _, s := range all {
		c.Shots = append(c.Shots, t.strikeShot(s))
	}
	from := model.Line{}
	if len(strikes) > 0 {
		from = strikes[0].line
	}
	table := lane.SpareTable(lane.SpareInput{
		Hand: student.Hand, Strike: from, SlideOffset: student.SlideOffset, ArrowsFt: t.ArrowsFt.Value,
		Own:     map[int]model.Line{7: student.SpareLine(7), 10: student.SpareLine(10)},
		Tonight: map[int]model.Line{7: t.madeTonight(7), 10: t.madeTonight(10)},
	})
	for _, pin := range []int{7, 10} {
		i := slices.IndexFunc(table, func(s lane.Spare) bool { return s.Leave == tenpin.Pins(pin) })
		s := table[i]
		theirs := s.From == lane.FromOwn || s.From == lane.FromTonight
		if !theirs && (!s.Takes || s.Gutter || len(strikes) == 0 && s.From != lane.Computed) {
			s.From, s.Line, s.Move = lane.FromOwn, model.Line{}, model.Optional[lane.Move]{}
		}
		c.Shots = append(c.Shots, t.spareShot(pin, s, strikes))
	}
	return c
}

// madeTonight gives the line of the last ball that made a single pin, where it was read.
func (t told) madeTonight(pin int) (made model.Line) {
	for _, s := range t.Figures.Over {
		for i, d := range s.Deliveries {
			stood := s.Racks[i].Standing
			if stood.Known && stood.Pins == tenpin.Pins(pin) && !d.Dead && !d.Foul && d.Pins.Value == 1 &&
				d.Line.Slide.Known && d.Line.Arrows.Known {
				made = d.Line
			}
		}
	}
	return made
}

// laneLine is a line with the lanes that it is for.
type laneLine struct {
	lanes []int
	line  model.Line
}

// strikeLines give the line to the pocket on the lanes of the pair that the student bowled on last, else on that of the
// seat, lanes with the same one together; one for no lane where none is known.
func (t told) strikeLines() []laneLine {
	var out []laneLine
	lanes := t.lastPair()
	if len(lanes) == 0 && t.Seat.Lane > 0 {
		pair := t.Seat.Pair()
		lanes = pair[:]
	}
	for _, on := range lanes {
		line := t.aimOn(on)
		i := slices.IndexFunc(out, func(l laneLine) bool { return l.line == line })
		if i < 0 {
			out = append(out, laneLine{line: line})
			i = len(out) - 1
		}
		out[i].lanes = append(out[i].lanes, on)
	}
	if len(out) == 0 {
		out = []laneLine{{}}
	}
	return out
}

// lastPair gives the lanes that were bowled on of the pair of the last delivery.
func (t told) lastPair() []int {
	var lanes []int
	for _, s := range t.Figures.Over {
		for i := range s.Deliveries {
			on := s.Deliveries[i].Lane
			if len(lanes) > 0 && model.PairOf(lanes[0]) != model.PairOf(on) {
				lanes = nil
			}
			if !slices.Contains(lanes, on) {
				lanes = append(lanes, on)
			}
		}
	}
	slices.Sort(lanes)
	return lanes
}

// aimOn gives the line aimed at on a lane when the evening ended: as it was left at the seat, else with the last ball
// there; else where the last ball at a full rack went.
func (t told) aimOn(on int) model.Line {
	if seat := t.Seat; seat.Lane > 0 && model.PairOf(on) == seat.Pair() {
		if aimed := seat.Aimed[(on+1)%2]; !aimed.IsZero() {
			return aimed
		}
	}
	var aimed, bowled model.Line
	for _, s := range t.Figures.Over {
		for i, d := range s.Deliveries {
			if d.Lane != on {
				continue
			}
			if !d.Aimed.IsZero() {
				aimed = d.Aimed
			}
			if s.Racks[i].Full && !d.Line.IsZero() {
				bowled = d.Line
			}
		}
	}
	if aimed.IsZero() {
		return bowled
	}
	return aimed
}

func (t told) strikeShot(s laneLine) shot {
	out := lineShot("strike", s.line)
	out.Where = laneWords(s.lanes)
	if b := s.line.Breakpoint; b.Known && !t.dots() {
		out.Out = board(b.Value)
		if ft := s.line.BreakpointFt; ft.Known {
			out.Out += " at " + board(ft.Value) + " ft"
		}
	}
	out.Picture = t.picture(s.line, 0, tenpin.AllPins, false)
	out.Alt = out.alt()
	return out
}

func laneWords(lanes []int) string {
	words := make([]string, len(lanes))
	for i, n := range lanes {
		words[i] = strconv.Itoa(n)
	}
	if len(words) == 0 {
		return ""
	}
	return "lane" + plural(len(words)) + " " + listed(words)
}

func (t told) spareShot(pin int, s lane.Spare, strikes []laneLine) shot {
	out := lineShot(fmt.Sprintf("%d pin", pin), s.Line)
	switch s.From {
	case lane.Computed:
		out.From = "straight ball, a place to begin"
	case lane.FromOwn:
		if !s.Line.IsZero() {
			out.From = "your own line"
		}
	case lane.FromTonight:
		out.From = "as you made it tonight"
	case lane.FromStrike:
		out.From = "moved from the strike line"
		if s.Move.Known {
			out.movedOn(s.Move.Value, strikes, t.Figures.Student.Hand)
		}
	}
	out.Picture = t.picture(s.Line, pin, tenpin.Pins(pin), s.From != lane.FromStrike)
	out.Alt = out.alt()
	return out
}

// movedOn gives the boards after a move on each lane, where the lines to the pocket differ; the move in words where one of
// them has no line to move.
func (s *shot) movedOn(m lane.Move, strikes []laneLine, hand model.Hand) {
	var feet, eyes, lanes []string
	for _, l := range strikes {
		if !l.line.Slide.Known || !l.line.Arrows.Known {
			*s = shot{Name: s.Name, Words: m.Words(hand), From: "from the strike line"}
			return
		}
		feet = append(feet, board(l.line.Slide.Value+float64(m.Feet)))
		eyes = append(eyes, board(l.line.Arrows.Value+float64(m.Target)))
		lanes = append(lanes, laneWords(l.lanes))
	}
	if len(strikes) > 1 {
		s.Feet, s.Eyes, s.Arrow = strings.Join(feet, " / "), strings.Join(eyes, " / "), ""
		s.From += ", " + strings.Join(lanes, " / ")
	}
}

func lineShot(name string, l model.Line) shot {
	s := shot{Name: name, NoFeet: !l.Slide.Known, NoEyes: !l.Arrows.Known}
	if l.Slide.Known {
		s.Feet = board(l.Slide.Value)
	}
	if l.Arrows.Known {
		s.Eyes, s.Arrow = board(l.Arrows.Value), arrowWords(l.Arrows.Value)
	}
	return s
}

func (s shot) alt() string {
	words := []string{joined(", ", s.Name, s.Where) + ": the lane from above"}
	if s.Feet != "" {
		words = append(words, "feet on board "+s.Feet)
	}
	if s.Eyes != "" {
		words = append(words, "eyes on board "+s.Eyes)
	}
	if s.NoFeet && s.NoEyes {
		words = append(words, "to fill in")
	}
	return strings.Join(words, ", ")
}

func board(b float64) string { return strconv.FormatFloat(math.Round(b*10)/10, 'f', -1, 64) }

var ordinals = []string{"1st", "2nd", "3rd", "4th", "5th", "6th", "7th"}

// arrowWords say the place of a board among the seven arrows, which are on every fifth board: common practice, no source.
func arrowWords(b float64) string {
	const apart = 5
	n := int(math.Floor(b / apart))
	switch on := b == float64(n*apart); {
	case n < 1 || n > len(ordinals):
		return ""
	case on:
		return ordinals[n-1] + " arrow"
	case n == len(ordinals):
		return ""
	}
	return ordinals[n-1] + " to " + ordinals[n] + " arrow"
}
