package insight

import (
	"slices"
	"strings"
	"testing"

	"coach.settee/model"
	"pgregory.net/rapid"
)

// studied makes the report of two games, 22 full racks seen, of which so many were good, with the axes' shares of the rest.
func studied(good int, shares ...float64) Report {
	r := Report{Games: 2, Counts: Counts{Good: Part{good, 22}}, Cost: Cost{NotGood: 22 - good}}
	copy(r.Cost.ByAxis[:], shares)
	return r
}

func TestNextWhat(t *testing.T) {
	priced := func(r Report, single Part, perGood, perSingle float64) Report {
		r.Spares.Single = single
		if perGood != 0 {
			r.Worth.PerGoodShot = model.Known(perGood)
		}
		if perSingle != 0 {
			r.Worth.PerSingle = model.Known(perSingle)
		}
		return r
	}
	speeds := func(r Report, n int, sd float64) Report {
		r.Consistency.SpeedMPH = Spread{N: n, SD: model.Known(sd)}
		return r
	}
	pocket := func(r Report, unlucky, missed, hits int) Report {
		r.Outcome = Outcome{Unlucky: unlucky, Missed: missed, Pocket: Part{hits, 12}}
		return r
	}
	few := studied(0, 9, 0, 0, 0)
	few.Counts.Good, few.Cost.NotGood = Part{0, 10}, 9
	few.Cost.Ungraded = 1
	ten := few
	ten.Cost.Ungraded = 0
	for _, c := range []struct {
		name  string
		level model.Level
		r     Report
		want  string
	}{
		// Too few.
		{"nothing", model.Regular, Report{}, KeepGoing},
		{"nine graded", model.Regular, few, KeepGoing},
		{"ten graded", model.Regular, ten, "balance"},
		// The axis.
		{"dearest", model.Regular, studied(8, 3, 2, 5, 4), "release"},
		{"equal: the earlier", model.Regular, studied(8, 2, 5, 5, 2), "target"},
		{"order below regular", model.New, studied(8, 3.4, 2.6, 5, 3), "balance"},
		{"clearly more below regular", model.New, studied(8, 3.3, 2.7, 5, 3), "release"},
		{"at the edge the earlier", model.Developing, studied(6, 4, 3, 6, 3), "balance"},
		// Spares, by counts: 6 of 12 left are 3 a game, release costs 2.5.
		{"spares by counts", model.Regular, priced(studied(8, 3, 2, 5, 4), Part{6, 12}, 0, 0), WorkOnSpares},
		// Two more games that nobody watched, without a miss: 1.5 a game.
		{"spares of unseen games", model.Regular, unwatched(priced(studied(8, 3, 2, 5, 4), Part{14, 20}, 0, 0), 22), "release"},
		{"fewer than the axis", model.Regular, priced(studied(8, 3, 2, 5, 4), Part{7, 12}, 0, 0), "release"},
		{"below regular an axis first", model.Developing, priced(studied(8, 3, 2, 5, 4), Part{6, 12}, 0, 0), "release"},
		{"below regular in shots", model.Developing, priced(studied(8, 3, 2, 5, 4), Part{6, 12}, 1, 9), "release"},
		// 8 left are 4 a game, above 1.5 times 2.5.
		{"clearly more than an axis", model.Developing, priced(studied(8, 3, 2, 5, 4), Part{4, 12}, 0, 0), WorkOnSpares},
		// Priced: 3 at 5 pins against 2.5 at 7, and 2.5 against 2.5.
		{"dear shots", model.Regular, priced(studied(8, 3, 2, 5, 4), Part{6, 12}, 7, 5), "release"},
		{"as dear", model.Regular, priced(studied(8, 3, 2, 5, 4), Part{7, 12}, 5, 5), "release"},
		{"dear spares", model.Regular, priced(studied(8, 3, 2, 5, 4), Part{7, 12}, 5, 5.1), WorkOnSpares},
		{"shots worth less than nothing are not priced", model.Regular, priced(studied(8, 3, 2, 5, 4), Part{7, 12}, -2, 6),
			"release"},
		{"one price is none", model.Regular, priced(studied(8, 3, 2, 5, 4), Part{7, 12}, 0, 6.5), "release"},
		{"nine tries", model.Regular, priced(studied(20, 2, 0, 0, 0), Part{0, 9}, 0, 0), KeepGoing},
		{"ten tries", model.Regular, priced(studied(20, 2, 0, 0, 0), Part{0, 10}, 0, 0), WorkOnSpares},
		{"under one a game", model.Regular, priced(studied(22), Part{11, 12}, 0, 0), KeepGoing},
		// Line: eight good ones are four a game.
		{"line", model.Regular, pocket(studied(14, 1, 1, 5, 1), 8, 7, 5), WorkOnLine},
		{"half in the pocket", model.Regular, pocket(studied(14, 1, 1, 5, 1), 8, 7, 6), "release"},
		{"as many poor ones", model.Regular, pocket(studied(14, 1, 1, 5, 1), 8, 8, 5), "release"},
		{"under two a game", model.Regular, pocket(studied(14, 1, 1, 5, 1), 3, 2, 5), "release"},
		{"no line below regular", model.Developing, pocket(studied(14, 1, 1, 5, 1), 8, 7, 5), "release"},
		// Speed: where no axis costs two a game. The goal at elite is 7 a game.
		{"speed", model.Elite, speeds(studied(10, 3, 3, 3, 3), 10, 1), WorkOnSpeed},
		{"even speed", model.Elite, speeds(studied(10, 3, 3, 3, 3), 10, .99), "balance"},
		{"nine speeds", model.Elite, speeds(studied(10, 3, 3, 3, 3), 9, 3), "balance"},
		{"an axis before speed", model.Elite, speeds(studied(10, 2, 3, 3, 4), 10, 3), "finish"},
		// The goal: 5 a game at regular.
		{"goal met", model.Regular, studied(10, 3, 3, 3, 3), KeepGoing},
		{"goal not met", model.Regular, studied(9, 3.25, 3.25, 3.25, 3.25), "balance"},
		{"goal met, an axis stands out", model.Regular, studied(10, 3, 2, 4, 3), "release"},
		{"nothing costs", model.Regular, studied(0), KeepGoing},
	} {
		n := nextOf(model.Student{Level: c.level}, c.r)
		if n.What != c.want || n.ByCoach || n.Figures != "" || n.FiguresWhy != "" {
			t.Errorf("%s: %+v, want %s", c.name, n, c.want)
		}
	}
}

