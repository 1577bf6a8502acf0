package insight

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"coach.settee/model"
	"coach.settee/model/tenpin"
)

// evening0 is when the invented first evening begins; evening n is n weeks later.
var evening0 = time.Date(2026, 3, 2, 18, 0, 0, 0, time.UTC)

// with changes a delivery that ball made.
type with func(*model.Delivery)

// ball makes a delivery: the pins that fell and the letters in axis order, "·" for an axis not watched, "" for one that
// was not seen. Weights are equal, the bar is A-, the level regular, the lane 7; a letter below A counts as touched.
func ball(pins int, letters string, more ...with) model.Delivery {
	d := model.Delivery{
		Pins: model.Known(pins), Weights: model.Weights{25, 25, 25, 25}, Bar: model.GradeAMinus, Level: model.Regular, Lane: 7,
		Seen: letters != "",
	}
	for i, r := range []rune(letters) {
		if r == '·' {
			continue
		}
		l, err := model.ParseLetter(string(r))
		if err != nil {
			panic(err)
		}
		d.Letters[i] = l
		d.Touched = d.Touched || l != model.A
	}
	for _, m := range more {
		m(&d)
	}
	return d
}

func left(pins ...int) with {
	return func(d *model.Delivery) { d.After = tenpin.Standing(tenpin.Pins(pins...)) }
}
func hit(h model.Hit) with          { return func(d *model.Delivery) { d.Hit = h } }
func hitBoards(b float64) with      { return func(d *model.Delivery) { d.HitBoards = model.Known(b) } }
func cue(text string) with          { return func(d *model.Delivery) { d.Cue = text } }
func own(g model.ShotGrade) with    { return func(d *model.Delivery) { d.Own = g } }
func lane(n int) with               { return func(d *model.Delivery) { d.Lane = n } }
func touched() with                 { return func(d *model.Delivery) { d.Touched = true } }
func atLevel(l model.Level) with    { return func(d *model.Delivery) { d.Level = l } }
func weights(w model.Weights) with  { return func(d *model.Delivery) { d.Weights = w } }
func speed(mph float64) with        { return func(d *model.Delivery) { d.SpeedMPH = model.Known(mph) } }
func side(s model.Side, n int) with { return func(d *model.Delivery) { d.Side, d.SideBoards = s, n } }

func arrows(aimed, took float64) with {
	return func(d *model.Delivery) {
		d.Aimed.Arrows, d.Line.Arrows = model.Known(aimed), model.Known(took)
	}
}

func fouled() with { return func(d *model.Delivery) { d.Foul, d.Pins = true, model.Known(0) } }

func dead() with {
	return func(d *model.Delivery) {
		*d = model.Delivery{Dead: true, Weights: d.Weights, Bar: d.Bar, Level: d.Level, Lane: d.Lane}
	}
}

// game makes a game of an evening (0, 1, ...) and with a number in it.
func game(t testing.TB, evening, number int, balls ...model.Delivery) model.DatedSheet {
	t.Helper()
	return sheet(t, model.Game{Kind: model.KindGame}, evening, number, balls...)
}

// sheet makes a game, drill or warm-up of an evening and with a number in it.
func sheet(t testing.TB, g model.Game, evening, number int, balls ...model.Delivery) model.DatedSheet {
	t.Helper()
	at := evening0.AddDate(0, 0, 7*evening)
	g.Session, g.Student, g.Number = model.ID(fmt.Sprintf("s%d", evening)), "ada", number
	g.ID = model.ID(fmt.Sprintf("%s-g%d", g.Session, number))
	ds := make([]model.Delivery, len(balls))
	for i, d := range balls {
		d.ID, d.Game = model.ID(fmt.Sprintf("%s-%d", g.ID, i+1)), g.ID
		d.At = at.Add(time.Duration(number*60+i) * time.Minute)
		ds[i] = d
	}
	s, err := model.NewSheet(g, ds)
	if err != nil {
		t.Fatalf("game %s: %v", g.ID, err)
	}
	return model.DatedSheet{Sheet: s, At: at}
}

// times repeats balls.
func times(n int, balls ...model.Delivery) []model.Delivery {
	var out []model.Delivery
	for range n {
		out = append(out, balls...)
	}
	return out
}

// published reads a table of testdata/published without its header.
func published(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 2 {
		t.Fatalf("%s has no rows", name)
	}
	return rows[1:]
}

// parsed reads the numbers of a table's cells.
func parsed(t testing.TB, cells ...string) []float64 {
	t.Helper()
	out := make([]float64, len(cells))
	for i, c := range cells {
		if _, err := fmt.Sscan(c, &out[i]); err != nil {
			t.Fatalf("%q is no number: %v", c, err)
		}
	}
	return out
}

// halfUnit is half a unit of the last place that a figure is printed to: how far rounding may have moved it.
func halfUnit(printed string) float64 {
	unit := 0.5
	if _, decimals, has := strings.Cut(printed, "."); has {
		unit *= math.Pow10(-len(decimals))
	}
	return unit * (1 + 1e-9)
}
