package scheduler

import "math"

// term is one coefficient of an additive model, with its uncertainty.
type term struct {
	Mean, Var float64
}

// input is a term and how strongly it enters one observation. A fixed one is
// not corrected by it.
type input struct {
	term  *term
	x     float64
	fixed bool
}

// inputs collects the terms of one observation without allocating.
type inputs struct {
	list [16]input
	n    int
}

// none empties the collection.
func (in *inputs) none() *inputs {
	in.n = 0
	return in
}

func (in *inputs) add(t *term, x float64) {
	if x != 0 && in.n < len(in.list) {
		in.list[in.n] = input{term: t, x: x}
		in.n++
	}
}

// addFixed adds a term that the observation does not correct.
func (in *inputs) addFixed(t *term, x float64) {
	in.add(t, x)
	in.list[in.n-1].fixed = true
}

// sum returns the mean and the variance of what the terms predict together.
func (in *inputs) sum() (mean, vari float64) {
	for _, i := range in.list[:in.n] {
		mean += i.term.Mean * i.x
		vari += i.term.Var * i.x * i.x
	}
	return mean, vari
}

// correctValue moves the terms towards an observation y that has the given
// noise variance: the measurement step of a Kalman filter whose covariance is
// kept diagonal. Residuals have the influence that a limit of clip standard
// deviations leaves them, so that a heavy tail drags the terms little and they
// follow the median.
// It returns the residual as observed, and the variance that was predicted for
// it without the noise.
func (in *inputs) correctValue(y, noise, clip float64) (residual, vari float64) {
	mean, vari := in.sum()
	total := vari + noise
	residual = y - mean
	used := influence(residual, clip*math.Sqrt(total))
	for _, i := range in.list[:in.n] {
		if i.fixed {
			continue
		}
		gain := i.term.Var * i.x / total
		i.term.Mean += gain * used
		i.term.Var -= gain * i.x * i.term.Var
	}
	return residual, vari
}

// influence is what counts of a residual: no more than the limit (Huber's psi). What is
// far too slow counts less and less (as Hampel's psi has it), for it was the search for a key,
// or a thought elsewhere; what is far too fast was learned.
func influence(residual, limit float64) float64 {
	const far = 1.8 // limits
	used := math.Max(-limit, math.Min(limit, residual))
	if ratio := residual / limit / far; ratio > 1 {
		used /= ratio * ratio
	}
	return used
}

// chance returns the probability that a logit with this mean and variance
// stands for (MacKay 1992, Neural Computation 4, 720-736).
func chance(mean, vari float64) float64 {
	return 1 / (1 + math.Exp(-mean/math.Sqrt(1+math.Pi*vari/8)))
}

// correctChance moves the terms towards the outcome of a yes-or-no observation:
// one Newton step of logistic regression from a normal prior.
func (in *inputs) correctChance(yes bool) {
	mean, vari := in.sum()
	p := chance(mean, vari)
	residual, h := -p, p*(1-p)
	if yes {
		residual = 1 - p
	}
	scale := 1 / (1 + vari*h)
	for _, i := range in.list[:in.n] {
		if i.fixed {
			continue
		}
		gain := i.term.Var * i.x * scale
		i.term.Mean += gain * residual
		i.term.Var -= gain * i.x * i.term.Var * h
	}
}
