package insight

import (
	"testing"

	"pgregory.net/rapid"

	"coach.settee/model"
)

func TestOwnCall(t *testing.T) {
	games := []model.DatedSheet{game(t, 0, 1,
		ball(10, "AAAA", own(model.GradeAMinus)),          // A against A-: harder by .3
		ball(9, "ABBA", own(model.GradeAMinus)),           // B+ against A-: kinder by .4
		ball(1, "AAAA", own(model.GradeA)),                // a spare shot, as called
		ball(10, "CCCC", own(model.GradeB)),               // C against B: kinder by 1.0
		ball(10, "", own(model.GradeA)), ball(10, "AAAA"), // not watched; no own call
		ball(10, "····", own(model.GradeA)), // nothing was graded
	), game(t, 0, 2, ball(10, "FFFF", own(model.GradeF)))} // as called
	got := ownCallOf(games)
	// Grades from F as 1 to A as 12, own and coach: 11 12, 11 10, 12 12, 9 6, 1 1. The squares of the differences sum to
	// 1+1+0+9+0 = 11; sums 44 and 41, sums of squares 468 and 425; 5 x 893 - 2 x 44 x 41 = 857.
	want := OwnCall{
		Calls: 5, Kappa: model.Known(1 - 55./857), MeanDifference: model.Known(.22), Kinder: 2, Harder: 1,
	}
	if got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	says(t, got.Words(), "kinder than the coach on 2 of 5, harder on 1")
}

func TestOwnCallOfLittle(t *testing.T) {
	if got := ownCallOf(nil); got != (OwnCall{}) {
		t.Errorf("of nothing: %+v", got)
	}
	one := ownCallOf([]model.DatedSheet{game(t, 0, 1, ball(10, "AAAA", own(model.GradeAMinus)))})
	if one.Kappa.Known || one.Calls != 1 || one.Harder != 1 {
		t.Errorf("of one call: %+v", one)
	}
	near(t, "mean difference", one.MeanDifference.Value, -.3, 1e-15)
	same := ownCallOf([]model.DatedSheet{game(t, 0, 1, times(3, ball(10, "AAAA", own(model.GradeA)))...)})
	if same.Kappa.Known || same.MeanDifference != model.Known(0.) {
		t.Errorf("where both always gave an A: %+v", same)
	}
}

func TestOwnCallInWords(t *testing.T) {
	tests := []struct {
		own  OwnCall
		want string
	}{
		{OwnCall{}, "no own calls"},
		{OwnCall{Calls: 12, Kinder: 4, Harder: 2}, "kinder than the coach on 4 of 12, harder on 2"},
		{OwnCall{Calls: 12, Kinder: 4}, "kinder than the coach on 4 of 12, never harder"},
		{OwnCall{Calls: 12, Harder: 4}, "harder than the coach on 4 of 12, never kinder"},
		{OwnCall{Calls: 12}, "as the coach on all of 12"},
		{OwnCall{Calls: 1}, "as the coach on the one call"},
	}
	for _, tt := range tests {
		says(t, tt.own.Words(), tt.want)
	}
}

func TestOwnCallProperties(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		o := ownCallOf(drawGames(r, t))
		if o.Kinder+o.Harder > o.Calls || o.MeanDifference.Known != (o.Calls > 0) {
			r.Fatalf("%+v", o)
		}
		if k := o.Kappa; k.Known && (k.Value < -1 || k.Value > 1) {
			r.Fatalf("kappa %v", k.Value)
		}
		if d := o.MeanDifference.Value; d > 0 && o.Kinder == 0 || d < 0 && o.Harder == 0 {
			r.Fatalf("%+v", o)
		}
	})
}
