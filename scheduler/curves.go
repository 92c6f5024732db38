package scheduler

import "math"

// Two courses of practice are considered, in sessions x = 0, 1, 2, …:
//
//	power        ms = A + G (1+x)^-r
//	exponential  ms = A + G e^(-r x)
//
// Which of them people follow is disputed: Newell & Rosenbloom (1981) found
// power laws, Heathcote, Brown & Mewhort (2000) exponentials in all unaveraged
// data. The two bracket the truth, so both are kept.

// shape is the course of G: one at x = 0, falling towards 0.
type shape struct {
	exponential bool
	rate        float64
}

func (c shape) at(x float64) float64 {
	if c.exponential {
		return math.Exp(-c.rate * x)
	}
	return math.Pow(1+x, -c.rate)
}

// reaches returns the x at which the course has fallen to v, 0 < v.
func (c shape) reaches(v float64) float64 {
	switch {
	case v >= 1:
		return 0
	case v <= 0:
		return math.Inf(1)
	case c.exponential:
		return -math.Log(v) / c.rate
	}
	return math.Pow(v, -1/c.rate) - 1
}

// shapes are the courses that a forecast weighs. Both kinds weigh the same in all.
func shapes() (out []shape, prior []float64) {
	power := []float64{.15, .2, .25, .3, .35, .4, .5, .6, .7, .85, 1, 1.2, 1.5}
	for _, r := range power {
		out, prior = append(out, shape{false, r}), append(prior, 1/float64(len(power)))
	}
	var exp []float64
	for t := 2.0; t < 80; t *= 1.25 {
		exp = append(exp, 1/t)
	}
	for _, r := range exp {
		out, prior = append(out, shape{true, r}), append(prior, 1/float64(len(exp)))
	}
	return out, prior
}
