package insight

// urn is the exact beta-binomial distribution of the good ones among n racks
// when the rate of good is Beta(a, b) distributed, grown one rack at a time.
//
// The closed form is
//
//	P(k of n) = C(n, k) B(a+k, b+n-k) / B(a, b)
//
// and the urn (Pólya's: draw a ball, put it back with another of its colour)
// reaches it by
//
//	P(k of n+1) = P(k of n) (b+n-k)/(a+b+n) + P(k-1 of n) (a+k-1)/(a+b+n)
//
// which adds only what is not negative, so nothing cancels; needs no gamma
// function; and passes every n on the way, so that a mixture over n is one
// sweep. It also holds where a or b is 0 (the rate is then surely 0 or 1),
// as long as a+b is above 0.
type urn struct {
	a, b float64
	p    []float64 // p[k] is the chance of k good among len(p)-1 racks
}

// newUrn starts an urn for Beta(a, b) at no racks. Its chances are kept in
// buf while they fit there.
func newUrn(a, b float64, buf []float64) urn {
	return urn{a: a, b: b, p: append(buf[:0], 1)}
}

// draw adds one rack.
func (u *urn) draw() {
	n := len(u.p) - 1
	u.p = append(u.p, 0)
	perBall := 1 / (u.a + u.b + float64(n))
	for k := n; k >= 0; k-- {
		u.p[k+1] += u.p[k] * (u.a + float64(k)) * perBall
		u.p[k] *= (u.b + float64(n-k)) * perBall
	}
}

// atLeast is the chance of k or more good, true to rounding.
func (u *urn) atLeast(k int) float64 {
	if k <= 0 {
		return 1
	}
	chance := 0.0
	for i := len(u.p) - 1; i >= k; i-- {
		chance += u.p[i]
	}
	return chance
}