// An axis that costs a little less goes first where its mean is falling, or where the other's is rising.
func TestNextTrend(t *testing.T) {
	means := func(a model.Axis, points ...float64) Trend {
		var tr Trend
		for _, p := range points {
			var g TrendGame
			g.Axes[a] = model.Known(p)
			tr.Games = append(tr.Games, g)
		}
		return tr
	}
	broken := means(model.Target, 4, 4, 3, 3)
	broken.Games[1].Break = true
	const (
		more    = "release cost 5 of the 14 shots that were not good, more than any other"
		falling = "target cost 4.5 of the 14 shots that were not good, and it has been going down"
	)
	for _, c := range []struct {
		name      string
		tone      model.Tone
		trend     Trend
		what, why string
	}{
		{"no trend", model.Plain, Trend{}, "release", more},
		// Target 4.5 against release 5: a whole letter makes it 5.625.
		{"falling", model.Plain, means(model.Target, 4, 4, 3, 3), "target", falling},
		{"falling about a middle game", model.Plain, means(model.Target, 4, 4, 0, 3, 3), "target", falling},
		{"falling, bluntly", model.Blunt, means(model.Target, 4, 4, 3, 3), "target",
			"Target cost 4.5 of 14: it has been going down."},
		{"falling, gently", model.Gentle, means(model.Target, 4, 4, 3, 3), "target",
			"next we look at target: good ones are waiting there"},
		{"three games", model.Plain, means(model.Target, 4, 4, 3), "release", more},
		{"since the level changed", model.Plain, broken, "release", more},
		{"rising", model.Plain, means(model.Release, 2, 2, 3, 3), "target",
			"target cost 4.5 of the 14 shots that were not good, and release is getting better"},
		{"rising, bluntly", model.Blunt, means(model.Release, 2, 2, 3, 3), "target",
			"Target cost 4.5 of 14: release is getting better."},
		{"a little", model.Plain, means(model.Target, 4, 4, 3.8, 3.8), "release", more},
	} {
		r := studied(8, 2, 4.5, 5, 2.5)
		r.Trend = c.trend
		if n := nextOf(model.Student{Level: model.Regular, Tone: c.tone}, r); n.What != c.what || n.Why != c.why {
			t.Errorf("%s: %+v, want %s: %s", c.name, n, c.what, c.why)
		}
	}
	// However far it falls it counts as one letter.
	if got := means(model.Target, 4, 4, 0, 0).fall(model.Target); got != 1 {
		t.Errorf("fall %v, want 1", got)
	}
	if got := means(model.Target, 0, 0, 4, 4).fall(model.Target); got != -1 {
		t.Errorf("fall %v, want -1", got)
	}
}

