package store

import (
	"slices"
	"strings"
	"time"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

type (
	number  = model.Optional[float64]
	instant = time.Time
	leave   = tenpin.Leave
	pinSet  = tenpin.PinSet
)

// always makes a key one that every line of its type has.
func always[T any](f field[T]) field[T] {
	f.when, f.must = nil, true
	return f
}

// exactlyWhen makes a key one that is there if, and only if, when says so.
func exactlyWhen[T any](when func(*T) bool, f field[T]) field[T] {
	f.when, f.must = when, true
	return f
}

func textField[T any](key string, at func(*T) *string) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return *at(v) != "" },
		write: func(b []byte, v *T) []byte { return appendText(b, *at(v)) },
		read:  func(r *lineReader, v *T) { *at(v) = r.text() },
	}
}

func idField[T any](key string, at func(*T) *model.ID) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return *at(v) != "" },
		write: func(b []byte, v *T) []byte { return appendText(b, string(*at(v))) },
		read: func(r *lineReader, v *T) {
			id := model.ID(r.text())
			*at(v) = id
			r.check(id.Validate)
		},
	}
}

// wordField is a text that can only be one of some words.
func wordField[T any, S ~string](key string, at func(*T) *S, words ...S) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return *at(v) != "" },
		write: func(b []byte, v *T) []byte { return appendText(b, string(*at(v))) },
		read: func(r *lineReader, v *T) {
			b, plain := r.textBytes()
			for _, w := range words {
				if string(w) == string(b) {
					*at(v) = w
					return
				}
			}
			w := r.kept(b, plain)
			r.refuse("%q is none of %s", short(w), joinWords(words))
		},
	}
}

func joinWords[S ~string](words []S) string {
	all := make([]string, len(words))
	for i, w := range words {
		all[i] = string(w)
	}
	return strings.Join(all, ", ")
}

// spelling reads a text that parse knows.
func spelling[V any](r *lineReader, parse func(string) (V, error)) V {
	v, err := parse(short(r.text()))
	r.check(func() error { return err })
	return v
}

func gradeField[T any](key string, at func(*T) *model.ShotGrade) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return *at(v) != model.Ungraded },
		write: func(b []byte, v *T) []byte { return appendText(b, at(v).String()) },
		read:  func(r *lineReader, v *T) { *at(v) = spelling(r, model.ParseShotGrade) },
	}
}

func axisField[T any](key string, at func(*T) *model.Axis) field[T] {
	return field[T]{
		key:   key,
		write: func(b []byte, v *T) []byte { return appendAxis(b, *at(v)) },
		read:  func(r *lineReader, v *T) { *at(v) = spelling(r, model.ParseAxis) },
	}
}

func axesField[T any](key string, at func(*T) *model.AxisSet) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return *at(v) != 0 },
		write: func(b []byte, v *T) []byte { return appendList(b, axesOf(*at(v)), appendAxis) },
		read: func(r *lineReader, v *T) {
			r.list(model.AxisCount, func(int) {
				a := spelling(r, model.ParseAxis)
				if r.err == nil && at(v).Has(a) {
					r.refuse("%s is there twice", a)
				}
				*at(v) = at(v).With(a)
			})
			if *at(v) == 0 {
				r.refuse("no axis is named: leave the key out")
			}
		},
	}
}

func axesOf(set model.AxisSet) []model.Axis {
	return slices.DeleteFunc(slices.Clone(model.Axes[:]), func(a model.Axis) bool { return !set.Has(a) })
}

func wholeField[T any](key string, low, high int, at func(*T) *int) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return *at(v) != 0 },
		write: func(b []byte, v *T) []byte { return appendWhole(b, *at(v)) },
		read:  func(r *lineReader, v *T) { *at(v) = r.whole(low, high) },
	}
}

func knownWhole[T any](key string, low, high int, at func(*T) *model.Optional[int]) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return at(v).Known },
		write: func(b []byte, v *T) []byte { return appendWhole(b, at(v).Value) },
		read:  func(r *lineReader, v *T) { *at(v) = model.Known(r.whole(low, high)) },
	}
}

func numberField[T any](key string, low, high float64, at func(*T) *number) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return at(v).Known },
		write: func(b []byte, v *T) []byte { return appendNumber(b, at(v).Value) },
		read:  func(r *lineReader, v *T) { *at(v) = model.Known(r.number(low, high)) },
	}
}

func goalField[T any](key string, at func(*T) *model.Goal) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return *at(v) != 0 },
		write: func(b []byte, v *T) []byte { return appendNumber(b, at(v).Shots()) },
		read: func(r *lineReader, v *T) {
			g, err := model.GoalOf(r.number(-maxCount, maxCount))
			*at(v) = g
			r.check(func() error { return err })
		},
	}
}

func flagField[T any](key string, at func(*T) *bool) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return *at(v) },
		write: func(b []byte, v *T) []byte { return appendFlag(b, *at(v)) },
		read:  func(r *lineReader, v *T) { *at(v) = r.flag() },
	}
}

