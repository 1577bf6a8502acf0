package insight

import "math"

// EWMA gives the exponentially weighted moving average after each of x, from start: the newest counts lambda, 0 to 1.
// NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.4.
func EWMA(x []float64, start, lambda float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		start = lambda*v + (1-lambda)*start
		out[i] = start
	}
	return out
}

// EWMALimits gives the control limits of an EWMA of values with that sd, width of its own sd from target, as they are
// after many values. NIST/SEMATECH e-Handbook 6.3.2.4.
func EWMALimits(target, sd, lambda, width float64) Interval {
	half := width * sd * math.Sqrt(lambda/(2-lambda))
	return Interval{target - half, target + half}
}

// CUSUM gives the upper and the lower tabular sums after each of x: how far it has gone above and below target, less the
// slack k a value, never below 0. A sum above the decision limit is a signal. Both begin at headStart, 0 for none. In the
// units of x. NIST/SEMATECH e-Handbook 6.3.2.3; the head start is Lucas and Crosier's.
func CUSUM(x []float64, target, k, headStart float64) (upper, lower []float64) {
	upper, lower = make([]float64, len(x)), make([]float64, len(x))
	up, low := headStart, headStart
	for i, v := range x {
		up, low = max(0, up+v-target-k), max(0, low+target-v-k)
		upper[i], lower[i] = up, low
	}
	return upper, lower
}