func TestNextWords(t *testing.T) {
	spares := studied(8, 3, 2, 5, 4)
	spares.Spares.Single = Part{5, 12}
	priced := spares
	priced.Worth = Worth{PerGoodShot: model.Known(5.0), PerSingle: model.Known(6.0), Racks: 20}
	early := priced
	early.Worth.Racks = 19
	line := studied(14, 1, 1, 5, 1)
	line.Outcome = Outcome{Unlucky: 8, Missed: 7, Pocket: Part{5, 12}}
	speed := studied(10, 3, 3, 3, 3)
	speed.Consistency.SpeedMPH = Spread{N: 10, SD: model.Known(1.44)}
	one := studied(21, 1, 0, 0, 0)
	for _, c := range []struct {
		name                 string
		level                model.Level
		r                    Report
		gentle, plain, blunt string
	}{
		{"early", model.Regular, Report{}, "it is early yet: keep going, we are watching",
			"too few shots seen to say; keep watching", "Too few shots seen to say: keep watching."},
		{"met", model.Regular, studied(14, 2, 2, 2, 2), "the goal is met: keep going just like this",
			"the goal is met, 14 good of 22, and nothing stands out", "Goal met, 14 good of 22: nothing stands out."},
		{"nothing", model.Regular, studied(0), "keep going just like this", "nothing stands out", "Nothing stands out."},
		{"most", model.Regular, studied(8, 3, 2, 5, 4),
			"next we look at release: it is where most of the good ones are waiting",
			"release cost 5 of the 14 shots that were not good, more than any other",
			"Release cost 5 of 14: more than any other."},
		{"far most", model.Regular, studied(8, 2.6, 2.4, 6, 3),
			"next we look at release: it is where most of the good ones are waiting",
			"release cost 6 of the 14 shots that were not good, more than any other",
			"Release cost 6 of 14: nothing else comes close."},
		{"as many", model.Regular, studied(8, 5, 1, 5, 3), "next we look at balance: good ones are waiting there",
			"balance cost 5 of the 14 shots that were not good, as many as any other",
			"Balance cost 5 of 14: as many as any other."},
		{"first", model.New, studied(8, 4, 1.5, 5, 3.5), "next we look at balance: it comes first, and the rest builds on it",
			"balance cost 4 of the 14 shots that were not good, and it comes before release",
			"Balance cost 4 of 14: it comes before release."},
		{"a single shot", model.Elite, withGoal(one, 5), "next we look at balance: it is where most of the good ones are waiting",
			"balance cost 1 of the 1 shot that was not good, more than any other",
			"Balance cost 1 of 1: nothing else comes close."},
		{"spares", model.Regular, spares, "next we look at single pins: they are the quickest way to a better game",
			"7 of 12 single pins were missed, and no axis costs more", "7 of 12 single pins missed: nothing costs more."},
		{"priced spares", model.Regular, priced, "next we look at single pins: they are the quickest way to a better game",
			"7 of 12 single pins were missed, about 21 pins a game, and no axis costs more",
			"7 of 12 single pins missed, about 21 pins a game: nothing costs more."},
		{"spares priced by too little", model.Regular, early,
			"next we look at single pins: they are the quickest way to a better game",
			"7 of 12 single pins were missed, and no axis costs more", "7 of 12 single pins missed: nothing costs more."},
		{"line", model.Regular, line, "the throw is there: next we look at where to stand and where to aim",
			"8 good shots were no strike, and 5 of 12 hits were in the pocket: the line, not the throw",
			"8 good shots without a strike, 5 of 12 hits in the pocket: the line, not the throw."},
		{"speed", model.Regular, speed, "next we look at the speed: easy, and the same each time",
			"the speed varies by 1.4 mph from ball to ball, and no axis stands out",
			"Speed varies by 1.4 mph: same speed, every ball."},
	} {
		for tone, want := range map[model.Tone]string{model.Gentle: c.gentle, model.Plain: c.plain, model.Blunt: c.blunt} {
			if n := nextOf(model.Student{Level: c.level, Tone: tone}, c.r); n.Why != want {
				t.Errorf("%s, %s: %q, want %q", c.name, tone, n.Why, want)
			}
		}
	}
}

