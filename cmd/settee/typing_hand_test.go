//go:build unix

package main

import (
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
)

// hand is a coach who types on the board at random, and who knows from package model what each key has to make of the
// evening and, from what was seen on the screen, how much of it is kept.
type hand struct {
	t      testing.TB
	random *rand.Rand
	base   model.Kept
	e      *model.Evening
	// steps are what the keys make, moments how the evening is before the first of them and after each.
	steps   []model.Step
	moments []moment
	// seen is the moment that the screen has shown at least, certain the one that the file has to show at least.
	seen, certain int
}

// moment is what the screen tells of an evening: how many deliveries there are, and the words of the last action.
type moment struct {
	deliveries int
	last       string
}

// typedAt stands in for the time of a delivery, which the program takes from its clock.
var typedAt = time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)

func newHand(t testing.TB, base model.Kept, random *rand.Rand) *hand {
	t.Helper()
	e, err := model.Resume(base)
	if err != nil {
		t.Fatal(err)
	}
	h := &hand{t: t, random: random, base: base, e: e}
	h.moments = []moment{h.now()}
	return h
}

func (h *hand) now() moment {
	m := moment{deliveries: h.e.Deliveries()}
	if last, ok := h.e.Last(); ok {
		m.last = h.e.Describe(last)
	}
	return m
}

// seedWanted gives the seed that SETTEE_SEED names, and whether it names one; any other else.
func seedWanted(t testing.TB) (seed uint64, named bool) {
	t.Helper()
	text := os.Getenv("SETTEE_SEED")
	if text == "" {
		return rand.Uint64(), false
	}
	seed, err := strconv.ParseUint(text, 10, 64)
	if err != nil {
		t.Fatalf("SETTEE_SEED: %v", err)
	}
	return seed, true
}

// anything gives the keys of a delivery, or of something else that a coach does between two of them.
func (h *hand) anything() []string {
	switch n := h.random.IntN(100); {
	case n < 8 && h.lastIsOfABall():
		return h.press("bs")
	case n < 11:
		return h.press("U")
	case n < 15 && h.lastIsPlain():
		keys := slices.Concat(h.press(","), h.press(h.oneOf("b", "t", "r", "f")), h.press("enter"))
		if _, open := h.e.Editing(); open {
			h.t.Fatal("a delivery stays open")
		}
		return keys
	case n < 18:
		return h.press(h.oneOf("/", "enter")) // refused, or a spare, or what was named before
	}
	return h.delivery()
}

// lastIsOfABall tells whether what would be taken back is a delivery or a change of one, not somebody's seat.
func (h *hand) lastIsOfABall() bool {
	last, ok := h.e.Last()
	return ok && !slices.ContainsFunc(last.Changes, func(c model.Change) bool {
		return c.Ref.Kind != model.DeliveryRecord && c.Ref.Kind != model.GameRecord
	})
}

// lastIsPlain tells whether the last action recorded a ball whose pins the enter key would record again.
func (h *hand) lastIsPlain() bool {
	last, ok := h.e.Last()
	return ok && (last.How == model.AllDown || last.How == model.Named) && !last.Call.Foul
}

// delivery gives the keys of one delivery.
func (h *hand) delivery() []string {
	var keys []string
	do := func(key string, text ...string) { keys = append(keys, h.press(key, text...)...) }
	if h.sometimes(4) {
		do("space")
	}
	if h.sometimes(8) {
		do("tab")
	}
	if h.sometimes(8) {
		do("N", h.oneOf("late", "slow feet", "new ball", "x 7 9")+" "+strconv.Itoa(h.random.IntN(1000)))
	}
	if h.sometimes(10) {
		do("O", h.oneOf("A", "B+", "C-", "F"))
	}
	if h.sometimes(8) {
		do("z")
	} else {
		for range h.random.IntN(4) {
			do(h.oneOf("b", "t", "r", "f", "i", "o"))
		}
	}
	if h.sometimes(3) {
		do(h.oneOf("p", "h", "l"))
	}
	if h.sometimes(20) {
		do("!")
	}
	before := h.now().deliveries
	h.pins(do)
	if h.now().deliveries == before {
		do("x")
	}
	return keys
}

