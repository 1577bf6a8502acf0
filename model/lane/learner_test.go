package lane

import (
	"math"
	"math/rand/v2"
	"testing"

	"coach.settee/model"
	"gonum.org/v1/gonum/mat"
)

// vectorBalls are the six balls of the reference's numeric test vector: z, n, P, Q and the hit.
var vectorBalls = [][5]float64{
	{-0.5, 0, 0, 0, 1}, {0.5, 0, 0.5, 0.9, 4}, {-0.5, 4, -0.8, -0.3, -1},
	{0.5, 4, 0.2, -0.6, 2}, {-0.5, 8, 0, 1.1, 3}, {0.5, 8, -0.4, 0.4, 3},
}

// vectorFit is the fit of the test vector, sigma fixed at 1.6 and the spread's variance as it is given there.
func vectorFit() *fit {
	s := sums{}
	for _, b := range vectorBalls {
		s.add(observed{obsOne: 1, obsSide: b[0], obsTens: b[1] / 10, obsTarget: b[2], obsClosing: b[3]}, b[4])
	}
	f := &fit{sigma2: 1.6 * 1.6, spread2: 1.6*1.6 + 1.9*1.9}
	f.theta, f.cov = newPrior(15).posterior([]normal{s.normal(shrinkage{}.regressors())}, f.sigma2)
	return f
}

// The values were computed apart, in plain Python (a Cholesky of its own).
func TestPosteriorVector(t *testing.T) {
	f := vectorFit()
	means := five{1.251500358, 1.081392012, 0.3009107957, 0.4801276781, 2.330840821}
	sds := five{0.6558264659, 0.9967761952, 0.296567259, 0.7227792315, 0.5238973185}
	for i := range numbers {
		approx(t, "mean", f.theta[i], means[i], 1e-9)
		approx(t, "sd", math.Sqrt(f.cov[i][i]), sds[i], 1e-9)
	}
}

func TestChanceVector(t *testing.T) {
	const unknown = -1
	f := vectorFit()
	for _, c := range []struct {
		right            bool
		move             Move
		mean, sd, chance float64
	}{
		{true, Move{}, 2.153289319, 0.8465399317, 0.2153994441},
		{true, Move{2, 1}, 0.3025761757, 1.303065015, 0.276990576},
		{true, Move{1, 0}, -0.1775515023, unknown, 0.2883399266},
		{true, Move{3, 3}, 3.593672353, unknown, 0.1344531374},
		{false, Move{}, 1.071897307, unknown, 0.2737710757},
		{false, Move{2, 1}, -0.7788158362, unknown, 0.2644847666},
	} {
		x := (&Learner{}).aimed(c.right, 12, Aim{float64(c.move.Feet), float64(c.move.Target)})
		approx(t, "mean", x.dot(f.theta), c.mean, 1e-9)
		approx(t, "chance", f.chance(x), c.chance, 1e-9)
		if c.sd != unknown {
			approx(t, "sd of the mean", math.Sqrt(f.cov.form(x)), c.sd, 1e-9)
		}
	}
}

// One ball at a time by the rank-one update of mean and covariance is the batch, sigma fixed.
func TestPosteriorIsTheRankOneUpdate(t *testing.T) {
	p := newPrior(15)
	theta, cov := p.mean, fiveByFive{}
	for i := range numbers {
		cov[i][i] = p.sd[i] * p.sd[i]
	}
	r := rand.New(rand.NewPCG(1, 2))
	s := sums{}
	const sigma2 = 1.6 * 1.6
	for n := range 60 {
		x := five{1, float64(n%2) - 0.5, float64(n) / 5, r.NormFloat64(), r.NormFloat64()}
		y := 3 * r.NormFloat64()
		s.add(observed{obsOne: x[0], obsSide: x[1], obsTens: x[2], obsTarget: x[3], obsClosing: x[4]}, y)
		var k five
		for i := range k {
			k[i] = cov[i].dot(x)
		}
		total, miss := x.dot(k)+sigma2, y-x.dot(theta)
		for i := range k {
			theta[i] += k[i] / total * miss
			for j := range k {
				cov[i][j] -= k[i] * k[j] / total
			}
		}
		mean, v := p.posterior([]normal{s.normal(shrinkage{}.regressors())}, sigma2)
		for i := range numbers {
			approx(t, "mean", mean[i], theta[i], 1e-12)
			for j := range numbers {
				approx(t, "covariance", v[i][j], cov[i][j], 1e-12)
			}
		}
	}
}

