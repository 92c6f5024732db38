package scheduler_test

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %v, not %v", what, got, want)
	}
}

// Settles & Meeder (2016), table 1 and the definitions beside it: h = -days/log2 p.
func TestHalfLivesOfPublishedRows(t *testing.T) {
	for _, row := range []struct{ p, days, want float64 }{{.5, 1.7, 1.7}, {.8, 4.7, 14.5995}, {.5, 13.5, 13.5}} {
		near(t, "half-life", halfLifeOf(row.p, row.days), row.want, 5e-5)
		near(t, "recall", recall(row.days, row.want), row.p, 1e-5)
	}
	// Bounds of the paper: 15 minutes to 9 months, chances .0001 to .9999.
	near(t, "shortest", halfLifeOf(.0001, .001), 1./96, 1e-12)
	near(t, "longest", halfLifeOf(.9999, 365), 274, 0)
	near(t, "least recall", recall(1e6, 1), .0001, 0)
}

// The paper writes Leitner's scheme as weights of +1 and -1 for right and wrong:
// half-lives double and halve.
func TestBoxesDoubleAndHalve(t *testing.T) {
	h := halfLives{theta: [3]float64{1, -1, 0}}
	for right := range 4 {
		for wrong := range 3 {
			near(t, "half-life", h.halfLife([3]float64{float64(right), float64(wrong), 1}), math.Exp2(float64(right-wrong)), 1e-12)
			near(t, "box", boxDays(right-wrong+1), math.Exp2(float64(right-wrong)), 1e-12)
		}
	}
}
