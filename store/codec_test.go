package store

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/model/tenpin"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// full gives every field of a value something that is not its zero, whatever the fields are: a field that is added to a
// record and not to its form here is found by the round trip.
func full(v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		word, ok := map[reflect.Type]string{
			reflect.TypeFor[model.Level]():     "elite",
			reflect.TypeFor[model.ID]():        "an-id",
			reflect.TypeFor[model.Side]():      "out",
			reflect.TypeFor[model.Hit]():       "light",
			reflect.TypeFor[model.Kind]():      "drill",
			reflect.TypeFor[model.Hand]():      "left",
			reflect.TypeFor[model.Style]():     "no-thumb",
			reflect.TypeFor[model.Tone]():      "blunt",
			reflect.TypeFor[model.Motion]():    "throw",
			reflect.TypeFor[model.Direction](): "inward",
			reflect.TypeFor[model.HandAt]():    "over",
			reflect.TypeFor[model.Timing]():    "on time",
			reflect.TypeFor[model.Learning]():  "feeling",
			reflect.TypeFor[string]():          "some words",
		}[v.Type()]
		if !ok {
			panic("no value for a " + v.Type().String())
		}
		v.SetString(word)
	case reflect.Int:
		v.SetInt(7)
	case reflect.Uint8, reflect.Uint16:
		v.SetUint(5)
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Float64:
		v.SetFloat(16.37)
	case reflect.Array:
		for i := range v.Len() {
			full(v.Index(i))
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		full(v.Index(0))
		full(v.Index(1))
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
		full(key)
		full(value)
		v.SetMapIndex(key, value)
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[time.Time]() {
			v.Set(reflect.ValueOf(time.Date(2026, 3, 4, 18, 0, 1, 0, time.UTC)))
			return
		}
		for i := range v.NumField() {
			full(v.Field(i))
		}
	default:
		panic("no value for a " + v.Type().String())
	}
}

func fullOf[T any]() T {
	var t T
	full(reflect.ValueOf(&t).Elem())
	return t
}

// allRecords gives a full record of every kind, and an empty one.
func allRecords() []model.Record {
	return []model.Record{
		fullOf[model.Cue](), fullOf[model.Student](), fullOf[model.Session](), fullOf[model.Game](), fullOf[model.Delivery](),
		model.Cue{ID: "x"}, model.Student{ID: "x"}, model.Session{ID: "x"}, model.Game{ID: "x", Session: "S"},
		model.Delivery{ID: "x", Game: "g"}, model.Delivery{ID: "S-12", Game: "S-3"}, model.Game{ID: "S-12", Session: "S"},
	}
}

// throughRow takes a record through its row.
func throughRow(r model.Record) (model.Record, error) {
	key := []byte(r.Ref().ID)
	place := place{7, 12}.key()
	switch r := r.(type) {
	case model.Cue:
		e := newEncoder()
		encodeCue(e, r)
		return decodePlain(key, e.seal(key), decodeCue)
	case model.Student:
		e := newEncoder()
		encodeStudent(e, r)
		return decodePlain(key, e.seal(key), decodeStudent)
	case model.Session:
		row, err := decodeSessionRow(key, sessionRow{r, 7, 9}.encode(key))
		if err == nil && (row.number != 7 || row.floor != 9) {
			err = fmt.Errorf("number %d, floor %d", row.number, row.floor)
		}
		return row.Session, err
	case model.Game:
		if n, ok := serialIn(r.Session, r.ID); ok {
			place = placeWith(n)
		}
		p, _ := placeOf(place)
		t := fullOf[model.Tally]()
		row, err := decodeGameRow(place, gameRow{r, t}.encode(p, place))
		if err == nil && row.tally != t {
			err = fmt.Errorf("the tally is %+v", row.tally)
		}
		return row.Game, err
	case model.Delivery:
		if n, ok := serialIn("S", r.ID); ok {
			place = placeWith(n)
		}
		by := trail{n: 300, how: model.Named, began: true}
		row, err := decodeDeliveryRow("S", place, deliveryRow{r, by}.encode("S", place))
		if err == nil && row.trail != by {
			err = fmt.Errorf("the trail is %+v", row.trail)
		}
		return row.Delivery, err
	}
	return nil, fmt.Errorf("no row for %T", r)
}

