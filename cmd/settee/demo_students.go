package main

import (
	"math/rand/v2"

	"coach.settee/model"
)

// bowler is an invented student with how that student bowls and what the coach works on.
type bowler struct {
	model.Student
	// lane is where the student bowls odd frames, firstWeek the first evening there.
	lane, firstWeek int
	ability         ability
	// weak is the axis worked on; cues are what the coach says, the second one where the first did not take.
	weak model.Axis
	cues [2]string
	note string
	// ownCalls says how many out of 1000 balls the student calls first; lines and hits at how many full racks of 1000 the
	// coach reads line and hit in boards, and of the others the hit in a word.
	ownCalls, lines, hits int
	// aim is the line on which the student begins an evening, "" for none.
	aim      string
	homework string
	// sentence is what the coach has to say of the running evening already, "" for nothing yet.
	sentence string
}

// inventedStudents gives the six students, two on each of three pairs in that order: a professional and a left-hander,
// one who bowls without the thumb and a learner of some years, another of those and a child. They are of four levels.
// Nobody of them is real.
func inventedStudents(dice *rand.Rand) []bowler {
	students := []bowler{ilva(), odo(), suri(), tam(), bex(), wren()}
	for i := range students {
		students[i].ID = inventedID(dice, startOf(students[i].firstWeek))
	}
	return students
}

func ilva() bowler {
	return bowler{
		Student: model.Student{
			Name: "Ilva Corrandt", Hand: model.RightHand, Style: model.OneHand, Average: model.Known(214),
			SlideOffset: model.Known(6.0), SpeedMPH: model.Known(17.5), RevRPM: model.Known(380.0),
			AxisRotation: model.Known(45.0), Balls: []string{"dull solid", "shiny pearl", "plastic spare ball"},
			Focus: "the same finish under pressure",
		},
		lane: 7, ability: ofElite, weak: model.Finish, aim: "18 31 9@44",
		cues:     [2]string{"hold it until the pins", "step straight back"},
		note:     "came off early, again after a strike",
		ownCalls: 600, lines: 470, hits: 400, homework: "held finishes without a ball, 3 times 10, Monday Wednesday Friday",
		sentence: "Two of those strikes were gifts, and you know which. The finish is what to own.",
	}
}

func odo() bowler {
	return bowler{
		Student: model.Student{
			Name: "Odo Marchwick", Hand: model.LeftHand, Style: model.OneHand, Average: model.Known(176),
			SlideOffset: model.Known(6.5), SpeedMPH: model.Known(16.0), RevRPM: model.Known(290.0),
			AxisRotation: model.Known(40.0),
			Balls:        []string{"solid", "plastic spare ball"}, Focus: "quiet hand at the bottom",
			Limits: "asks for a rest after 60 balls", LoadLimit: 60,
		},
		lane: 8, ability: ofRegular, weak: model.Release, aim: "16 28 8@44",
		cues:     [2]string{"stay behind it", "soft hand"},
		note:     "turned it early, ball never stood up",
		ownCalls: 350, hits: 60, homework: "one-step drill, 20 balls, Tuesday and Saturday",
		sentence: "The hand was quiet when you waited for it.",
	}
}

func suri() bowler {
	return bowler{
		Student: model.Student{
			Name: "Suri Pellanor", Hand: model.RightHand, Style: model.NoThumb, Average: model.Known(168),
			SpeedMPH: model.Known(16.5), RevRPM: model.Known(410.0), Goal: 11, Focus: "see the arrow, not the pins",
		},
		lane: 9, ability: ofRegular, weak: model.Target, aim: "16 30 8@43",
		cues:     [2]string{"eyes on the arrow", "watch it roll over 16"},
		note:     "looked up at the pins",
		ownCalls: 250, lines: 400, hits: 400, homework: "name the board after each ball",
	}
}

func tam() bowler {
	return bowler{
		Student: model.Student{
			Name: "Tam Okkendale", Hand: model.RightHand, Style: model.OneHand, Average: model.Known(141),
			Focus: "slow feet first", Notes: "works shifts: may come late",
		},
		lane: 10, ability: ofDeveloping, weak: model.Balance,
		cues:     [2]string{"slow feet first", "count one, two"},
		note:     "ran the last two steps",
		ownCalls: 100, hits: 450, homework: "walk the four steps to a slow count",
	}
}

func bex() bowler {
	return bowler{
		Student: model.Student{
			Name: "Bex Thornquill", Hand: model.RightHand, Style: model.OneHand, Average: model.Known(138),
			Focus: "thumb out first",
		},
		lane: 11, ability: ofDeveloping, weak: model.Release,
		cues:     [2]string{"thumb out first", "shake hands with it"},
		note:     "hung on to it",
		ownCalls: 150, hits: 450, homework: "swing with a rolled towel",
	}
}

// wren is watched on two axes only: a child is told one thing at a time.
func wren() bowler {
	return bowler{
		Student: model.Student{
			Name: "Wren Dastrell", Hand: model.RightHand, Style: model.OneHand, Average: model.Known(96), Minor: true,
			Watched: model.AxisSet(0).With(model.Balance).With(model.Target), Focus: "walk straight",
			LoadLimit: 45,
		},
		lane: 12, firstWeek: 1, ability: ofNew, weak: model.Balance,
		cues: [2]string{"walk to your arrow", "freeze at the end"},
		note: "smiled all the way back",
		hits: 450, homework: "stand on one leg while brushing teeth",
		sentence: "You walked so straight tonight that the ball had no choice.",
	}
}
