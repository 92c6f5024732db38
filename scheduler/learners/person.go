package learners

import (
	"math"
	"math/rand/v2"
)

// generator makes the random numbers of one typist for one purpose.
func generator(seed, purpose uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, purpose)) }

// about draws a value around m that differs by the factor exp(s) between people.
func about(r *rand.Rand, m, s float64) float64 { return m * math.Exp(s*r.NormFloat64()) }

func clamp(x, least, most float64) float64 { return math.Max(least, math.Min(most, x)) }

// reach returns the ms that each stroke takes a hand that knows it well, the way into its
// layer not counted: by finger and row, and a little by chance. Nothing is slower than a little
// finger in the bottom row, or faster than a thumb (common practice; the values are assumed).
func reach(w *Work, speed float64, r *rand.Rand) []float64 {
	fingers := []float64{185, 168, 152, 145, 110}
	for i := range fingers {
		fingers[i] *= math.Exp(.08 * r.NormFloat64())
	}
	list := make([]float64, len(w.Strokes))
	for id, s := range w.Strokes {
		ms := fingers[clampInt(s.Finger, 0, thumb)] + rowMS(s.Row)
		switch {
		case s.Board == 1 && s.Layer != 0:
			ms += 60
		case s.Board == 0 && s.Layer != 0:
			ms += 28
		}
		if s.Board == 0 && w.inner[id] {
			ms += 22
		}
		list[id] = ms * speed * math.Exp(.06*r.NormFloat64())
	}
	return list
}

// rowMS is what a row takes more than the home row.
func rowMS(row int) float64 {
	switch row {
	case 1:
		return 28
	case 3:
		return 12
	case 4, 5:
		return 55
	}
	return 0
}

func clampInt(x, least, most int) int { return max(least, min(most, x)) }
