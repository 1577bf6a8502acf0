package lane

// Places in what is observed of a ball. A board that was read with the other and one that was read alone are shrunk
// differently, so they have places of their own.
const (
	obsOne = iota
	obsSide
	obsTens
	obsTarget
	obsClosing
	obsBothLaydown
	obsBothTarget
	obsLaydownOnly
	obsTargetOnly
	observations
)

type observed [observations]float64

// observed gives what one ball tells, before its scatter is shrunk.
func (l *Learner) observed(b Ball) observed {
	a := l.aimed(b.Right, b.Thrown, b.Aim)
	o := observed{
		obsOne: 1, obsSide: a[numDifference], obsTens: a[numTransition],
		obsTarget: a[numParallel], obsClosing: a[numClosing],
	}
	dl, dt := b.Laydown.Value-b.Aim.Laydown, b.Target.Value-b.Aim.Target
	switch {
	case b.Laydown.Known && b.Target.Known:
		o[obsBothLaydown], o[obsBothTarget] = dl, dt
	case b.Laydown.Known:
		o[obsLaydownOnly] = dl
	case b.Target.Known:
		o[obsTargetOnly] = dt
	}
	return o
}

// regressors gives the matrix that turns what was observed of a ball into its regressors.
func (s shrinkage) regressors() [numbers]observed {
	p := observed{
		obsTarget: 1, obsBothLaydown: s.both[1][0], obsBothTarget: s.both[1][1],
		obsLaydownOnly: s.laydown[1], obsTargetOnly: s.target[1],
	}
	q := p
	q[obsTarget], q[obsClosing] = 0, 1
	q[obsBothLaydown] -= s.both[0][0]
	q[obsBothTarget] -= s.both[0][1]
	q[obsLaydownOnly] -= s.laydown[0]
	q[obsTargetOnly] -= s.target[0]
	return [numbers]observed{{obsOne: 1}, {obsSide: 1}, {obsTens: 1}, p, q}
}

// sums holds sums of products over the balls whose hit has the same extra noise.
type sums struct {
	noise float64
	n     float64
	oo    [observations]observed
	oy    observed
	yy    float64
}

func (l *Learner) sumsOf(noise float64) *sums {
	for i := range l.sums {
		if l.sums[i].noise == noise {
			return &l.sums[i]
		}
	}
	l.sums = append(l.sums, sums{noise: noise})
	return &l.sums[len(l.sums)-1]
}

func (s *sums) add(o observed, y float64) {
	s.n++
	s.yy += y * y
	for i := range o {
		if o[i] == 0 {
			continue
		}
		s.oy[i] += o[i] * y
		for j := range o {
			s.oo[i][j] += o[i] * o[j]
		}
	}
}

// normal holds X'X, X'y and y'y of balls with the same extra noise.
type normal struct {
	noise, n float64
	xx       fiveByFive
	xy       five
	yy       float64
}

// normal applies the regressors' matrix r to the sums: X'X = r (O'O) r', X'y = r O'y.
func (s *sums) normal(r [numbers]observed) normal {
	out := normal{noise: s.noise, n: s.n, yy: s.yy}
	for i := range r {
		var row observed
		for a, f := range r[i] {
			if f == 0 {
				continue
			}
			out.xy[i] += f * s.oy[a]
			for b := range row {
				row[b] += f * s.oo[a][b]
			}
		}
		for j := range r {
			for b := range row {
				out.xx[i][j] += row[b] * r[j][b]
			}
		}
	}
	return out
}

// residual gives the sum of squared residuals at theta.
func (n normal) residual(theta five) float64 {
	return max(0, n.yy-2*theta.dot(n.xy)+n.xx.form(theta))
}
