package model_test

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"coach.settee/model"
)

// A script is the board's keys as one types them, blanks between them left out: ⏎ enter, ⌫ backspace, ⎋ esc, ⇥ tab, ⇤ shift
// and tab, ← → the arrows, ␣ the space bar. A key that opens a prompt has its line behind it, up to ⏎; Y answers what was
// asked of a correction.
const prompts = "OCNLZPAGM@Y"

// scriptOf parts a script into keys; a prompt and its line are one.
func scriptOf(keys string) []string {
	var out []string
	runes := []rune(keys)
	for i := 0; i < len(runes); i++ {
		k := string(runes[i])
		switch {
		case strings.TrimSpace(k) == "":
			continue
		case strings.Contains(prompts, k):
			end := i + 1
			for end < len(runes) && runes[end] != '⏎' {
				end++
			}
			k = string(runes[i:end])
			i = end
		case k == "=":
			i++
			k += string(runes[i])
		}
		out = append(out, k)
	}
	return out
}

var lowering = map[string]model.Axis{
	"b": model.Balance, "t": model.Target, "r": model.Release, "f": model.Finish,
}

// key works one key as the board does.
func (l *lesson) key(k string) error {
	l.t.Helper()
	if a, ok := lowering[k]; ok {
		return l.Lower(a)
	}
	if a, ok := lowering[strings.ToLower(k)]; ok {
		return l.Raise(a)
	}
	if k[0] >= '0' && k[0] <= '9' {
		return l.TogglePin((int(k[0]-'0')+9)%10 + 1)
	}
	switch k {
	case "i":
		return l.Miss(model.Inside)
	case "o":
		return l.Miss(model.Outside)
	case "p":
		return l.Meet(model.Pocket)
	case "h":
		return l.Meet(model.High, model.Nose, model.Brooklyn)
	case "l":
		return l.Meet(model.Light, model.Missed)
	case "-":
		return l.NameNoneDown()
	case "!":
		return l.ToggleFoul()
	case "z":
		return l.ToggleUnseen()
	case ",":
		return l.Reopen()
	case "←":
		return l.ReopenBeside(-1)
	case "→":
		return l.ReopenBeside(1)
	case "⎋":
		if !l.Leave() {
			l.Clear()
		}
		return nil
	}
	if strings.Contains(prompts, k[:1]) {
		return l.prompt(k[:1], k[1:])
	}
	return l.done(l.step(k))
}

// done folds what was kept. What is asked of a correction is no refusal.
func (l *lesson) done(step model.Step, err error) error {
	l.t.Helper()
	if errors.As(err, &l.offer) {
		return nil
	}
	if err != nil {
		return err
	}
	l.fold(step)
	return nil
}

// step works a key that keeps something.
func (l *lesson) step(k string) (model.Step, error) {
	switch k {
	case "x":
		return l.RecordAllDown(l.at())
	case "/":
		return l.RecordSpare(l.at())
	case "⏎":
		return l.RecordNamed(l.at())
	case "D":
		return l.RecordDead(l.at())
	case "⌫":
		return l.Undo()
	case "U":
		return l.Redo()
	case "W":
		return l.ChangeLane()
	case "V":
		return l.ToggleOut()
	case "␣":
		return l.NextPair()
	case "⇥":
		return l.PutUpBeside(1)
	case "⇤":
		return l.PutUpBeside(-1)
	}
	if felled, ok := strings.CutPrefix(k, "="); ok {
		n, err := strconv.Atoi(felled)
		if err != nil {
			return model.Step{}, err
		}
		return l.RecordCount(l.at(), n)
	}
	return model.Step{}, fmt.Errorf("%q is no key", k)
}

// prompt works a line typed at a prompt.
func (l *lesson) prompt(key, text string) error {
	l.t.Helper()
	switch key {
	case "O":
		grade, err := model.ParseShotGrade(text)
		if err != nil {
			return err
		}
		return l.SetOwn(grade)
	case "N":
		return l.SetNote(text)
	case "L":
		return l.SetLine(text)
	case "C":
		return l.done(l.SetCue(text))
	case "M":
		lane, text, _ := strings.Cut(text, " ")
		n, err := strconv.Atoi(lane)
		if err != nil {
			return err
		}
		line, err := model.ParseAim(text, model.Line{})
		if err != nil {
			return err
		}
		return l.done(l.Aim(l.UpStudent(), n, line, ""))
	case "Y":
		if l.offer == nil {
			return errors.New("nothing was asked")
		}
		return l.done(l.Reframe(l.offer, text))
	case "Z":
		return l.done(l.CatchUp(l.at(), text))
	case "P":
		lane, all := strings.CutSuffix(text, " all")
		n, err := strconv.Atoi(lane)
		if err != nil {
			return err
		}
		return l.done(l.MovePair(n, all))
	case "A":
		s, err := model.ParseNewcomer(text)
		if err != nil {
			return err
		}
		s.ID = model.ID(s.Name)
		return l.done(l.Seat(s, l.PairInView()[0]))
	case "G":
		plan, reason, _ := strings.Cut(text, " because ")
		p, err := model.ParsePlan(plan, l.LastPlan())
		if err != nil {
			return err
		}
		return l.done(l.Begin(p, reason))
	case "@":
		if _, editing := l.Editing(); editing {
			return l.done(l.HandOver(model.ID(text)))
		}
		return l.done(l.PutUp(model.ID(text)))
	}
	return errors.New("no prompt")
}
