package insight

import (
	"fmt"
	"math"

	"coach.settee/model"
)

// OwnCall sets the student's own calls beside the coach's, over all graded deliveries of games that have one.
type OwnCall struct {
	Calls int
	// Kappa is Cohen's with quadratic weights over the twelve grades, F to A; unknown with fewer than two calls or where
	// both always gave the same one grade.
	Kappa model.Optional[float64]
	// MeanDifference is own less coach on the 4.0 scale: plus is kinder.
	MeanDifference model.Optional[float64]
	// Kinder and Harder count the calls above and below the coach's.
	Kinder, Harder int
}

// OwnCallMethod names how the agreement is reckoned.
const OwnCallMethod = "cohen's kappa, quadratic weights over 12 grades"

// Words gives "kinder than the coach on 4 of 12, harder on 2".
func (o OwnCall) Words() string {
	switch calls := (Part{o.Kinder, o.Calls}); {
	case o.Calls == 0:
		return "no own calls"
	case o.Kinder == 0 && o.Harder == 0 && o.Calls == 1:
		return "as the coach on the one call"
	case o.Kinder == 0 && o.Harder == 0:
		return fmt.Sprintf("as the coach on all of %d", o.Calls)
	case o.Kinder == 0:
		return fmt.Sprintf("harder than the coach on %d of %d, never kinder", o.Harder, o.Calls)
	case o.Harder == 0:
		return fmt.Sprintf("kinder than the coach on %s, never harder", calls)
	default:
		return fmt.Sprintf("kinder than the coach on %s, harder on %d", calls, o.Harder)
	}
}

func ownCallOf(games []model.DatedSheet) OwnCall {
	var o OwnCall
	var pairs [][2]int
	tenths := 0
	for _, g := range games {
		for i := range g.Deliveries {
			d := &g.Deliveries[i]
			coach := d.Grade()
			if d.Own == model.Ungraded || coach == model.Ungraded {
				continue
			}
			o.Kinder += one(d.Own > coach)
			o.Harder += one(d.Own < coach)
			// The scale is in tenths: whole ones sum without rounding.
			tenths += int(math.Round(10 * (d.Own.Points() - coach.Points())))
			pairs = append(pairs, [2]int{int(d.Own), int(coach)})
		}
	}
	o.Calls = len(pairs)
	if o.Calls > 0 {
		o.MeanDifference = model.Known(float64(tenths) / float64(10*o.Calls))
	}
	if o.Calls > 1 {
		o.Kappa = QuadraticKappa(pairs)
	}
	return o
}
