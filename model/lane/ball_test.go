package lane_test

import (
	"math"
	"strings"
	"testing"

	"coach.settee/model/lane"
)

var (
	soundBall = lane.Release{Laydown: 20.6, LaunchDeg: 2, SpeedMPH: 17.5, RevRPM: 320, AxisRotationDeg: 50}
	soundOil  = lane.Oil{Ft: 41, Mu: .02, DryMu: .2}
)

func TestNonsenseIsRefusedInWords(t *testing.T) {
	tests := []struct {
		name string
		make func(*lane.Release, *lane.Oil)
		want string
	}{
		{"a board of 60", func(r *lane.Release, _ *lane.Oil) { r.Laydown = 60 }, "the laydown board cannot be 60: give 0 to 40, counted from"},
		{"a board below the lane", func(r *lane.Release, _ *lane.Oil) { r.Laydown = -.1 }, "the laydown board cannot be -0.1: give 0 to 40"},
		{"a launch across", func(r *lane.Release, _ *lane.Oil) { r.LaunchDeg = 60 }, "the launch angle cannot be 60 degrees: give -20 to 20 degrees"},
		{"a launch across inside", func(r *lane.Release, _ *lane.Oil) { r.LaunchDeg = -60 }, "the launch angle cannot be -60 degrees"},
		{"no speed", func(r *lane.Release, _ *lane.Oil) { r.SpeedMPH = 0 }, "the speed cannot be 0 mph: give 1 to 40 mph"},
		{"speed backwards", func(r *lane.Release, _ *lane.Oil) { r.SpeedMPH = -17 }, "the speed cannot be -17 mph"},
		{"speed of a car", func(r *lane.Release, _ *lane.Oil) { r.SpeedMPH = 41 }, "the speed cannot be 41 mph"},
		{"revs below none", func(r *lane.Release, _ *lane.Oil) { r.RevRPM = -1 }, "the rev rate cannot be -1 rpm: give 0 to 1000 rpm"},
		{"revs of an engine", func(r *lane.Release, _ *lane.Oil) { r.RevRPM = 3000 }, "the rev rate cannot be 3000 rpm"},
		{"rotation", func(r *lane.Release, _ *lane.Oil) { r.AxisRotationDeg = 180 }, "the axis rotation cannot be 180 degrees: give -120 to 120 degrees"},
		{"tilt", func(r *lane.Release, _ *lane.Oil) { r.TiltDeg = 91 }, "the axis tilt cannot be 91 degrees: give 0 to 90 degrees"},
		{"a radius for beta", func(r *lane.Release, _ *lane.Oil) { r.Beta = 2.5 }, "beta cannot be 2.5: give 0.1 to 0.67"},
		{"beta below none", func(r *lane.Release, _ *lane.Oil) { r.Beta = -.4 }, "beta cannot be -0.4"},
		{"no oil", func(_ *lane.Release, o *lane.Oil) { o.Ft = 0 }, "the length of the oil cannot be 0 ft: give 1 to 60 ft"},
		{"oil beyond the pins", func(_ *lane.Release, o *lane.Oil) { o.Ft = 70 }, "the length of the oil cannot be 70 ft: give 1 to 60 ft"},
		{"negative friction", func(_ *lane.Release, o *lane.Oil) { o.Mu = -.02 }, "the friction in the oil cannot be -0.02: give 0 to 1"},
		{"friction in per cent", func(_ *lane.Release, o *lane.Oil) { o.Mu = 4 }, "the friction in the oil cannot be 4"},
		{"no friction", func(_ *lane.Release, o *lane.Oil) { o.DryMu = 0 }, "the friction on the dry cannot be 0: give 0.01 to 1"},
		{"dry in per cent", func(_ *lane.Release, o *lane.Oil) { o.DryMu = 20 }, "the friction on the dry cannot be 20"},
		{"a ball that never arrives", func(r *lane.Release, _ *lane.Oil) { r.SpeedMPH, r.RevRPM, r.AxisRotationDeg = 2, 600, 120 },
			"never gets to the pins"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r, o := soundBall, soundOil
			test.make(&r, &o)
			refused(t, r, o, test.want)
		})
	}
}

// A launch angle is what Through finds: what it is given there is not looked at.
func refused(t *testing.T, r lane.Release, o lane.Oil, want string) {
	t.Helper()
	p, err := lane.Roll(r, o)
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("Roll says %v, want %q", err, want)
	}
	if p != (lane.Path{}) {
		t.Error("Roll gives a path of nonsense")
	}
	if strings.Contains(want, "launch angle") {
		return
	}
	if _, err := lane.Through(r, o, 15, 15); err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("Through says %v, want %q", err, want)
	}
}

