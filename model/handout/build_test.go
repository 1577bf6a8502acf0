package handout_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"coach.settee/model"
	"coach.settee/model/handout"
	"coach.settee/model/insight"
	"coach.settee/model/tenpin"
)

// evening0 is when the invented first evening begins; evening n is n weeks later.
var evening0 = time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)

func eveningAt(n int) time.Time { return evening0.AddDate(0, 0, 7*n) }

// bowl makes a game of an evening from its notation and the letters of its balls, which begin again when they are used up;
// "" is a ball that was not seen.
func bowl(t rapid.TB, s model.Student, evening, number int, notation string, letters ...string) model.DatedSheet {
	t.Helper()
	balls, err := tenpin.ParseFrom(tenpin.Position{}, notation)
	if err != nil {
		t.Fatal(err)
	}
	g := gameOf(s, evening, number, model.KindGame)
	deliveries := make([]model.Delivery, len(balls))
	for i, b := range balls {
		d := delivery(t, s, letters[i%len(letters)])
		d.ID, d.Game, d.Lane = model.ID(fmt.Sprintf("%s-%d", g.ID, i+1)), g.ID, 7
		d.Pins, d.Foul, d.After = model.Known(b.Pins), b.Foul, b.After
		deliveries[i] = d
	}
	x, err := model.NewSheet(g, deliveries)
	if err != nil {
		t.Fatalf("%s: %v", notation, err)
	}
	for i := range x.Deliveries {
		if x.Deliveries[i].Frame%2 == 0 {
			x.Deliveries[i].Lane = 8
		}
	}
	return model.DatedSheet{Sheet: x, At: eveningAt(evening)}
}

func gameOf(s model.Student, evening, number int, kind model.Kind) model.Game {
	session := model.ID(fmt.Sprintf("s%d", evening))
	return model.Game{
		ID: model.ID(fmt.Sprintf("%s-%s-%d", s.ID, session, number)), Session: session, Student: s.ID, Number: number, Kind: kind,
	}
}

// drill makes a drill at pins of which some were made.
func drill(t rapid.TB, s model.Student, evening, number int, name string, pins tenpin.PinSet, made, of int) model.DatedSheet {
	t.Helper()
	g := gameOf(s, evening, number, model.KindDrill)
	g.Name, g.Length, g.Pins = name, of, pins
	deliveries := make([]model.Delivery, of)
	for i := range deliveries {
		d := delivery(t, s, "AABA")
		d.ID, d.Game, d.Lane = model.ID(fmt.Sprintf("%s-%d", g.ID, i+1)), g.ID, 7
		d.Pins, d.After = model.Known(pins.Count()), tenpin.Standing(0)
		if i >= made {
			d.Pins, d.After = model.Known(0), tenpin.Standing(pins)
		}
		deliveries[i] = d
	}
	x, err := model.NewSheet(g, deliveries)
	if err != nil {
		t.Fatal(err)
	}
	return model.DatedSheet{Sheet: x, At: eveningAt(evening)}
}

func delivery(t rapid.TB, s model.Student, letters string) model.Delivery {
	t.Helper()
	c := s.Chosen()
	d := model.Delivery{Weights: c.Weights, Bar: c.Bar, Level: c.Level, Seen: letters != ""}
	for i, r := range []rune(letters) {
		l, err := model.ParseLetter(string(r))
		if err != nil {
			t.Fatal(err)
		}
		d.Letters[i] = l
		d.Touched = d.Touched || l != model.A
	}
	return d
}

// invented gives the letters of n balls with a chance of each axis below A.
func invented(random *rand.Rand, n int, below model.Weights) []string {
	out := make([]string, n)
	for i := range out {
		for a := range model.AxisCount {
			switch roll := random.IntN(100); {
			case roll >= below[a]:
				out[i] += "A"
			case roll >= below[a]/3:
				out[i] += "B"
			default:
				out[i] += "C"
			}
		}
	}
	return out
}

// aims gives every ball of the sheets a line to aim at by its lane.
func aims(odd, even model.Line, sheets ...model.DatedSheet) {
	for _, s := range sheets {
		for i := range s.Deliveries {
			s.Deliveries[i].Aimed = odd
			if s.Deliveries[i].Lane%2 == 0 {
				s.Deliveries[i].Aimed = even
			}
		}
	}
}

func line(arrows, slide float64) model.Line {
	return model.Line{Arrows: model.Known(arrows), Slide: model.Known(slide)}
}

// newMinor is a beginner on the first evening.
func newMinor(t testing.TB) handout.Input {
	s := model.Student{
		ID: "milo", Name: "Milo Ferrant", Hand: model.RightHand, Average: model.Known(88), Minor: true,
		Limits: "left knee strapped", Notes: "shy with the others",
	}
	over := []model.DatedSheet{
		bowl(t, s, 0, 1, "72 9/ 54 -8 63 X 71 8- 44 6/7", "AAAA", "BAAA", "ACBA", "AABA", "CAAA", "AAAB", "ABAC"),
		bowl(t, s, 0, 2, "81 7- 9- 5/ 63 72 X 8/ 71 54", "AAAA", "AABA", "ABBA", "AAAA", "BACA"),
	}
	aims(line(10, 16), line(10, 16), over...)
	return handout.Input{
		Figures: insight.Input{Student: s, Over: over, First: over},
		At:      eveningAt(0), Place: "Lakeside Lanes",
		Seat: model.Seat{
			Student: s.ID, Lane: 7, Order: 1, Alternate: true, Cue: "swing like a clock",
			Homework: "one-step swings, 10 a day, Monday Wednesday Friday", Next: "2026-03-11",
			Sentence: "You listened, you tried, and the ball rolled straighter every frame.",
		},
	}
}