// pins says what fell, and records.
func (h *hand) pins(do func(key string, text ...string)) {
	_, rack := h.e.Speaking()
	switch n := h.random.IntN(20); {
	case n == 0:
		do("D")
	case n == 1:
		do("-")
		do("enter")
	case n < 4:
		do("=", strconv.Itoa(h.random.IntN(rack.Count)))
	case n < 12 && rack.Standing.Known:
		stood := rack.Standing.Pins.Numbers()
		h.random.Shuffle(len(stood), func(i, j int) { stood[i], stood[j] = stood[j], stood[i] })
		for _, pin := range stood[:1+h.random.IntN(min(len(stood), 4))] {
			do(strconv.Itoa(pin % 10))
		}
		do("enter")
	case n < 14 && !rack.Full:
		do("/")
	default:
		do("x")
	}
}

func (h *hand) sometimes(oneIn int) bool { return h.random.IntN(oneIn) == 0 }

func (h *hand) oneOf(keys ...string) string { return keys[h.random.IntN(len(keys))] }

// press does what a key, with what is typed after it, has to do, and gives what the terminal sends. A key that is refused
// does nothing, here as there.
func (h *hand) press(key string, text ...string) []string {
	step, err := h.done(key, strings.Join(text, ""))
	if err == nil && (step.Session != "" || len(step.Changes) > 0) {
		h.steps, h.moments = append(h.steps, step), append(h.moments, h.now())
	}
	sent := []string{key}
	if named, ok := namedKeys[key]; ok {
		sent[0] = named
	}
	for _, typed := range text {
		sent = append(sent, strings.Split(typed, "")...)
	}
	if key == "N" || key == "O" {
		sent = append(sent, namedKeys["enter"])
	}
	return sent
}

func (h *hand) done(key, text string) (model.Step, error) {
	switch key {
	case "x":
		return h.e.RecordAllDown(typedAt)
	case "/":
		return h.e.RecordSpare(typedAt)
	case "enter":
		return h.e.RecordNamed(typedAt)
	case "D":
		return h.e.RecordDead(typedAt)
	case "=":
		felled, err := strconv.Atoi(text)
		if err != nil {
			return model.Step{}, err
		}
		return h.e.RecordCount(typedAt, felled)
	case "bs":
		return h.e.Undo()
	case "U":
		return h.e.Redo()
	case "space":
		return h.e.NextPair()
	case "tab":
		return h.e.PutUpBeside(1)
	case ",":
		return model.Step{}, h.e.Reopen()
	case "N", "O":
		return model.Step{}, typed(h.e, key, text, typedAt)
	}
	return model.Step{}, pressed(h.e, key, typedAt)
}

var lastShown = regexp.MustCompile(`(?m)last: (.*)$`)

// see takes in what is on the screen: an evening as it was after some of the keys, no earlier than the one seen before.
// What the header counts as kept is from then on to be found in the file, and the last call where it has no sign.
func (h *hand) see(screen string) {
	h.t.Helper()
	kept, waiting, ok := keptOn(screen)
	if !ok {
		h.t.Fatalf("the board has no count:\n%s", screen)
	}
	var last string // cut off where there was no room for it
	if found := lastShown.FindStringSubmatch(screen); found != nil {
		last = found[1]
	}
	for at := h.seen; at < len(h.moments); at++ {
		certain, pending, ok := h.behind(at, waiting)
		words := h.moments[at].last
		if !ok || h.moments[at].deliveries-pending != kept || !strings.HasPrefix(words, strings.TrimRight(last, "…? ")) {
			continue
		}
		if newest, _, _ := h.behind(at, 0); last == words && newest > 0 && !h.steps[newest-1].Undo {
			certain = newest
		}
		h.seen, h.certain = at, max(h.certain, certain)
		return
	}
	h.t.Fatalf("none of the keys sent lead from %+v, or what came after, to this screen:\n%s", h.moments[h.seen], screen)
}

// behind gives, for a moment at which so many changes are not kept yet, the moment of the file and the number of
// deliveries not kept as they are.
func (h *hand) behind(at, waiting int) (certain, pending int, ok bool) {
	for certain = at; certain > 0; certain-- {
		if len(h.steps[certain-1].Changes) == 0 {
			continue
		}
		if waiting == 0 {
			break
		}
		waiting--
	}
	open := map[model.ID]bool{}
	for _, step := range h.steps[certain:at] {
		for _, c := range step.Changes {
			if c.Ref.Kind == model.DeliveryRecord {
				open[c.Ref.ID] = c.After != nil
			}
		}
	}
	for _, there := range open {
		if there {
			pending++
		}
	}
	return certain, pending, waiting == 0
}

// settled waits until the screen shows all that was typed as kept.
func (h *hand) settled(c *terminal) {
	h.t.Helper()
	c.keeps(h.now().deliveries)
	h.see(c.screen())
}