func TestNoNumberIsRefusedByName(t *testing.T) {
	fields := map[string]func(*lane.Release, *lane.Oil) *float64{
		"the laydown board":       func(r *lane.Release, _ *lane.Oil) *float64 { return &r.Laydown },
		"the launch angle":        func(r *lane.Release, _ *lane.Oil) *float64 { return &r.LaunchDeg },
		"the speed":               func(r *lane.Release, _ *lane.Oil) *float64 { return &r.SpeedMPH },
		"the rev rate":            func(r *lane.Release, _ *lane.Oil) *float64 { return &r.RevRPM },
		"the axis rotation":       func(r *lane.Release, _ *lane.Oil) *float64 { return &r.AxisRotationDeg },
		"the axis tilt":           func(r *lane.Release, _ *lane.Oil) *float64 { return &r.TiltDeg },
		"beta":                    func(r *lane.Release, _ *lane.Oil) *float64 { return &r.Beta },
		"the length of the oil":   func(_ *lane.Release, o *lane.Oil) *float64 { return &o.Ft },
		"the friction in the oil": func(_ *lane.Release, o *lane.Oil) *float64 { return &o.Mu },
		"the friction on the dry": func(_ *lane.Release, o *lane.Oil) *float64 { return &o.DryMu },
	}
	for what, field := range fields {
		for _, value := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			r, o := soundBall, soundOil
			*field(&r, &o) = value
			refused(t, r, o, what+" cannot be")
		}
	}
}

func TestThroughRefusesInWords(t *testing.T) {
	for _, test := range []struct {
		laydown, arrows, ft float64
		want                string
	}{
		{20, 60, 15, "the board at the arrows cannot be 60: give 0 to 40"},
		{20, -1, 15, "the board at the arrows cannot be -1"},
		{20, math.NaN(), 15, "the board at the arrows cannot be NaN"},
		{20, 15, 0, "the distance of the arrows cannot be 0 ft: give 5 to 30 ft"},
		{20, 15, 60, "the distance of the arrows cannot be 60 ft"},
		{20, 15, math.NaN(), "the distance of the arrows cannot be NaN ft"},
		{40, 0, 5, "from laydown board 40 no launch up to 20 degrees crosses board 0 at 5 ft"},
		{0, 40, 5, "from laydown board 0 no launch up to 20 degrees crosses board 40 at 5 ft"},
	} {
		r := soundBall
		r.Laydown = test.laydown
		if got, err := lane.Through(r, soundOil, test.arrows, test.ft); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%+v: %v, %v", test, got, err)
		}
	}
}

func TestBetaZeroIsAUniformBall(t *testing.T) {
	uniform := soundBall
	uniform.Beta = .4
	if rolled(t, soundBall, soundOil) != rolled(t, uniform, soundOil) {
		t.Error("beta 0 is not beta 0.4")
	}
}

// Where a value is at the end of its range there is still a path, all of it numbers.
func TestEveryCornerHasAPathOrWords(t *testing.T) {
	corners := [][]float64{{0, 40}, {-20, 0, 20}, {1, 40}, {0, 1000}, {-120, 0, 120}, {0, 90}, {.1, .67}, {1, 60}, {0, 1}, {.01, 1}}
	paths := 0
	each(corners, nil, func(v []float64) {
		r := lane.Release{Laydown: v[0], LaunchDeg: v[1], SpeedMPH: v[2], RevRPM: v[3], AxisRotationDeg: v[4], TiltDeg: v[5], Beta: v[6]}
		p, err := lane.Roll(r, lane.Oil{Ft: v[7], Mu: v[8], DryMu: v[9]})
		if err != nil {
			if !strings.Contains(err.Error(), "never gets to the pins") {
				t.Errorf("%v: %v", v, err)
			}
			return
		}
		paths++
		ft, board := p.Breakpoint()
		sum := ft + board + p.EntryDeg() + p.RollFt() + p.SpeedAtPinsMPH() + p.Seconds() + p.PocketOffset()
		for _, at := range []float64{0, 1, 15, 45, 59, 60} {
			sum += p.BoardAt(at)
		}
		if math.IsNaN(sum) || math.IsInf(sum, 0) {
			t.Errorf("%v has %+v", v, p)
		}
	})
	if paths < 1000 {
		t.Errorf("only %d corners have a path", paths)
	}
}

func each(choices [][]float64, chosen []float64, do func([]float64)) {
	if len(choices) == 0 {
		do(chosen)
		return
	}
	for _, c := range choices[0] {
		each(choices[1:], append(chosen, c), do)
	}
}

func TestNoBoardWhereTheBallNeverIs(t *testing.T) {
	p := rolled(t, soundBall, soundOil)
	for _, ft := range []float64{-1, math.NaN(), math.Inf(-1), math.Inf(1)} {
		if board := p.BoardAt(ft); !math.IsNaN(board) {
			t.Errorf("board %v at %v ft", board, ft)
		}
	}
	if !math.IsNaN((lane.Path{}).BoardAt(15)) {
		t.Error("no path has a board")
	}
}
