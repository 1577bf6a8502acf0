package lane_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"sync"

	"coach.settee/model"
	"coach.settee/model/lane"
)

// turn is what a policy knows before a ball.
type turn struct {
	learner *lane.Learner
	balls   []lane.Ball
	right   bool
	thrown  int
	aim     lane.Aim
}

// policy moves a student's line.
type policy func(turn) lane.Move

func stay(turn) lane.Move { return lane.Move{} }

func learnt(t turn) lane.Move { return t.learner.Suggest(t.right, t.thrown, t.aim).Move }

// twoClean is the rule with clean balls told by what was read of them.
func twoClean(t turn) lane.Move { return lane.TwoCleanMisses(t.balls, t.right, t.aim) }

// twoCleanByEye is the rule with clean balls told rightly, whatever was read.
func twoCleanByEye(t turn) lane.Move {
	balls := slices.Clone(t.balls)
	for i := range balls {
		balls[i].Laydown, balls[i].Target = model.Optional[float64]{}, model.Optional[float64]{}
	}
	return lane.TwoCleanMisses(balls, t.right, t.aim)
}

// follow moves feet and target by the boards missed, toward the miss, after a miss of two or more.
func follow(t turn) lane.Move {
	for _, b := range slices.Backward(t.balls) {
		if b.Right == t.right {
			if math.Abs(b.Hit) < 2 {
				return lane.Move{}
			}
			d := int(math.Round(b.Hit))
			return lane.Move{Feet: d, Target: d}
		}
	}
	return lane.Move{}
}

// run is a policy with the coach who reads for it.
type run struct {
	name    string
	policy  policy
	reading reading
	// learns: the policy asks a learner.
	learns bool
}

const (
	simFrames   = 36
	simStudents = 4
	// simSeed seeds every session, with its number: all policies meet the same lanes, students and scatter.
	simSeed = 5
)

// simulate plays each run's evening in every session, two sessions at a time; the outcome is the same whatever the order in
// which they end.
func simulate(p pattern, sessions int, runs []run) map[string]evenings {
	played := make([]evenings, len(runs))
	for i := range played {
		played[i] = make(evenings, sessions)
	}
	var wg sync.WaitGroup
	for worker := range 2 {
		wg.Go(func() {
			for k := worker; k < sessions; k += 2 {
				r := rand.New(rand.NewPCG(simSeed, uint64(k)))
				s := session{newSimPair(p, r), newSimStudents(p, r, simStudents)}
				for i, run := range runs {
					played[i][k] = s.play(run, rand.New(rand.NewPCG(simSeed+1, uint64(k))))
				}
			}
		})
	}
	wg.Wait()
	out := map[string]evenings{}
	for i, run := range runs {
		out[run.name] = played[i]
	}
	return out
}

// session is the outset of an evening.
type session struct {
	lanes    [2]*simLane
	students []simStudent
}

// play bowls the evening: students in turn, odd frames on the left lane, each with a line for each lane.
func (s session) play(run run, r *rand.Rand) outcome {
	lanes := [2]*simLane{s.lanes[0].clone(), s.lanes[1].clone()}
	turns := make([]turn, len(s.students))
	aims := make([][2]lane.Aim, len(s.students))
	for i, student := range s.students {
		aims[i] = [2]lane.Aim{student.line, student.line}
		if run.learns {
			turns[i].learner = lane.NewLearner(0, model.Optional[lane.Estimate]{})
		}
	}
	var o outcome
	for frame := range simFrames {
		side := frame % 2
		for i, student := range s.students {
			t := &turns[i]
			t.right, t.thrown, t.aim = side == 1, lanes[side].thrown, aims[i][side]
			m := run.policy(*t)
			to := within(student.line, lane.Aim{Laydown: t.aim.Laydown + float64(m.Feet), Target: t.aim.Target + float64(m.Target)})
			if to != t.aim {
				o.moves++
			}
			aims[i][side] = to
			went, hit := student.bowl(lanes[side], to, r)
			ball := run.reading.read(lane.Ball{Right: t.right, Thrown: t.thrown, Aim: to}, went, hit, r)
			if o.count(hit); run.learns {
				if frame >= 2 {
					o.say(t.learner.Chance(t.right, t.thrown, to), hit)
				}
				t.learner.Add(ball)
			}
			t.balls = append(t.balls, ball)
		}
	}
	return o
}

// within holds a line to twelve boards of feet and ten of target from the first one.
func within(base, a lane.Aim) lane.Aim {
	return lane.Aim{
		Laydown: max(base.Laydown-12, min(base.Laydown+12, a.Laydown)),
		Target:  max(base.Target-10, min(base.Target+10, a.Target)),
	}
}