func placeWith(serial uint32) []byte { return place{7, serial}.key() }

func TestEveryFieldComesBack(t *testing.T) {
	for _, r := range allRecords() {
		got, err := throughRow(r)
		if diff := cmp.Diff(r, got); diff != "" || err != nil {
			t.Errorf("%T: %s%v", r, diff, err)
		}
	}
	for _, step := range []model.Step{stepOf(false), stepOf(true)} {
		e := &encoder{ids: new([]model.ID)}
		encodeSteps(e, []model.Step{step})
		d := &decoder{b: e.b, ids: new([]model.ID)}
		got := decodeSteps(d)
		if d.err != nil || len(got) != 1 {
			t.Fatalf("%d steps, %v", len(got), d.err)
		}
		if diff := cmp.Diff(step, got[0]); diff != "" {
			t.Errorf("the step comes back otherwise: %s", diff)
		}
	}
}

// stepOf gives a step that changes, makes and takes away a record of every kind, as far as the journal has to know it.
func stepOf(undo bool) model.Step {
	s := model.Step{
		Session: "S", Undo: undo, Up: fullOf[model.Up](),
		Action:  model.Action{N: 9, Student: "ada", How: model.Counted, What: "words", Call: fullOf[model.Call]()},
		Tallies: map[model.ID]model.Tally{"S-3": fullOf[model.Tally](), "g": {}},
	}
	for _, r := range allRecords() {
		for _, c := range []model.Change{{After: r}, {Before: r, After: r}, {Before: r}} {
			if c.Ref = r.Ref(); undo {
				c.Before = nil
			}
			s.Changes = append(s.Changes, c)
		}
	}
	if !undo {
		s.Action.Changes = s.Changes
	}
	return s
}

func TestAnEntryComesBack(t *testing.T) {
	entry := stepOf(false).Action.Entry()
	entry.Call = model.Known(fullOf[model.Call]())
	key := actionKey(7, entry.N)
	got, err := decodeEntry("S", entry.N, key, encodeEntry("S", key, entry))
	if diff := cmp.Diff(entry, got); diff != "" || err != nil {
		t.Errorf("%s%v", diff, err)
	}
}

func TestAnyDeliveryComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDelivery(t)
		got, err := throughRow(d)
		if diff := cmp.Diff(model.Record(d), got, cmp.Comparer(sameBits)); diff != "" || err != nil {
			t.Fatalf("%s%v", diff, err)
		}
	})
}

// sameBits compares numbers exactly, the sign of zero and what is no number too.
func sameBits(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }

func anyDelivery(t *rapid.T) model.Delivery {
	whole := func(name string) int {
		return rapid.OneOf(rapid.IntRange(0, 12), rapid.IntRange(0, 1<<20)).Draw(t, name)
	}
	text := func(name string) string { return rapid.StringN(0, 40, -1).Draw(t, name) }
	yes := func(name string) bool { return rapid.Bool().Draw(t, name) }
	line := func(name string) model.Line {
		return model.Line{
			Arrows: anyMeasure(t, name+" arrows"), Slide: anyMeasure(t, name+" slide"),
			Breakpoint: anyMeasure(t, name+" breakpoint"), BreakpointFt: anyMeasure(t, name+" feet"),
		}
	}
	d := model.Delivery{
		ID: anyID(t, "id"), Game: anyID(t, "game"), Seq: whole("seq"), Lane: whole("lane"), Frame: whole("frame"), Ball: whole("ball"),
		At:      time.Unix(rapid.Int64Range(-62135596800, 253402300799).Draw(t, "at"), 0).UTC(),
		Touched: yes("touched"), Seen: yes("seen"), Dead: yes("dead"), Foul: yes("foul"),
		Weights: rapid.SampledFrom(append(usualWeights, model.Weights{1, 2, 3, 94})).Draw(t, "weights"),
		Bar:     model.ShotGrade(rapid.IntRange(0, 12).Draw(t, "bar")), Own: model.ShotGrade(rapid.IntRange(0, 12).Draw(t, "own")),
		Level: model.Level(rapid.SampledFrom(append(levelWords, "later")).Draw(t, "level")),
		Side:  model.Side(rapid.SampledFrom(append(sideWords, "later")).Draw(t, "side")), SideBoards: whole("boards"),
		Hit: model.Hit(rapid.SampledFrom(append(hitWords, "later")).Draw(t, "hit")), HitBoards: anyMeasure(t, "hit"),
		Aimed: line("aimed"), Line: line("line"), SpeedMPH: anyMeasure(t, "speed"),
		Bowled: text("bowled"), Cue: text("cue"), Note: text("note"),
	}
	for i := range d.Letters {
		d.Letters[i] = model.Letter(rapid.IntRange(0, int(model.A)).Draw(t, "letter"))
	}
	if yes("pins known") {
		d.Pins = model.Known(whole("pins"))
	}
	if yes("after known") {
		d.After = tenpin.Standing(tenpin.PinSet(rapid.IntRange(0, int(tenpin.AllPins)).Draw(t, "after")))
	}
	return d
}

