package insight

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"coach.settee/model"
)

func TestNormalQuantile(t *testing.T) {
	near(t, "z", z95, distuv.UnitNormal.Quantile(.975), 1e-14)
}

// Sources: testdata/published/README.md.
func TestWilsonAgainstPublished(t *testing.T) {
	for _, row := range published(t, "wilson.csv") {
		v := parsed(t, row[:4]...)
		in := Part{int(v[0]), int(v[1])}.Wilson().Value
		near(t, fmt.Sprintf("low of %s of %s", row[0], row[1]), in.Low, v[2], halfUnit(row[2]))
		near(t, fmt.Sprintf("high of %s of %s", row[0], row[1]), in.High, v[3], halfUnit(row[3]))
	}
}

// Sources: testdata/published/README.md.
func TestDifferenceAgainstPublished(t *testing.T) {
	for _, row := range published(t, "newcombe.csv") {
		v := parsed(t, row[:6]...)
		p, q := Part{int(v[0]), int(v[1])}, Part{int(v[2]), int(v[3])}
		difference, in := p.Difference(q)
		what := fmt.Sprintf("%s less %s", p, q)
		near(t, what, difference.Value, v[0]/v[1]-v[2]/v[3], 1e-15)
		near(t, "low of "+what, in.Value.Low, v[4], halfUnit(row[4]))
		near(t, "high of "+what, in.Value.High, v[5], halfUnit(row[5]))
	}
}

// scoreLimit finds where the score test just rejects at 5%, (share-x)^2 = z^2 x (1-x)/n, by halving between the share and
// an end.
func scoreLimit(k, n int, end float64) float64 {
	z := distuv.UnitNormal.Quantile(.975)
	share := float64(k) / float64(n)
	inside, outside := share, end
	for range 200 {
		x := (inside + outside) / 2
		if math.Abs(share-x) <= z*math.Sqrt(x*(1-x)/float64(n)) {
			inside = x
		} else {
			outside = x
		}
	}
	return inside
}

func TestWilsonSolvesTheScoreEquation(t *testing.T) {
	for n := 1; n <= 40; n++ {
		for k := 0; k <= n; k++ {
			in := Part{k, n}.Wilson().Value
			near(t, fmt.Sprintf("low of %d of %d", k, n), in.Low, scoreLimit(k, n, 0), 1e-12)
			near(t, fmt.Sprintf("high of %d of %d", k, n), in.High, scoreLimit(k, n, 1), 1e-12)
		}
	}
}

// The paper writes the distances of method 10 as z times the root of the variances at the score limits.
func TestDifferenceByTheVariancesAtTheLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPart(t, "p"), drawPart(t, "q")
		difference, in := p.Difference(q)
		away := func(x float64, a Part, y float64, b Part) float64 {
			return distuv.UnitNormal.Quantile(.975) * math.Sqrt(x*(1-x)/float64(a.Of)+y*(1-y)/float64(b.Of))
		}
		lowP, highP := scoreLimit(p.N, p.Of, 0), scoreLimit(p.N, p.Of, 1)
		lowQ, highQ := scoreLimit(q.N, q.Of, 0), scoreLimit(q.N, q.Of, 1)
		near(t, "low", in.Value.Low, difference.Value-away(lowP, p, highQ, q), 1e-11)
		near(t, "high", in.Value.High, difference.Value+away(highP, p, lowQ, q), 1e-11)
	})
}

func TestDifferenceProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPart(t, "p"), drawPart(t, "q")
		difference, in := p.Difference(q)
		back, turned := q.Difference(p)
		near(t, "turned round", back.Value, -difference.Value, 0)
		near(t, "low turned round", turned.Value.Low, -in.Value.High, 1e-15)
		near(t, "high turned round", turned.Value.High, -in.Value.Low, 1e-15)
		if in.Value.Low < -1 || in.Value.High > 1 || in.Value.Low > difference.Value || in.Value.High < difference.Value {
			t.Fatalf("%s less %s is %v within %v", p, q, difference.Value, in.Value)
		}
		own := p.Wilson().Value
		if share := p.Rate().Value; own.Low < 0 || own.High > 1 || share < own.Low || share > own.High {
			t.Fatalf("%s is %v within %v", p, share, own)
		}
	})
}

func TestNothingIsKnownOfNone(t *testing.T) {
	none, some := Part{}, Part{1, 2}
	if none.Rate().Known || none.Wilson().Known || none.Percent() != "" {
		t.Error("none has a rate")
	}
	for _, pair := range [][2]Part{{none, some}, {some, none}, {none, none}} {
		difference, in := pair[0].Difference(pair[1])
		if difference != (model.Optional[float64]{}) || in != (model.Optional[Interval]{}) {
			t.Errorf("%s less %s is %v, %v", pair[0], pair[1], difference, in)
		}
	}
}

func TestPartWords(t *testing.T) {
	tests := []struct {
		part           Part
		count, percent string
		words          string
	}{
		{Part{40, 54}, "40 of 54", "74%", "40 of 54 (74%)"},
		{Part{54, 66}, "54 of 66", "82%", "54 of 66 (82%)"},
		{Part{1, 8}, "1 of 8", "13%", "1 of 8; too few to say"},
		{Part{0, 10}, "0 of 10", "0%", "0 of 10 (0%)"},
		{Part{10, 10}, "10 of 10", "100%", "10 of 10 (100%)"},
		{Part{0, 0}, "0 of 0", "", "0 of 0; too few to say"},
	}
	for _, tt := range tests {
		if tt.part.String() != tt.count || tt.part.Percent() != tt.percent || tt.part.words() != tt.words {
			t.Errorf("%q, %q, %q; want %q, %q, %q",
				tt.part, tt.part.Percent(), tt.part.words(), tt.count, tt.percent, tt.words)
		}
	}
}

func drawPart(t *rapid.T, name string) Part {
	of := rapid.IntRange(1, 400).Draw(t, name+" of")
	return Part{rapid.IntRange(0, of).Draw(t, name), of}
}
