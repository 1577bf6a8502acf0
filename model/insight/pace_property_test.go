package insight

import (
	"math"
	"testing"

	"coach.settee/model"
	"coach.settee/model/tenpin"
	"pgregory.net/rapid"
)

// The whole sum over again, by rising factorials in fractions and with the
// racks of the tenth counted ball by ball.
func TestPaceAgainstDirectSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, at := drawInput(t), drawPosition(t)
		p := GamePace(in, at)
		m := (float64(in.PastGood) + 12*in.Goal/ExpectedRacks(in.Rates)) / float64(in.PastSeen+12)
		a, b := 12*m+float64(in.Good), 12*(1-m)+float64(in.Seen-in.Good)
		expected, chance := float64(in.Good), 0.0
		for n, weight := range walk(at, in.Rates) {
			for k := range n + in.Unseen + 1 {
				q := weight * directly(a, b, k, n+in.Unseen)
				expected += q * float64(k)
				if float64(in.Good+k) >= in.Goal {
					chance += q
				}
			}
		}
		near(t, "expected", p.Expected, expected, 1e-10)
		near(t, "chance", p.Chance, chance, 1e-12)
	})
}

// walk bowls the rest of a game ball by ball, by the rules that the score is
// kept by, and gives the chance of each number of full racks in it.
func walk(from tenpin.Position, r Rates) map[int]float64 {
	type state struct {
		at    tenpin.Position
		racks int
	}
	odds, now := map[int]float64{}, map[state]float64{{from, 0}: 1}
	for len(now) > 0 {
		next := map[state]float64{}
		for s, weight := range now {
			if s.at.Over() {
				odds[s.racks] += weight
				continue
			}
			cleared := r.Spare
			if s.at.FullRack() {
				s.racks++
				cleared = r.Strike
			}
			next[state{bowled(s.at, tenpin.Ball{Pins: s.at.StandingCount()}), s.racks}] += weight * cleared
			next[state{bowled(s.at, tenpin.Ball{}), s.racks}] += weight * (1 - cleared)
		}
		now = next
	}
	return odds
}

func TestPaceProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, at := drawInput(t), drawPosition(t)
		p := GamePace(in, at)
		if p.Chance < 0 || p.Chance > 1 {
			t.Fatalf("chance %v", p.Chance)
		}
		if (p.Chance == 0) != (p.Needed > p.OpenMax) || p.Needed == 0 && p.Chance != 1 {
			t.Fatalf("chance %v with %d needed of at most %d", p.Chance, p.Needed, p.OpenMax)
		}
		if p.Expected < float64(in.Good) || p.Expected > float64(in.Good+p.OpenMax) {
			t.Fatalf("expected %v, good %d, at most %d open", p.Expected, in.Good, p.OpenMax)
		}
		if words := p.Words(); len(words) == 0 || len(words) > 47 {
			t.Fatalf("%d columns: %q", len(words), words)
		}
		if in.Good < in.Seen {
			better := in
			better.Good++
			q := GamePace(better, at)
			if q.Expected <= p.Expected || q.Chance < p.Chance-1e-14 {
				t.Fatalf("one more good lowers the pace: %+v to %+v", p, q)
			}
		}
	})
}

// Before a rack is thrown its outcome is already in the pace: averaged over
// good and bad with the posterior mean, the pace after it is the pace before.
func TestPaceIsFairFromRackToRack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawInput(t)
		number := rapid.IntRange(1, 8).Draw(t, "frame")
		now := GamePace(in, frame(number))
		a, b := in.held().posterior()
		good, bad := in, in
		good.Good, good.Seen, bad.Seen = in.Good+1, in.Seen+1, in.Seen+1
		next := func(p func(Pace) float64) float64 {
			return a/(a+b)*p(GamePace(good, frame(number+1))) + b/(a+b)*p(GamePace(bad, frame(number+1)))
		}
		near(t, "expected", next(func(p Pace) float64 { return p.Expected }), now.Expected, 1e-11)
		near(t, "chance", next(func(p Pace) float64 { return p.Chance }), now.Chance, 1e-12)
	})
}

func drawInput(t *rapid.T) PaceInput {
	share := func(name string, most int) (part, whole int) {
		whole = rapid.IntRange(0, most).Draw(t, name+" seen")
		return rapid.IntRange(0, whole).Draw(t, name+" good"), whole
	}
	in := PaceInput{Goal: float64(rapid.IntRange(1, 20).Draw(t, "half goals")) / 2}
	strikes, fullRacks := share("strikes", 120)
	spares, tries := share("spares", 100)
	in.Rates = ShrinkRates(LevelRates(rapid.SampledFrom(model.Levels[:]).Draw(t, "level")), strikes, fullRacks, spares, tries)
	in.PastGood, in.PastSeen = share("past", 120)
	in.Good, in.Seen = share("now", 12)
	in.Unseen = rapid.IntRange(0, 12).Draw(t, "unseen")
	return in
}

// drawPosition bowls balls of any pins, fouls among them, from the start.
func drawPosition(t *rapid.T) tenpin.Position {
	var p tenpin.Position
	for range rapid.IntRange(0, 21).Draw(t, "balls") {
		if p.Over() {
			break
		}
		b := tenpin.Ball{Pins: rapid.IntRange(0, p.StandingCount()).Draw(t, "pins")}
		b.Foul = b.Pins == 0 && rapid.Bool().Draw(t, "foul")
		p = bowled(p, b)
	}
	return p
}

func BenchmarkGamePace(b *testing.B) {
	in := PaceInput{Goal: 6.5, Rates: regular, PastGood: 55, PastSeen: 108, Good: 2, Seen: 3, Unseen: 1}
	b.ReportAllocs()
	for b.Loop() {
		if p := GamePace(in, frame(5)); math.IsNaN(p.Chance) {
			b.Fatal(p)
		}
	}
}

func BenchmarkPaceWords(b *testing.B) {
	p := GamePace(PaceInput{Goal: 6, Rates: regular, Good: 2, Seen: 4, Unseen: 1}, frame(6))
	b.ReportAllocs()
	for b.Loop() {
		if p.Words() == "" {
			b.Fatal("no words")
		}
	}
}

func BenchmarkDrillPaceLongest(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := DrillPace(PaceInput{Goal: 6, Rates: regular}, Drill{Length: LongestDrill}); !ok {
			b.Fatal("no pace")
		}
	}
}
