package lane

import (
	"fmt"
	"math"
)

// say puts the advice into words.
func (a *Advice) say() {
	a.PairWords = a.pairWords()
	a.Note = a.note()
	a.Warning = a.warning()
	if a.Silent {
		a.Big, a.Reason = "no word yet", a.silence()
		return
	}
	a.Big = a.Move.Words(a.Hand)
	a.Reason = a.reason()
	a.Rests = a.rests()
	if a.Rule == Learned {
		a.Chances = a.chances()
	}
}

func (a *Advice) silence() string {
	switch {
	case a.oneLane:
		return "two balls with target A and release A and their hits read come first"
	case a.Balls > 0 && a.OnLane > 0:
		return fmt.Sprintf("a good ball on lane %d with its hit read comes first", a.Other.Lane)
	case a.Balls > 0:
		return fmt.Sprintf("a good ball on lane %d with its hit read comes first", a.Lane)
	}
	return "a good ball on each lane with its hit read comes first"
}

func (a *Advice) reason() string {
	here := fmt.Sprintf("no target-A ball on lane %d with this line yet", a.Lane)
	if a.Here.Shots > 0 {
		joint := ", "
		if a.Here.hits().mixed() {
			joint = ": "
		}
		here = fmt.Sprintf("%s on lane %d%s%s", counted(a.Here.Shots, "target-A ball"), a.Lane, joint, a.Here.hits().words())
	}
	if a.oneLane && a.Other.Shots == 0 {
		return here
	}
	return within(here, "; "+a.Other.short())
}

// chances are told in whole balls of a hundred: they are not known better.
func (a *Advice) chances() string {
	stay := math.Round(100 * a.Stay)
	if a.Move == (Move{}) {
		return fmt.Sprintf("about %.0f in 100 as they are, and no move is worth more", stay)
	}
	return fmt.Sprintf("about %.0f in 100 as they are, %.0f after", stay, math.Round(100*a.After))
}

func (a *Advice) rests() string {
	words := fmt.Sprintf("rests on %s, %s of them on lane %d", counted(a.Balls, "ball"), inWords(a.OnLane), a.Lane)
	if a.OnLane == 0 && a.told {
		words = fmt.Sprintf("rests on %s on lane %d, and on the others", counted(a.Balls, "ball"), a.Other.Lane)
	}
	switch {
	case a.Rule == TwoClean:
		return within(words, "; rule: two clean misses alike")
	case a.Tentative:
		return within(words, "; a first guess")
	}
	return words
}

func missed(hit Estimate) bool { return Ball{Hit: hit.Mean, HitSD: hit.SD}.missed() }

// warning speaks where the last ball alone would ask for a move that is not advised.
func (a *Advice) warning() string {
	hit := a.last.Value
	if !a.last.Known || !missed(hit) || a.lastClean && a.missedAlike > 1 {
		return ""
	}
	inside := a.Move.ShiftAt(PinsFt, 0) < 0
	if a.Move != (Move{}) && inside == (hit.Mean > 0) {
		return ""
	}
	way := "light"
	if hit.Mean > 0 {
		way = "high"
	}
	if !a.lastClean {
		return fmt.Sprintf("the last ball on lane %d was %s, but not a good shot: no reason to move", a.Lane, way)
	}
	return fmt.Sprintf("the last ball on lane %d was %s: one ball is no reason to move", a.Lane, way)
}

func (a *Advice) note() string {
	switch {
	case !a.From.Slide.Known && !a.From.Arrows.Known:
		return "no line is aimed at: name it, and read the arrows, and chances can be told"
	case a.Balls > 0 && a.Rule == TwoClean:
		return "read the board at the arrows, and chances can be told"
	case a.Rule == Learned && 2*a.words > a.Balls:
		return "most hits are read in words: the chances are a little too high"
	}
	return ""
}

// pairSaidSD is how well the pair's difference has to be known, in boards, to be told, pairAlikeSD to call two lanes alike:
// the prior's is 1.5. Invented.
const pairSaidSD, pairAlikeSD = 1.2, 0.8

func (a *Advice) pairWords() string {
	if !a.Difference.Known || a.Difference.Value.SD > pairSaidSD {
		return ""
	}
	left, right := a.Lane, a.Other.Lane
	if left > right {
		left, right = right, left
	}
	boards := math.Round(a.Difference.Value.Mean)
	switch {
	case boards == 0 && a.Difference.Value.SD > pairAlikeSD:
		return ""
	case boards == 0:
		return fmt.Sprintf("lanes %d and %d play about alike", left, right)
	case boards < 0:
		left, right = right, left
	}
	return fmt.Sprintf("lane %d plays about %s higher than lane %d", right, counted(int(math.Abs(boards)), "board"), left)
}
