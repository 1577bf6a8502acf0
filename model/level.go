package model

import "fmt"

// Level is how far a student is; letters are given against it. The empty Level means "not chosen".
type Level string

// The levels, lowest first.
const (
	New        Level = "new"
	Developing Level = "developing"
	Regular    Level = "regular"
	Advanced   Level = "advanced"
	Elite      Level = "elite"
)

// Levels lists the levels, lowest first.
var Levels = [...]Level{New, Developing, Regular, Advanced, Elite}

// Tone is how the student is spoken to.
type Tone string

// The tones.
const (
	Gentle Tone = "gentle"
	Plain  Tone = "plain"
	Blunt  Tone = "blunt"
)

// Goal is a number of good shots a game in halves: Goal(17) is 8.5. The zero Goal means "not chosen".
type Goal int

// Shots gives the goal in good shots a game.
func (g Goal) Shots() float64 { return float64(g) / 2 }

// Whole gives the goal rounded up, as the student is shown it and as a count has to reach it.
func (g Goal) Whole() int { return int(g+1) / 2 }

// validate tells what is wrong with a goal that may be 0 for none, or nil.
func (g Goal) validate() error {
	if g < 0 || g > 20 {
		return fmt.Errorf("a goal of %v: goals are 0.5 to 10 in halves", g.Shots())
	}
	return nil
}

// GoalOf reads a number of good shots a game: 0.5 to 10 in halves.
func GoalOf(shots float64) (Goal, error) {
	g := Goal(shots * 2)
	if float64(g) != shots*2 || g < 1 || g > 20 {
		return 0, fmt.Errorf("a goal of %v: goals are 0.5 to 10 in halves", shots)
	}
	return g, nil
}

// LevelDefaults is what a level brings until the coach chooses otherwise for the student.
type LevelDefaults struct {
	Weights Weights
	Goal    Goal
	Tone    Tone
	// Tolerance is how many boards at the arrows make one step of target.
	Tolerance int
}

// Defaults gives the level's defaults; an unknown level has those of New.
func (l Level) Defaults() LevelDefaults {
	switch l {
	case Developing:
		return LevelDefaults{Weights{30, 30, 25, 15}, 8, Gentle, 3}
	case Regular:
		return LevelDefaults{Weights{25, 30, 25, 20}, 10, Plain, 2}
	case Advanced:
		return LevelDefaults{Weights{25, 25, 25, 25}, 12, Plain, 1}
	case Elite:
		return LevelDefaults{Weights{25, 25, 25, 25}, 14, Blunt, 1}
	default:
		return LevelDefaults{Weights{40, 30, 20, 10}, 6, Gentle, 5}
	}
}

// LevelOf gives the level that an average has: new under 120, developing to 159, regular to 189, advanced to 209,
// elite from 210.
func LevelOf(average int) Level {
	switch {
	case average < 120:
		return New
	case average < 160:
		return Developing
	case average < 190:
		return Regular
	case average < 210:
		return Advanced
	default:
		return Elite
	}
}

// ParseLevel reads a level's name.
func ParseLevel(s string) (Level, error) {
	for _, l := range Levels {
		if s == string(l) {
			return l, nil
		}
	}
	return "", fmt.Errorf("%q is no level: use new, developing, regular, advanced or elite", s)
}

// ParseTone reads a tone's name.
func ParseTone(s string) (Tone, error) {
	switch t := Tone(s); t {
	case Gentle, Plain, Blunt:
		return t, nil
	}
	return "", fmt.Errorf("%q is no tone: use gentle, plain or blunt", s)
}