func unwatched(r Report, racks int) Report {
	r.Counts.Unseen = racks
	return r
}

// withGoal makes so few of the seen good that the goal is not met, and leaves what the rest cost.
func withGoal(r Report, good int) Report {
	r.Counts.Good.N = good
	return r
}

// The tone is that of the level unless the coach chose one.
func TestNextSpeaksInTheTone(t *testing.T) {
	r := studied(8, 2.6, 2.4, 6, 3)
	for _, c := range []struct {
		s    model.Student
		want string
	}{
		{model.Student{}, "next we look at release: it is where most of the good ones are waiting"},
		{model.Student{Average: model.Known(170)}, "release cost 6 of the 14 shots that were not good, more than any other"},
		{model.Student{Average: model.Known(220)}, "Release cost 6 of 14: nothing else comes close."},
		{model.Student{Average: model.Known(220), Minor: true},
			"release cost 6 of the 14 shots that were not good, more than any other"},
	} {
		if n := nextOf(c.s, r); n.Why != c.want {
			t.Errorf("%+v: %q, want %q", c.s, n.Why, c.want)
		}
	}
}

func TestNextByCoach(t *testing.T) {
	for tone, why := range map[model.Tone]string{
		model.Gentle: "the coach picked this one for you", model.Plain: "the coach chose it", model.Blunt: "The coach chose it.",
	} {
		s := model.Student{Level: model.Regular, Tone: tone}
		figures := nextOf(s, studied(8, 3, 2, 5, 4))
		s.Focus = "a slower start"
		want := Next{What: "a slower start", Why: why, ByCoach: true, Figures: "release", FiguresWhy: figures.Why}
		if n := nextOf(s, studied(8, 3, 2, 5, 4)); n != want {
			t.Errorf("%s: %+v, want %+v", tone, n, want)
		}
	}
}

// unkind are words that a gentle sentence has not; no digit and no per cent belong there either.
var unkind = []string{
	"miss", "bad", "poor", "fail", "fault", "wrong", "worst", "worse", "weak", "lost", "lose", "cost", "not good", "never",
	"only", "few", "down", "short", "chance", "open", "but", "still", "should", "must", "problem", "grade", "level", "%",
	"0", "1", "2", "3", "4", "5", "6", "7", "8", "9",
}