func anyID(t *rapid.T, name string) model.ID {
	return model.ID(rapid.OneOf(rapid.StringMatching(`S-[0-9]{1,11}`), rapid.StringMatching(`[A-Za-z0-9_-]{1,40}`)).Draw(t, name))
}

func anyMeasure(t *rapid.T, name string) model.Optional[float64] {
	return rapid.OneOf(
		rapid.Just(model.Optional[float64]{}),
		rapid.Map(rapid.IntRange(-100, 100), func(n int) model.Optional[float64] { return model.Known(float64(n) / 2) }),
		rapid.Map(rapid.IntRange(-1000, 1000), func(n int) model.Optional[float64] { return model.Known(float64(n) / 10) }),
		rapid.Map(rapid.Float64(), func(f float64) model.Optional[float64] { return model.Known(f) }),
		rapid.SampledFrom([]model.Optional[float64]{model.Known(math.Copysign(0, -1)), model.Known(math.Inf(1)), model.Known(math.NaN())}),
	).Draw(t, name)
}

func TestSerialsAreWhatTheModelSaysTheyAre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		session := model.ID(rapid.StringMatching(`S|S-|S-1`).Draw(t, "session"))
		id := anyID(t, "id")
		want, ok := model.Serial(session, id)
		got, gotOK := serialIn(session, id)
		if ok = ok && uint64(want) < ownSerial; gotOK != ok || ok && got != ownSerial+uint32(want) {
			t.Fatalf("%q in %q is %d, %v; the model says %d, %v", id, session, got, gotOK, want, ok)
		}
	})
}

func TestAValueThatWasChangedIsRefused(t *testing.T) {
	key := placeWith(ownSerial + 5)
	value := deliveryRow{Delivery: fullOf[model.Delivery]()}.encode("S", key)
	for i := range value {
		for bit := range 8 {
			changed := append([]byte(nil), value...)
			changed[i] ^= 1 << bit
			if _, err := decodeDeliveryRow("S", key, changed); err == nil {
				t.Fatalf("bit %d of byte %d is wrong and nothing is said", bit, i)
			}
		}
	}
	if _, err := decodeDeliveryRow("S", placeWith(ownSerial+6), value); err == nil {
		t.Error("a value under another's key is read")
	}
	for n := range value {
		if _, err := decodeDeliveryRow("S", key, value[:n]); err == nil {
			t.Errorf("a value cut to %d of %d bytes is read", n, len(value))
		}
	}
}

func TestWhatALaterVersionAddsIsLeftAlone(t *testing.T) {
	want := fullOf[model.Delivery]()
	key := placeWith(12)
	e := newEncoder()
	e.count(0)
	encodeDelivery(e, "S", &want)
	e.text("a field of a later version")
	got, err := decodeDeliveryRow("S", key, e.seal(key))
	if diff := cmp.Diff(want, got.Delivery); diff != "" || err != nil {
		t.Errorf("%s%v", diff, err)
	}
	later := append([]byte{valueVersion + 1}, e.b[1:]...)
	if _, err := decodeDeliveryRow("S", key, (&encoder{b: later}).seal(key)); err == nil || !strings.Contains(err.Error(), "form 2") {
		t.Errorf("a value of a later form: %v", err)
	}
}
