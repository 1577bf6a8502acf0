package main

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

// replayed is an invented evening as its steps leave it.
type replayed struct {
	session    model.Session
	students   map[model.ID]model.Student
	games      map[model.ID]model.Game
	deliveries map[model.ID]model.Delivery
	// recorded lists the deliveries in the order of recording.
	recorded []model.ID
	up       model.Up
}

// replay makes the changes of an evening's steps, and checks that each changes what is there.
func replay(t *testing.T, evening []model.Step, students map[model.ID]model.Student) replayed {
	t.Helper()
	r := replayed{
		students: students, games: map[model.ID]model.Game{}, deliveries: map[model.ID]model.Delivery{},
	}
	for _, step := range evening {
		for _, c := range step.Changes {
			if err := c.After.Validate(); err != nil {
				t.Fatalf("%v: %v", c.Ref, err)
			}
			switch after := c.After.(type) {
			case model.Session:
				r.session = after
			case model.Student:
				r.students[after.ID] = after
			case model.Game:
				r.games[after.ID] = after
			case model.Delivery:
				if _, again := r.deliveries[after.ID]; !again {
					r.recorded = append(r.recorded, after.ID)
				}
				r.deliveries[after.ID] = after
			}
		}
		r.up = step.Up
	}
	return r
}

func (r replayed) sheets(t *testing.T, student model.ID) []*model.Sheet {
	t.Helper()
	var sheets []*model.Sheet
	for _, g := range r.games {
		if g.Student != student {
			continue
		}
		var ds []model.Delivery
		for _, id := range r.recorded {
			if d := r.deliveries[id]; d.Game == g.ID {
				ds = append(ds, d)
			}
		}
		s, err := model.NewSheet(g, ds)
		if err != nil {
			t.Fatal(err)
		}
		sheets = append(sheets, s)
	}
	slices.SortFunc(sheets, func(a, b *model.Sheet) int { return a.Game.Number - b.Game.Number })
	return sheets
}

func replayAll(t *testing.T, seed uint64) []replayed {
	t.Helper()
	evenings, err := inventEvenings(seed)
	if err != nil {
		t.Fatal(err)
	}
	students := map[model.ID]model.Student{}
	var out []replayed
	for _, n := range evenings {
		out = append(out, replay(t, n, students))
	}
	return out
}

func TestEveningsOfEverySeed(t *testing.T) {
	for seed := range uint64(40) {
		if _, err := inventEvenings(seed); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
	}
}

func TestEveningsAreTheSameForASeed(t *testing.T) {
	first, err := inventEvenings(7)
	if err != nil {
		t.Fatal(err)
	}
	again, err := inventEvenings(7)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(fmt.Sprint(first), fmt.Sprint(again)); diff != "" {
		t.Error(diff)
	}
	other, err := inventEvenings(8)
	if err != nil {
		t.Fatal(err)
	}
	if fmt.Sprint(first) == fmt.Sprint(other) {
		t.Error("another seed gives the same evenings")
	}
}

// figures are a student's over the finished games of some evenings.
type figures struct {
	games, score, good int
	// weak and weakSeen are the letter points on the axis worked on, by week, and the racks they are of.
	weak, weakSeen [weeks]int
}

func figuresOf(t *testing.T, seeds uint64) map[string]*figures {
	t.Helper()
	out := map[string]*figures{}
	for seed := range seeds {
		all := replayAll(t, seed)
		for id, b := range bowlersOf(seed) {
			f := out[b.Name]
			if f == nil {
				f = &figures{}
				out[b.Name] = f
			}
			for week, r := range all {
				for _, s := range r.sheets(t, id) {
					f.weak[week] += s.Tally.AxisPoints[b.weak]
					f.weakSeen[week] += s.Tally.AxisSeen[b.weak]
					if s.Game.Kind == model.KindGame && s.Finished() {
						f.games++
						f.score += s.Card.Score
						f.good += s.Tally.Good
					}
				}
			}
		}
	}
	return out
}

func bowlersOf(seed uint64) map[model.ID]bowler {
	out := map[model.ID]bowler{}
	for _, b := range inventedStudents(rand.New(rand.NewPCG(seed, weeks))) {
		out[b.ID] = b
	}
	return out
}

