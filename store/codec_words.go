package store

import "coach.settee/model"

// The tables of words and weights are part of the file's form: entries are added at the end and never changed, whatever
// the level defaults of a later version are.
var (
	levelWords = []string{"", "new", "developing", "regular", "advanced", "elite"}
	sideWords  = []string{"", "in", "out"}
	hitWords   = []string{"", "pocket", "high", "nose", "brooklyn", "light", "missed"}
	kindWords  = []string{"", "game", "drill", "warmup"}
	handWords  = []string{"", "right", "left"}
	styleWords = []string{"", "one-hand", "two-hand", "no-thumb"}
	toneWords  = []string{"", "gentle", "plain", "blunt"}

	motionWords    = []string{"", "swing", "mixed", "throw"}
	directionWords = []string{"", "straight", "inward", "outward"}
	handAtWords    = []string{"", "behind", "beside", "over"}
	timingWords    = []string{"", "early", "on time", "late"}
	learningWords  = []string{"", "seeing", "hearing", "feeling"}

	usualWeights = []model.Weights{{}, {40, 30, 20, 10}, {30, 30, 25, 15}, {25, 30, 25, 20}, {25, 25, 25, 25}}
)

// inFull is the code of a word that is in no table and follows as text.
const inFull = 255

// word writes a word by its code.
func word[T ~string](e *encoder, table []string, w T) {
	for i, known := range table {
		if string(w) == known {
			e.byte(byte(i))
			return
		}
	}
	e.byte(inFull)
	e.text(string(w))
}

func readWord[T ~string](d *decoder, table []string) T {
	code := d.byte()
	switch {
	case code == inFull:
		return T(d.text())
	case int(code) >= len(table):
		d.fail(errWord)
		return ""
	}
	return T(table[code])
}

func (e *encoder) weights(w model.Weights) {
	for i, usual := range usualWeights {
		if w == usual {
			e.byte(byte(i))
			return
		}
	}
	e.byte(inFull)
	for _, n := range w {
		e.count(n)
	}
}

func (d *decoder) weights() model.Weights {
	code := d.byte()
	var w model.Weights
	switch {
	case code == inFull:
		for i := range w {
			w[i] = d.count()
		}
	case int(code) >= len(usualWeights):
		d.fail(errWord)
	default:
		w = usualWeights[code]
	}
	return w
}

// letters packs four letters into two bytes.
func (e *encoder) letters(l model.Letters) {
	e.byte(byte(l[0])<<4 | byte(l[1])&15)
	e.byte(byte(l[2])<<4 | byte(l[3])&15)
}

func (d *decoder) letters() model.Letters {
	a, b := d.byte(), d.byte()
	return model.Letters{model.Letter(a >> 4), model.Letter(a & 15), model.Letter(b >> 4), model.Letter(b & 15)}
}

func (e *encoder) line(l model.Line) { e.numbers(l.Arrows, l.Slide, l.Breakpoint, l.BreakpointFt) }

func (d *decoder) line() model.Line {
	var l model.Line
	d.numbers(&l.Arrows, &l.Slide, &l.Breakpoint, &l.BreakpointFt)
	return l
}