// regular is a student with some evenings behind.
func regular(t testing.TB) handout.Input {
	s := model.Student{
		ID: "ada", Name: "Ada Marsh", Hand: model.LeftHand, Average: model.Known(172), SlideOffset: model.Known(6.0),
		Limits: "right shoulder", Focus: "release", SpareLines: []model.SpareLine{{Pin: 7, Line: line(19, 33)}},
	}
	random := rand.New(rand.NewPCG(4, 2))
	var past []model.DatedSheet
	games := []string{"9/ 72 X 9/ X 62 9- 8/ 7/ X9/", "9/ 8/ 9/ 63 9/ 81 81 9/ 9- XX9", "X 7/ 9- 8/ X X 71 9/ 8- 9/8"}
	for evening := range 3 {
		for n, notation := range games {
			past = append(past, bowl(t, s, evening, n+1, notation, invented(random, 21, model.Weights{20, 35, 55, 30})...))
		}
	}
	over := []model.DatedSheet{
		drill(t, s, 3, 1, "corner pin", tenpin.Pins(7), 7, 10),
		bowl(t, s, 3, 2, "X 9/ X 81 9/ X X 9- 8/ X9/", invented(random, 21, model.Weights{18, 38, 18, 26})...),
		bowl(t, s, 3, 3, "9/ X 72 9/ X 9- X 9/ 8/ 9/X", invented(random, 21, model.Weights{18, 38, 18, 26})...),
		bowl(t, s, 3, 4, "8/ 9- X X 9/ 81 X 9/ 9- XX8", invented(random, 21, model.Weights{18, 38, 18, 26})...),
	}
	aims(line(13, 26), line(14, 27), over...)
	over[1].Deliveries[3].Side, over[1].Deliveries[3].SideBoards = model.Outside, 2
	return handout.Input{
		Figures: insight.Input{Student: s, Over: over, Earlier: past, First: past[:3]},
		At:      eveningAt(3), Place: "Lakeside Lanes",
		Seat: model.Seat{
			Student: s.ID, Lane: 7, Order: 1, Alternate: true, Cue: "quiet hand",
			Homework: "foul-line releases, 3 sets of 10, Tuesday and Friday", Next: "2026-04-01",
			Sentence: "The hand stayed behind the ball tonight; take that to the league.",
		},
	}
}

// elite is an expert who is told the truth.
func elite(t testing.TB) handout.Input {
	s := model.Student{ID: "kaz", Name: "Kazimir Ostrova", Hand: model.RightHand, Average: model.Known(221)}
	random := rand.New(rand.NewPCG(9, 9))
	var past []model.DatedSheet
	games := []string{"X X 9/ X X X 9/ X X XX9", "X 9/ X X X 8/ X X 9/ X9/", "9/ X X X 9/ X X X X 9/X"}
	for evening := range 4 {
		for n, notation := range games {
			past = append(past, bowl(t, s, evening, n+1, notation, invented(random, 21, model.Weights{12, 22, 20, 16})...))
		}
	}
	over := []model.DatedSheet{
		bowl(t, s, 4, 1, "X X X X 9/ X X 9/ X XX9", "AABC", "ACBA", "BABB", "ABCA", "AAAA", "AAAB", "AAAA", "AABA", "AAAA"),
		bowl(t, s, 4, 2, "9/ X X X 8/ X 9/ X X XXX", "AAAA", "AAAB", "ABBA", "AACB", "BACA", "AAAA", "AAAA"),
		bowl(t, s, 4, 3, "X 9/ X 9/ X X X 7/ X 9/X", "AAAA", "ABAA", "AACA", "AAAA", "AABB", "AAAA"),
	}
	odd, even := line(15, 29), line(14, 28)
	odd.Breakpoint, odd.BreakpointFt = model.Known(7.0), model.Known(42.0)
	even.Breakpoint, even.BreakpointFt = model.Known(7.5), model.Known(43.0)
	aims(odd, even, over...)
	return handout.Input{
		Figures: insight.Input{Student: s, Over: over, Earlier: past[2:], First: past[:3]},
		At:      eveningAt(4), Place: "Lakeside Lanes", ArrowsFt: model.Known(15.0),
		Seat: model.Seat{
			Student: s.ID, Lane: 7, Order: 1, Alternate: true, Aimed: [2]model.Line{odd, even},
			Homework: "one-arrow game: hit 15 within half a board, 20 balls, before Sunday", Next: "2026-04-05",
			Sentence: "Three of those turkeys were gifts. Stay behind it.",
		},
	}
}
