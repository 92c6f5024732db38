package session

import (
	"fmt"
	"math"
	"time"
)

// steps finds out whether key times come in steps, as they do over a slow
// link, a wireless board or a terminal that looks for keys now and then.
type steps struct {
	last time.Time
	gaps []float64 // ms between keys, the latest maxGaps
	next int
}

const (
	maxGaps  = 400
	minGaps  = 80
	minStep  = 4.0  // ms; finer steps do not matter here
	maxStep  = 60.0 // ms
	strength = .8   // length of the mean vector from which steps are believed
)

func (s *steps) add(at time.Time) {
	gap := at.Sub(s.last)
	fresh := s.last.IsZero()
	s.last = at
	if fresh || gap <= 0 || gap > 2*time.Second {
		return
	}
	ms := float64(gap) / float64(time.Millisecond)
	if len(s.gaps) < maxGaps {
		s.gaps = append(s.gaps, ms)
		return
	}
	s.gaps[s.next] = ms
	s.next = (s.next + 1) % maxGaps
}

// width returns the width of the steps in ms, if there are any. Gaps that are
// multiples of a step, give or take little, have the same phase on a circle
// of that step's length: the mean vector is long (the resultant length of
// directional statistics). Of the steps that fit, the widest is the true one,
// since its fractions fit as well.
func (s *steps) width() (float64, bool) {
	if len(s.gaps) < minGaps {
		return 0, false
	}
	best, at := 0.0, 0.0
	for step := maxStep; step >= minStep; step *= .998 {
		if r := s.resultant(step); r > best && r >= strength {
			best, at = r, step
		} else if best > 0 && r < strength/2 {
			break // past the first peak
		}
	}
	return at, best > 0
}

func (s *steps) resultant(step float64) float64 {
	var c, q float64
	for _, g := range s.gaps {
		sin, cos := math.Sincos(2 * math.Pi * g / step)
		c, q = c+cos, q+sin
	}
	return math.Hypot(c, q) / float64(len(s.gaps))
}

func stepWords(ms float64) string {
	return fmt.Sprintf("Key times come in steps of about %.0f ms; figures are no finer.", ms)
}
