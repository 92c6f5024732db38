package learners

import (
	"math"
	"math/rand/v2"
)

// attention wanders for some strokes, and returns.
type attention struct{ away bool }

// latency draws a latency around ms.
func (a *attention) latency(ms float64, h *habits, r *rand.Rand) float64 {
	leaves := h.wanders
	if a.away {
		leaves = 1 - h.returns
	}
	a.away = r.Float64() < leaves
	ms *= math.Exp(h.noise * r.NormFloat64())
	if !a.away {
		return ms
	}
	ms *= h.dim
	if r.Float64() < h.absent {
		ms += h.absentMS * r.ExpFloat64()
	}
	return ms
}

// away is the share of strokes while attention wanders.
func (h *habits) away() float64 { return h.wanders / (h.wanders + h.returns) }

// wandering is the mean factor on latencies, pauses not counted.
func (h *habits) wandering() float64 { return 1 + h.away()*(h.dim-1) }

// absence is the mean ms of pauses, a stroke.
func (h *habits) absence() float64 { return h.away() * h.absent * h.absentMS }

// mixture is the latency of a stroke that is known at times and looked for at others.
type mixture struct {
	quick float64 // ms when it is known
	slow  float64 // ms before the first key is looked at
	looks float64 // ms a key
	keys  int     // of which 1 to all are looked at
	share float64 // of times that it is looked for
	noise float64 // standard deviation of ln latency
}

func (m mixture) mean() float64 {
	slow := m.slow + m.looks*float64(m.keys+1)/2
	return ((1-m.share)*m.quick + m.share*slow) * math.Exp(m.noise*m.noise/2)
}

// median halves the interval between sure bounds until it is found.
func (m mixture) median() float64 {
	low, high := 0.0, 10*(m.slow+m.quick+m.looks*float64(m.keys))
	for range 40 {
		if mid := (low + high) / 2; m.below(mid) < .5 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// below is the chance of a latency of at most ms.
func (m mixture) below(ms float64) float64 {
	p := (1 - m.share) * m.normal(ms/m.quick)
	for i := 1; i <= m.keys; i++ {
		p += m.share / float64(m.keys) * m.normal(ms/(m.slow+m.looks*float64(i)))
	}
	return p
}

func (m mixture) normal(ratio float64) float64 {
	return .5 * math.Erfc(-math.Log(ratio)/(m.noise*math.Sqrt2))
}
