package main

import (
	"encoding/json"
	"testing"

	"coach.settee/model"
	"coach.settee/model/insight"
)

// threeGames is a trend of which release alone is known: 2.5, nothing, and 3.5 within 3 and 4.
func threeGames() insight.Trend {
	var t insight.Trend
	t.Games = make([]insight.TrendGame, 3)
	for _, a := range model.Axes {
		t.Axes[a] = make([]insight.Smooth, 3)
	}
	t.Axes[model.Release][0].Value = model.Known(2.5)
	t.Axes[model.Release][2] = insight.Smooth{
		Value: model.Known(3.5), Band: model.Known(insight.Interval{Low: 3, High: 4}),
	}
	return t
}

func TestTrendOfAxesInJSON(t *testing.T) {
	text, err := json.Marshal(trendAsJSON(threeGames()).Axes)
	if err != nil {
		t.Fatal(err)
	}
	none := `{"smooth":[null,null,null],"band":[null,null,null]}`
	want := `{"balance":` + none + `,"target":` + none +
		`,"release":{"smooth":[2.5,null,3.5],"band":[null,null,[3,4]]},"finish":` + none + `}`
	if string(text) != want {
		t.Errorf("%s, want %s", text, want)
	}
	if text, _ = json.Marshal(trendAsJSON(insight.Trend{}).Axes.Balance); string(text) != `{"smooth":[],"band":[]}` {
		t.Errorf("%s of no games", text)
	}
}

func TestTrendOfAxesOnThePage(t *testing.T) {
	changed := threeGames()
	changed.Games[2].Break = true
	for _, c := range []struct {
		name  string
		trend insight.Trend
		want  string
	}{
		{"no games", insight.Trend{}, ""},
		{"nothing known", insight.Trend{Games: make([]insight.TrendGame, 2)}, "  mean letters: too few games to say\n"},
		{"release", threeGames(), "  mean letters smoothed, 4 is A: at the first game, and now with the 95% band\n" +
			"  release   2.5000, now 3.5000 [3.0000, 4.0000]\n"},
		{"a new level", changed, "  mean letters smoothed, 4 is A: at the first game of the level now, and now\n" +
			"    with the 95% band\n  release   3.5000, now 3.5000 [3.0000, 4.0000]\n"},
	} {
		var p statsPage
		p.trendAxes(c.trend)
		if got := p.String(); got != c.want {
			t.Errorf("%s:\n%swant\n%s", c.name, got, c.want)
		}
	}
}
