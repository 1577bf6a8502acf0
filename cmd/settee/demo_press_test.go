package main

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"coach.settee/model"
)

// The key script is current, and pressing it gives the deliveries that the invented evening has.
func TestKeyScript(t *testing.T) {
	lines, e, evening := keyScript(t)
	got := keysHead
	for _, l := range lines {
		got += l.String() + "\n"
	}
	if *writeKeys {
		if err := os.WriteFile(keysFile, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(keysFile)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s is not of this evening: write it anew with -keys\n%s", keysFile, diff)
	}
	r := replay(t, evening, map[model.ID]model.Student{})
	for _, seat := range r.session.Roster {
		for i, s := range r.sheets(t, seat.Student) {
			if diff := cmp.Diff(s.Deliveries, e.Sheets(seat.Student)[i].Deliveries); diff != "" {
				t.Errorf("%s, %s: %s", r.students[seat.Student].Name, e.TitleOf(s.Game), diff)
			}
		}
	}
}

// How many keys a delivery takes: its call, with putting the student up, and with what is typed into prompts. Where only
// letters were lowered and pins named, the call is one a step, one a pin and one to record. Half of the best student's calls
// take two keys or less.
func TestKeysPerDelivery(t *testing.T) {
	lines, e, evening := keyScript(t)
	r := replay(t, evening, map[model.ID]model.Student{})
	deliveries := byStudent(e, r)
	calls, withUp, withPrompts, plain := map[string][]int{}, map[string][]int{}, map[string][]int{}, []int{}
	for _, l := range lines {
		if len(l.said) > 0 && l.said[0] == "Z" {
			deliveries[l.student] = deliveries[l.student][2:]
		}
		if len(l.call) == 0 {
			continue
		}
		d := deliveries[l.student][0]
		deliveries[l.student] = deliveries[l.student][1:]
		for _, who := range []string{l.student, "everyone"} {
			calls[who] = append(calls[who], len(l.call))
			withUp[who] = append(withUp[who], len(l.up)+len(l.call))
			withPrompts[who] = append(withPrompts[who], len(l.up)+typedKeys(t, l.said)+len(l.call))
		}
		if want, ok := plainKeys(d); ok {
			if len(l.call) != want {
				t.Errorf("%s: %d keys, not %d", l, len(l.call), want)
			}
			plain = append(plain, len(l.call))
		}
	}
	for _, who := range slices.Sorted(maps.Keys(calls)) {
		t.Logf("%-16s %3d deliveries: call %s, with putting up %s, with prompts %s", who, len(calls[who]),
			middle(calls[who]), middle(withUp[who]), middle(withPrompts[who]))
	}
	t.Logf("letters and pins only: %d deliveries, call %s", len(plain), middle(plain))
	if got := halfway(calls[ilva().Name]); got > 2 {
		t.Errorf("half of %s's calls take more than %.1f keys", ilva().Name, got)
	}
}

// typedKeys counts the keys of prompts: that which opens one, each character, and enter.
func typedKeys(t *testing.T, said []string) int {
	t.Helper()
	n := 0
	for _, key := range said {
		if !strings.HasPrefix(key, `"`) {
			n++
			continue
		}
		text, err := strconv.Unquote(key)
		if err != nil {
			t.Fatal(err)
		}
		n += utf8.RuneCountInString(text) + 1
	}
	return n
}

// byStudent gives each student's deliveries in order, by the student's name.
func byStudent(e *model.Evening, r replayed) map[string][]model.Delivery {
	out := map[string][]model.Delivery{}
	for _, id := range r.recorded {
		d := r.deliveries[id]
		name := e.Student(r.games[d.Game].Student).Name
		out[name] = append(out[name], d)
	}
	return out
}

// plainKeys gives the keys of a call of letters and pins alone, counted from what was kept of it.
func plainKeys(d model.Delivery) (int, bool) {
	if !d.Seen || d.Foul || d.Side != "" || d.Hit != "" || !d.Pins.Known || !d.After.Known || d.Pins.Value == 0 {
		return 0, false
	}
	keys := 1 + d.After.Pins.Count()
	for _, l := range d.Letters {
		if l != model.NoLetter {
			keys += int(model.A - l)
		}
	}
	return keys, true
}

// middle gives the median and the mean of some counts.
func middle(ns []int) string {
	sum := 0
	for _, n := range ns {
		sum += n
	}
	return fmt.Sprintf("median %.1f, mean %.2f", halfway(ns), float64(sum)/float64(len(ns)))
}

// halfway gives the median of some counts.
func halfway(ns []int) float64 {
	ns = slices.Sorted(slices.Values(ns))
	return float64(ns[(len(ns)-1)/2]+ns[len(ns)/2]) / 2
}

// keyScript gives the script of the invented evening that runs, with the evening after pressing it.
func keyScript(t *testing.T) ([]keyLine, *model.Evening, []model.Step) {
	t.Helper()
	evenings, err := inventEvenings(keysSeed)
	if err != nil {
		t.Fatal(err)
	}
	evening := evenings[len(evenings)-1]
	e, steps := opening(t, evening)
	return scriptOf(t, e, steps), e, evening
}

// pressLine presses a line's keys on an evening.
func pressLine(t *testing.T, e *model.Evening, l keyLine, at time.Time) {
	t.Helper()
	keys := slices.Concat(l.up, l.said, l.call)
	for i := 0; i < len(keys); i++ {
		key, err := keys[i], error(nil)
		if strings.Contains("CGLNOZc=", key) {
			i++
			err = typed(e, key, keys[i], at)
		} else {
			err = pressed(e, key, at)
		}
		if err != nil {
			t.Fatalf("%s: %s: %v", l, key, err)
		}
	}
}

// typed is a key with what is typed after it.
func typed(e *model.Evening, key, text string, at time.Time) error {
	if unquoted, err := strconv.Unquote(text); err == nil {
		text = unquoted
	}
	var err error
	switch key {
	case "C":
		_, err = e.SetCue(text)
	case "c":
		var line model.Line
		if line, err = model.ParseAim(text, e.AimOf(e.UpStudent(), e.LaneOf(e.UpStudent()))); err == nil {
			id, _ := e.Speaking()
			_, err = e.Aim(id, e.LaneOf(id), line, "")
		}
	case "L":
		err = e.SetLine(text)
	case "N":
		err = e.SetNote(text)
	case "Z":
		_, err = e.CatchUp(at, text)
	case "O":
		var grade model.ShotGrade
		if grade, err = model.ParseShotGrade(text); err == nil {
			err = e.SetOwn(grade)
		}
	case "G":
		var plan model.Plan
		if plan, err = model.ParsePlan(text, e.LastPlan()); err == nil {
			_, err = e.Begin(plan, "")
		}
	case "=":
		var felled int
		if felled, err = strconv.Atoi(text); err == nil {
			_, err = e.RecordCount(at, felled)
		}
	}
	return err
}

// pressed is a key on its own.
func pressed(e *model.Evening, key string, at time.Time) error {
	var err error
	switch key {
	case "b", "t", "r", "f":
		err = e.Lower(model.Axis(strings.Index("btrf", key)))
	case "i":
		err = e.Miss(model.Inside)
	case "o":
		err = e.Miss(model.Outside)
	case "p":
		err = e.Meet(model.Pocket)
	case "h":
		err = e.Meet(model.High, model.Nose, model.Brooklyn)
	case "l":
		err = e.Meet(model.Light, model.Missed)
	case "y", "esc":
		// From the board to the line and back: nothing of the evening.
	case "z":
		err = e.ToggleUnseen()
	case "!":
		err = e.ToggleFoul()
	case "-":
		err = e.NameNoneDown()
	case "x":
		_, err = e.RecordAllDown(at)
	case "enter":
		_, err = e.RecordNamed(at)
	case "D":
		_, err = e.RecordDead(at)
	case "space":
		_, err = e.NextPair()
	case "tab":
		_, err = e.PutUpBeside(1)
	case "shift+tab":
		_, err = e.PutUpBeside(-1)
	default:
		pin, convErr := strconv.Atoi(key)
		if convErr != nil {
			return convErr
		}
		err = e.TogglePin((pin+9)%10 + 1)
	}
	return err
}