// What the sums give after every ball is what the whole evening's balls give together: rows for all, shrunk as the scatter
// of all says, sigma in three rounds.
func TestLearnerIsTheBatch(t *testing.T) {
	for seed := range uint64(6) {
		r := rand.New(rand.NewPCG(seed, 7))
		l := NewLearner([]float64{15, 12}[seed%2], model.Optional[Estimate]{})
		var balls []Ball
		for n := range 120 {
			balls = append(balls, randomBall(n, seed >= 2, r))
			l.Add(balls[n])
			got, want := l.fit(), batch(l.arrowsFt, balls)
			approx(t, "sigma²", got.sigma2, want.sigma2, 1e-10)
			approx(t, "spread²", got.spread2, want.spread2, 1e-10)
			for i := range numbers {
				approx(t, "number", got.theta[i], want.theta[i], 1e-10)
				approx(t, "its variance", got.cov[i][i], want.cov[i][i], 1e-10)
			}
		}
	}
}

// randomBall makes a ball that may move the line; mixed ones may leave boards unread or have a hit in a word.
func randomBall(n int, mixed bool, r *rand.Rand) Ball {
	move := float64(r.IntN(4))
	b := Ball{Right: n%2 == 1, Thrown: 3 * n, Aim: Aim{20 + 2*move, 12 + move}, Hit: math.Round(4 * r.NormFloat64())}
	b.Laydown = model.Known(math.Round(b.Aim.Laydown + r.NormFloat64()))
	b.Target = model.Known(math.Round(b.Aim.Target + 1.3*r.NormFloat64()))
	if mixed {
		b.Laydown.Known, b.Target.Known = r.IntN(3) > 0, r.IntN(3) > 0
		words := []model.Hit{model.Pocket, model.High, model.Nose, model.Brooklyn, model.Light, model.Missed}
		if w := r.IntN(12); w < len(words) {
			e, _ := HitInWords(words[w])
			b.Hit, b.HitSD = e.Mean, e.SD
		}
	}
	return b
}

// batch is the estimate written out over rows, with a least-squares solution: the prior is five rows more.
func batch(arrowsFt float64, balls []Ball) *fit {
	var s scatter
	for _, b := range balls {
		s.add(b)
	}
	laydown, target, both := s.covariance()
	p := newPrior(arrowsFt)
	rows := make([]five, len(balls))
	for i, b := range balls {
		el, et := expectedScatter(b, laydown, target, both)
		rows[i] = regressorsOf(balls[0].Aim, b, el, et)
	}
	f := &fit{sigma2: 1.6 * 1.6}
	for range 3 {
		a, y := mat.NewDense(len(rows)+numbers, numbers, nil), mat.NewVecDense(len(rows)+numbers, nil)
		for i := range numbers {
			a.Set(i, i, 1/p.sd[i])
			y.SetVec(i, p.mean[i]/p.sd[i])
		}
		for i, x := range rows {
			sd := math.Sqrt(f.sigma2 + balls[i].noise())
			for j := range x {
				a.Set(numbers+i, j, x[j]/sd)
			}
			y.SetVec(numbers+i, max(-8, min(8, balls[i].Hit))/sd)
		}
		f.solve(a, y)
		squares := 10 * 1.6 * 1.6
		for i, x := range rows {
			e := max(-8, min(8, balls[i].Hit)) - x.dot(f.theta)
			squares += e * e * f.sigma2 / (f.sigma2 + balls[i].noise())
		}
		f.sigma2 = squares / float64(10+len(rows))
	}
	squares := 6 * 2.5 * 2.5
	for _, b := range balls {
		e := max(-8, min(8, b.Hit)) - regressorsOf(balls[0].Aim, b, 0, 0).dot(f.theta)
		squares += min(36, e*e) - b.readingNoise()
	}
	f.spread2 = max(1, squares/float64(6+len(balls))-(0.25+1.0/12))
	return f
}