func TestNextProperties(t *testing.T) {
	known := []string{WorkOnSpares, WorkOnSpeed, WorkOnLine, KeepGoing}
	for _, a := range model.Axes {
		known = append(known, a.String())
	}
	rapid.Check(t, func(t *rapid.T) {
		s, r := drawStudent(t), drawReport(t)
		n := nextOf(s, r)
		if n != nextOf(s, r) {
			t.Fatalf("%+v, and another time otherwise", n)
		}
		what, why := n.What, n.Why
		if n.ByCoach != (s.Focus != "") {
			t.Fatalf("%+v with the focus %q", n, s.Focus)
		}
		if n.ByCoach {
			if n.What != s.Focus || n.Why == "" {
				t.Fatalf("%+v with the focus %q", n, s.Focus)
			}
			what, why = n.Figures, n.FiguresWhy
		}
		if !slices.Contains(known, what) || why == "" || len(why) > 100 {
			t.Fatalf("%q, because %q", what, why)
		}
		for _, word := range unkind {
			if s.Chosen().Tone == model.Gentle && (strings.Contains(why, word) || n.ByCoach && strings.Contains(n.Why, word)) {
				t.Fatalf("%q is no gentle word: %q", word, why)
			}
		}
	})
}

func drawStudent(t *rapid.T) model.Student {
	return model.Student{
		Level: rapid.SampledFrom(append(model.Levels[:], "")).Draw(t, "level"),
		Tone:  rapid.SampledFrom([]model.Tone{"", model.Gentle, model.Plain, model.Blunt}).Draw(t, "tone"),
		Goal:  model.Goal(rapid.IntRange(0, 20).Draw(t, "goal")),
		Focus: rapid.SampledFrom([]string{"", "", "release", "a slower start"}).Draw(t, "focus"),
	}
}

func drawReport(t *rapid.T) Report {
	part := func(what string, most int) Part {
		of := rapid.IntRange(0, most).Draw(t, what+" of")
		return Part{rapid.IntRange(0, of).Draw(t, what), of}
	}
	maybe := func(what string, low, high float64) model.Optional[float64] {
		if rapid.Bool().Draw(t, what+" known") {
			return model.Known(rapid.Float64Range(low, high).Draw(t, what))
		}
		return model.Optional[float64]{}
	}
	r := Report{Counts: Counts{Good: part("good", 9999), Unseen: rapid.IntRange(0, 50).Draw(t, "unseen")}}
	r.Cost.NotGood = r.Counts.Good.Of - r.Counts.Good.N
	for a := range r.Cost.ByAxis {
		r.Cost.ByAxis[a] = rapid.Float64Range(0, float64(r.Cost.NotGood)/4).Draw(t, "share")
	}
	r.Cost.Ungraded = rapid.IntRange(0, r.Cost.NotGood).Draw(t, "ungraded")
	r.Outcome.Unlucky = rapid.IntRange(0, 9999).Draw(t, "unlucky")
	r.Outcome.Missed = rapid.IntRange(0, 9999).Draw(t, "missed")
	r.Outcome.Pocket, r.Spares.Single = part("pocket", 9999), part("single", 9999)
	r.Worth.PerGoodShot, r.Worth.PerSingle = maybe("shot", -5, 20), maybe("single pin", 0, 20)
	r.Consistency.SpeedMPH = Spread{N: rapid.IntRange(0, 30).Draw(t, "speeds"), SD: maybe("sd", 0, 9)}
	for range rapid.IntRange(0, 8).Draw(t, "games") {
		g := TrendGame{Break: rapid.Bool().Draw(t, "break")}
		for a := range g.Axes {
			g.Axes[a] = maybe("mean", 0, 4)
			g.As[a] = part("as", 12)
		}
		r.Trend.Games = append(r.Trend.Games, g)
	}
	r.Streaks.Longest = rapid.IntRange(0, 12).Draw(t, "longest")
	return r
}