// The bounds are of the invention's own making: it has to look like its students' levels.
func TestEveningsLookLikeTheirStudents(t *testing.T) {
	const seeds = 12
	all := figuresOf(t, seeds)
	for _, b := range bowlersOf(1) {
		t.Run(b.Name, func(t *testing.T) {
			f := all[b.Name]
			average, good := float64(f.score)/float64(f.games), float64(f.good)/float64(f.games)
			t.Logf("%d games: average %.0f (kept as %d), %.1f good (goal %.1f)",
				f.games, average, b.Average.Value, good, b.Chosen().Goal.Shots())
			if off := average - float64(b.Average.Value); off < -20 || off > 20 {
				t.Errorf("the average is %.0f off", off)
			}
			if off := good - b.Chosen().Goal.Shots(); off < -1.5 || off > 1.5 {
				t.Errorf("%.1f good shots a game are not about the goal", good)
			}
			first := float64(f.weak[b.firstWeek]) / float64(f.weakSeen[b.firstWeek])
			last := float64(f.weak[weeks-1]) / float64(f.weakSeen[weeks-1])
			t.Logf("%s: %.2f in the first evening, %.2f in the last", b.weak, first, last)
			if last <= first {
				t.Error("the axis worked on has not come on")
			}
		})
	}
}

func TestEveningsHaveWhatTheBoardShows(t *testing.T) {
	for _, seed := range []uint64{0, 1, 2, 3} {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			all := replayAll(t, seed)
			for week, r := range all {
				if open := r.session.Open(); open != running(week) {
					t.Errorf("evening %d: open is %v", week+1, open)
				}
			}
			tonight := all[weeks-1]
			checkRoster(t, tonight)
			for _, seat := range tonight.session.Roster {
				checkThirdGame(t, tonight, seat.Student)
			}
			checkVariety(t, all)
		})
	}
}

func checkRoster(t *testing.T, r replayed) {
	t.Helper()
	levels, pairs := map[model.Level]bool{}, map[model.Pair]int{}
	var left, noThumb, minor int
	for _, seat := range r.session.Roster {
		s := r.students[seat.Student]
		levels[s.Chosen().Level] = true
		pairs[seat.Pair()]++
		if s.Hand == model.LeftHand {
			left++
		}
		if s.Style == model.NoThumb {
			noThumb++
		}
		if s.Minor {
			minor++
		}
	}
	if len(r.session.Roster) != 6 || len(levels) != 4 || left != 1 || noThumb != 1 || minor != 1 {
		t.Errorf("%d students of %d levels, %d left-handed, %d without the thumb, %d minors",
			len(r.session.Roster), len(levels), left, noThumb, minor)
	}
	if want := (map[model.Pair]int{{7, 8}: 2, {9, 10}: 2, {11, 12}: 2}); !cmp.Equal(pairs, want) {
		t.Errorf("on the pairs are %v", pairs)
	}
}

func checkThirdGame(t *testing.T, r replayed, id model.ID) {
	t.Helper()
	finished, begun := 0, 0
	for _, s := range r.sheets(t, id) {
		switch {
		case s.Game.Kind != model.KindGame:
		case s.Finished():
			finished++
		case len(s.Deliveries) > 0:
			begun++
		}
	}
	if finished != 2 || begun != 1 {
		t.Errorf("%s has finished %d games and begun %d", r.students[id].Name, finished, begun)
	}
}

// checkVariety looks for each thing that a delivery can have, tonight.
func checkVariety(t *testing.T, all []replayed) {
	t.Helper()
	r := all[weeks-1]
	found := map[string]int{}
	count := func(what string, is bool) {
		if found[what] += 0; is {
			found[what]++
		}
	}
	for _, g := range r.games {
		count("warm-up", g.Kind == model.KindWarmup)
		count("drill", g.Kind == model.KindDrill)
	}
	for _, d := range r.deliveries {
		strike := d.Pins == model.Known(10)
		count("foul", d.Foul)
		count("dead ball", d.Dead)
		count("unseen ball", !d.Seen && !d.Dead)
		count("side", d.Side != "")
		count("hit", d.Hit != "")
		count("hit in boards", d.HitBoards.Known)
		count("line", !d.Line.IsZero())
		count("own call", d.Own != model.Ungraded)
		count("cue", d.Cue != "")
		count("note", d.Note != "")
		count("unknown leave", d.Pins.Known && !d.After.Known)
		count("untouched", d.Seen && !d.Touched)
		count("lucky strike", strike && d.Seen && !d.Good())
		count("unlucky good shot", d.Good() && d.Ball == 1 && !strike)
	}
	for what, n := range found {
		if n == 0 {
			t.Errorf("no %s", what)
		}
	}
	up := r.up.OnPair[r.up.Lane]
	for _, s := range r.sheets(t, up) {
		if s.MidFrame() {
			return
		}
	}
	t.Errorf("%s is up with a full rack", r.students[up].Name)
}
