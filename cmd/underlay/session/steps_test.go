package session

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

// typed makes key times of a person: log-normal gaps about 250 ms, rounded up
// to the next step, as a link or a keyboard that looks for keys now and then
// delivers them, with a little noise on top.
func typed(n int, step, noise float64, seed uint64) *steps {
	rng := rand.New(rand.NewPCG(seed, 7))
	s, at := &steps{}, 0.0
	for range n {
		at += 250 * math.Exp(.3*rng.NormFloat64())
		arrives := at
		if step > 0 {
			arrives = math.Ceil(at/step) * step
		}
		arrives += noise * rng.Float64()
		s.add(time.Unix(0, 0).Add(time.Duration(arrives * float64(time.Millisecond))))
	}
	return s
}

func TestStepsAreFound(t *testing.T) {
	for _, want := range []float64{8, 12, 16.7, 30} {
		for seed := range uint64(10) {
			got, ok := typed(200, want, 1, seed).width()
			if !ok || math.Abs(got-want) > .05*want {
				t.Errorf("steps of %g ms (seed %d): found %.2f, %v", want, seed, got, ok)
			}
		}
	}
}

func TestNoStepsAreInventedWhereThereAreNone(t *testing.T) {
	for seed := range uint64(100) {
		if got, ok := typed(200, 0, 0, seed).width(); ok {
			t.Errorf("seed %d: steps of %.2f ms in even times", seed, got)
		}
	}
	if got, ok := typed(minGaps/2, 12, 0, 1).width(); ok {
		t.Errorf("steps of %.2f ms from too few keys", got)
	}
}