func timeField[T any](key string, at func(*T) *instant) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return !at(v).IsZero() },
		write: func(b []byte, v *T) []byte { return appendText(b, at(v).UTC().Format(timeLayout)) },
		read:  func(r *lineReader, v *T) { *at(v) = r.date(timeLayout, "2026-03-04T18:00:00Z, in UTC to the second") },
	}
}

func dateField[T any](key string, at func(*T) *string) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return *at(v) != "" },
		write: func(b []byte, v *T) []byte { return appendText(b, *at(v)) },
		read:  func(r *lineReader, v *T) { *at(v) = r.date(time.DateOnly, "2026-03-11").Format(time.DateOnly) },
	}
}

// timeLayout is RFC 3339 in UTC to the second.
const timeLayout = "2006-01-02T15:04:05Z"

func weightsField[T any](key string, at func(*T) *model.Weights) field[T] {
	return field[T]{
		key:  key,
		when: func(v *T) bool { return *at(v) != model.Weights{} },
		write: func(b []byte, v *T) []byte {
			return appendList(b, at(v)[:], appendWhole)
		},
		read: func(r *lineReader, v *T) {
			w := at(v)
			r.exactly(model.AxisCount, func(i int) { w[i] = r.whole(0, 100) })
			r.check(w.Validate)
		},
	}
}

func lettersField[T any](key string, at func(*T) *model.Letters) field[T] {
	return field[T]{
		key: key,
		write: func(b []byte, v *T) []byte {
			return appendList(b, at(v)[:], func(b []byte, l model.Letter) []byte { return appendText(b, l.String()) })
		},
		read: func(r *lineReader, v *T) {
			r.exactly(model.AxisCount, func(i int) { at(v)[i] = spelling(r, model.ParseLetter) })
		},
	}
}

// chosenLetters are letters that are there only if at least one was chosen.
func chosenLetters[T any](key string, at func(*T) *model.Letters) field[T] {
	f := lettersField(key, at)
	f.when = func(v *T) bool { return *at(v) != model.Letters{} }
	all := f.read
	f.read = func(r *lineReader, v *T) {
		all(r, v)
		if *at(v) == (model.Letters{}) {
			r.refuse("no letter is chosen: leave the key out")
		}
	}
	return f
}

func pinsField[T any](key string, at func(*T) *pinSet) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return *at(v) != 0 },
		write: func(b []byte, v *T) []byte { return appendPins(b, *at(v)) },
		read: func(r *lineReader, v *T) {
			*at(v) = r.pins()
			if *at(v) == 0 {
				r.refuse("no pin is named: leave the key out")
			}
		},
	}
}

func leaveField[T any](key string, at func(*T) *leave) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return at(v).Known },
		write: func(b []byte, v *T) []byte { return appendPins(b, at(v).Pins) },
		read:  func(r *lineReader, v *T) { *at(v) = tenpin.Standing(r.pins()) },
	}
}

func textsField[T any](key string, at func(*T) *[]string) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { return len(*at(v)) > 0 },
		write: func(b []byte, v *T) []byte { return appendList(b, *at(v), appendText) },
		read: func(r *lineReader, v *T) {
			r.list(maxList, func(int) { *at(v) = append(*at(v), r.text()) })
		},
	}
}

func pairsField[T any](key string, at func(*T) *[]model.Pair) field[T] {
	return field[T]{
		key: key,
		write: func(b []byte, v *T) []byte {
			return appendList(b, *at(v), func(b []byte, p model.Pair) []byte { return appendList(b, p[:], appendWhole) })
		},
		read: func(r *lineReader, v *T) {
			r.list(maxList, func(int) {
				var p model.Pair
				r.exactly(len(p), func(i int) { p[i] = r.whole(1, model.MaxLane) })
				*at(v) = append(*at(v), p)
			})
		},
	}
}

// objectField is an object in the object, there if anything of it is known.
func objectField[T any, V comparable](key string, fields []field[V], at func(*T) *V) field[T] {
	return field[T]{
		key:   key,
		when:  func(v *T) bool { var none V; return *at(v) != none },
		write: func(b []byte, v *T) []byte { return appendObject(b, "", fields, at(v)) },
		read:  func(r *lineReader, v *T) { readObject(r, "", fields, at(v)) },
	}
}

// objectsField is a list of objects, there if there are any.
func objectsField[T, V any](key string, fields []field[V], at func(*T) *[]V) field[T] {
	return field[T]{
		key:  key,
		when: func(v *T) bool { return len(*at(v)) > 0 },
		write: func(b []byte, v *T) []byte {
			return appendList(b, *at(v), func(b []byte, o V) []byte { return appendObject(b, "", fields, &o) })
		},
		read: func(r *lineReader, v *T) {
			r.list(maxList, func(int) {
				var o V
				readObject(r, "", fields, &o)
				*at(v) = append(*at(v), o)
			})
		},
	}
}
