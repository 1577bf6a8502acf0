package insight

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"coach.settee/model"
)

// cued puts balls under a cue.
func cued(text string, balls ...model.Delivery) []model.Delivery {
	for i := range balls {
		balls[i].Cue = text
	}
	return balls
}

func TestCueBeforeAndSince(t *testing.T) {
	spare := []model.Delivery{ball(7, "AAAA"), ball(3, "AAAA", cue("soft hand"))}
	tests := []struct {
		name string
		game []model.Delivery
		want []CueEffect
	}{
		// Before it 1 0 0 and the 7 with the good first ball; since it 1 1 0: three each side.
		{"begins with a spare shot, ends when it is cleared",
			slices.Concat(strikes("100"), spare, cued("soft hand", strikes("110")...), strikes("1")),
			[]CueEffect{{Cue: "soft hand", Uses: 1, Evenings: 1, Compared: 1, Before: Part{1, 3}, Since: Part{2, 3}, InForce: 3}}},
		{"only its first time counts, but it was in force again",
			slices.Concat(strikes("00"), cued("soft hand", strikes("1")...), strikes("00"), cued("soft hand", strikes("1111")...)),
			[]CueEffect{{Cue: "soft hand", Uses: 2, Evenings: 1, Compared: 1, Before: Part{0, 1}, Since: Part{1, 1}, InForce: 5}}},
		{"another cue ends it, and what was before that is under the first",
			slices.Concat(strikes("01"), cued("soft hand", strikes("10")...), cued("eyes up", strikes("111")...)),
			[]CueEffect{
				{Cue: "soft hand", Uses: 1, Evenings: 1, Compared: 1, Before: Part{1, 2}, Since: Part{1, 2}, InForce: 2},
				{Cue: "eyes up", Uses: 1, Evenings: 1, Compared: 1, Before: Part{2, 3}, Since: Part{3, 3}, InForce: 3},
			}},
		{"in force from the first rack", cued("soft hand", strikes("1101")...),
			[]CueEffect{{Cue: "soft hand", Uses: 1, Evenings: 1, InForce: 4}}},
		{"given after the last rack", slices.Concat(strikes("000"), spare),
			[]CueEffect{{Cue: "soft hand", Uses: 1, Evenings: 1}}},
		{"unseen racks are on neither side", slices.Concat(strikes("1u0u"), cued("soft hand", strikes("uu1u1")...)),
			[]CueEffect{{Cue: "soft hand", Uses: 1, Evenings: 1, Compared: 1, Before: Part{1, 2}, Since: Part{2, 2}, InForce: 2}}},
		{"none", strikes("1100"), nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := cuesOf([]model.DatedSheet{game(t, 0, 1, test.game...)})
			for i := range got {
				if got[i].Better.Known != (got[i].Since.Of > 0) {
					t.Errorf("better %+v", got[i])
				}
				got[i].Better = model.Optional[float64]{}
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// Ten each side an evening, over the evening's games: of the first game's 12 racks the last 10 have 3 good, of the second's
// the first 10 have 7. 3 of 10 and then 7 of 10 give 0.9643 (computed apart from this program).
func TestCueTakesTenRacksEachSideOfAnEvening(t *testing.T) {
	evening := func(n int) []model.DatedSheet {
		return []model.DatedSheet{
			game(t, n, 1, strikes("111100001000")...),
			game(t, n, 2, cued("soft hand", strikes("111110110011")...)...),
		}
	}
	one := cuesOf(evening(0))
	if len(one) != 1 || one[0].Before != (Part{3, 10}) || one[0].Since != (Part{7, 10}) || one[0].InForce != 12 {
		t.Fatalf("%+v", one)
	}
	near(t, "better", one[0].Better.Value, .9643, 5e-5)
	if got := one[0].Words(); got != "soft hand: 7 of 10 since, 3 of 10 before" {
		t.Errorf("%q", got)
	}
	three := cuesOf(append(append(evening(0), evening(1)...), evening(2)...))
	want := CueEffect{Cue: "soft hand", Uses: 3, Evenings: 3, Compared: 3, Before: Part{9, 30}, Since: Part{21, 30}, InForce: 36}
	want.Better = model.Known(Better(Part{9, 30}, Part{21, 30}, .5, .5))
	if diff := cmp.Diff([]CueEffect{want}, three); diff != "" {
		t.Error(diff)
	}
}

func TestCueWords(t *testing.T) {
	effect := func(compared int, better float64) CueEffect {
		return CueEffect{
			Cue: "eyes up", Evenings: 4, Compared: compared,
			Since: Part{1, 2}, Before: Part{1, 2}, Better: model.Known(better),
		}
	}
	tests := []struct {
		c    CueEffect
		want string
	}{
		{effect(2, .99), ""},
		{effect(3, .99), "very likely better, but an idle cue looks good after a slump"},
		{effect(3, .85), "likely better, but an idle cue looks good after a slump"},
		{effect(3, .5), "no telling yet, and even an idle cue tends to look good"},
		{effect(3, .15), "likely worse, though even an idle cue tends to look good"},
		{effect(3, .01), "very likely worse, though even an idle cue tends to look good"},
		{CueEffect{Cue: "eyes up", Evenings: 3, InForce: 30}, ""},
	}
	for _, test := range tests {
		if got := test.c.WordsBetter(); got != test.want {
			t.Errorf("%+v: %q", test.c, got)
		}
	}
	idle := CueEffect{Cue: "eyes up", Evenings: 1, InForce: 1}
	if got := idle.Words(); got != "eyes up: 1 rack, none to compare" {
		t.Errorf("%q", got)
	}
}

func TestCueSidesAreAlikeInNumber(t *testing.T) {
	text := rapid.SampledFrom([]string{"", "", "soft hand", "eyes up", "slow feet"})
	rapid.Check(t, func(rt *rapid.T) {
		var games []model.DatedSheet
		underCue := 0
		for evening := range rapid.IntRange(1, 4).Draw(rt, "evenings") {
			for number := range rapid.IntRange(1, 3).Draw(rt, "games") {
				balls := strikes(rapid.StringOfN(rapid.SampledFrom([]rune("01u")), 12, 12, -1).Draw(rt, "shots"))
				now := ""
				for i := range balls {
					if rapid.IntRange(0, 3).Draw(rt, "turn") == 0 {
						now = text.Draw(rt, "cue")
					}
					balls[i].Cue = now
					if now != "" && balls[i].Seen {
						underCue++
					}
				}
				games = append(games, game(t, evening, number+1, balls...))
			}
		}
		for _, c := range cuesOf(games) {
			underCue -= c.InForce
			if c.Before.Of != c.Since.Of || c.Since.Of > 10*c.Compared || c.Since.Of > c.InForce || c.Compared > c.Evenings || c.Uses < c.Evenings {
				rt.Fatalf("%+v", c)
			}
		}
		if underCue != 0 {
			rt.Fatalf("%d racks under a cue are in no cue's count", underCue)
		}
	})
}

// TestCueUses: each time that a cue is given is a use, in whatever game of the evening; what stays in force is not given again.
func TestCueUses(t *testing.T) {
	evening := []model.DatedSheet{
		game(t, 0, 1, slices.Concat(cued("soft hand", strikes("1")...), cued("eyes up", strikes("1")...), cued("soft hand", strikes("1")...),
			strikes("0"), cued("soft hand", strikes("11")...))...),
		game(t, 0, 2, slices.Concat(cued("soft hand", strikes("11")...), cued("eyes up", strikes("1")...))...),
		game(t, 1, 1, cued("soft hand", strikes("1")...)...),
	}
	uses := map[string][2]int{}
	for _, c := range cuesOf(evening) {
		uses[c.Cue] = [2]int{c.Uses, c.Evenings}
	}
	if diff := cmp.Diff(map[string][2]int{"soft hand": {4, 2}, "eyes up": {2, 1}}, uses); diff != "" {
		t.Error(diff)
	}
}