func (f *fit) solve(a *mat.Dense, y *mat.VecDense) {
	var precision mat.SymDense
	precision.SymOuterK(1, a.T())
	var chol mat.Cholesky
	chol.Factorize(&precision)
	var right, theta mat.VecDense
	right.MulVec(a.T(), y)
	chol.SolveVecTo(&theta, &right)
	var cov mat.SymDense
	chol.InverseTo(&cov)
	for i := range numbers {
		f.theta[i] = theta.AtVec(i)
		for j := range numbers {
			f.cov[i][j] = cov.At(i, j)
		}
	}
}

func regressorsOf(base Aim, b Ball, el, et float64) five {
	z := -0.5
	if b.Right {
		z = 0.5
	}
	p := b.Aim.Target + et - base.Target
	return five{1, z, float64(b.Thrown) / 10, p, p - (b.Aim.Laydown + el - base.Laydown)}
}

// expectedScatter is V (V+N)^-1 read, over the boards that were read.
func expectedScatter(b Ball, laydown, target, both float64) (el, et float64) {
	v := mat.NewDense(2, 2, []float64{laydown, both, both, target})
	var seen []int
	var read []float64
	if b.Laydown.Known {
		seen, read = append(seen, 0), append(read, b.Laydown.Value-b.Aim.Laydown)
	}
	if b.Target.Known {
		seen, read = append(seen, 1), append(read, b.Target.Value-b.Aim.Target)
	}
	if len(seen) == 0 {
		return 0, 0
	}
	noise := []float64{0.16 + 1.0/12, 0.09 + 1.0/12}
	total, cross := mat.NewDense(len(seen), len(seen), nil), mat.NewDense(2, len(seen), nil)
	for i, a := range seen {
		for j, c := range seen {
			total.Set(i, j, v.At(a, c))
		}
		total.Set(i, i, v.At(a, a)+noise[a])
		cross.Set(0, i, v.At(0, a))
		cross.Set(1, i, v.At(1, a))
	}
	var inverse mat.Dense
	if err := inverse.Inverse(total); err != nil {
		return math.NaN(), math.NaN()
	}
	var shrunk, out mat.VecDense
	shrunk.MulVec(&inverse, mat.NewVecDense(len(read), read))
	out.MulVec(cross, &shrunk)
	return out.AtVec(0), out.AtVec(1)
}

// The scatter is the prior's eight balls and those read, each with the error of reading, which is taken off again.
func TestScatter(t *testing.T) {
	var s scatter
	read := func(l, t float64) Ball { return Ball{Laydown: model.Known(l), Target: model.Known(t)} }
	for _, b := range []Ball{read(2, 3), read(-1, 0), {Target: model.Known(-2.0)}, {Laydown: model.Known(1.0)}, {}} {
		s.add(b)
	}
	const nl, nt = 0.16 + 1.0/12, 0.09 + 1.0/12
	laydown, target, both := s.covariance()
	approx(t, "laydown", laydown, (8*(0.64+nl)+4+1+1)/11-nl, 1e-12)
	approx(t, "target", target, (8*(1.6+nt)+9+4)/11-nt, 1e-12)
	approx(t, "both", both, (8*0.32+6)/10, 1e-12)
	for range 500 {
		s.add(read(0, 0))
		s.add(Ball{Laydown: model.Known(0.0)})
	}
	if laydown, target, both = s.covariance(); laydown != 0.15 || target != 0.25 || both > 0.1 {
		t.Errorf("a student who never errs: %v, %v, %v", laydown, target, both)
	}
}

func TestNoise(t *testing.T) {
	known := model.Known(1.0)
	const unread, boards = 2.5*2.5 - 1.6*1.6, 0.25 + 1.0/12
	for _, c := range []struct {
		ball Ball
		want float64
	}{
		{Ball{Laydown: known, Target: known}, 0},
		{Ball{Laydown: known, Target: known, HitSD: 0.5}, 0},
		{Ball{Laydown: known, Target: known, HitSD: 1.2}, 1.44 - boards},
		{Ball{Target: known}, 0.3 * unread},
		{Ball{Laydown: known}, 0.9 * unread},
		{Ball{HitSD: 0.7}, unread + 0.49 - boards},
	} {
		approx(t, "noise", c.ball.noise(), c.want, 1e-12)
	}
}

func approx(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within*max(1, math.Abs(want))) {
		t.Fatalf("%s is %.12g, want %.12g", what, got, want)
	}
}
