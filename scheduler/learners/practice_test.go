package learners

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

func monday() time.Time { return time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC) }

// both are the typists of the package, to be made from a seed.
func both() map[string]func(*Work, uint64) Typist {
	return map[string]func(*Work, uint64) Typist{
		"gradual":  func(w *Work, seed uint64) Typist { return NewGradual(w, seed) },
		"searcher": func(w *Work, seed uint64) Typist { return NewSearcher(w, seed) },
	}
}

// practice lets somebody type.
type practice struct {
	t    Typist
	now  time.Time
	keys []tried
}

type tried struct {
	id, got int
	at      time.Time
	ms      float64
	slip    Slip
}

func (k tried) cost() float64 {
	if k.slip != Right {
		return k.ms + RepairMS(k.ms)
	}
	return k.ms
}

// line types strokes in a row, going on after a slip.
func (p *practice) line(ids ...int) {
	prev := -1
	for _, id := range ids {
		k := p.t.Press(id, prev, p.now)
		p.keys = append(p.keys, tried{id, k.Got, p.now, k.MS, k.Slip})
		p.now = p.now.Add(time.Duration(p.keys[len(p.keys)-1].cost() * 1e6))
		prev = id
	}
	p.now = p.now.Add(1500 * time.Millisecond)
}

// day practises real lines and draws by the root of the frequency, in turn.
func (p *practice) day(b *builder, on time.Time, minutes float64, r *rand.Rand) {
	p.now = on
	lines := b.lines(0)
	for end := on.Add(time.Duration(minutes * 60e9)); p.now.Before(end); {
		p.line(lines[r.IntN(len(lines))]...)
		drawn := make([]int, 26)
		for i := range drawn {
			drawn[i] = b.draw(r)
		}
		p.line(drawn...)
	}
}

// draw returns a stroke of the board being learned, by the root of its frequency.
func (b *builder) draw(r *rand.Rand) int {
	most := 0.0
	for _, s := range b.strokes {
		most = max(most, s.Freq)
	}
	for {
		id := r.IntN(len(b.strokes))
		if s := b.strokes[id]; s.Board == 0 && r.Float64() < math.Sqrt(s.Freq/most) {
			return id
		}
	}
}

func median(x []float64) float64 {
	x = slices.Sorted(slices.Values(x))
	return (x[(len(x)-1)/2] + x[len(x)/2]) / 2
}

func mean(x []float64) (m float64) {
	for _, v := range x {
		m += v / float64(len(x))
	}
	return m
}

// exponent is that of the power law fitted to a course by least squares of the logarithms.
func exponent(course []float64) float64 {
	var x, y []float64
	for i, v := range course {
		x, y = append(x, math.Log(float64(i+1))), append(y, math.Log(v))
	}
	mx, my, xy, xx := mean(x), mean(y), 0.0, 0.0
	for i := range x {
		xy += (x[i] - mx) * (y[i] - my)
		xx += (x[i] - mx) * (x[i] - mx)
	}
	return -xy / xx
}

// within fails the test where the median is not from least to most.
func within(t *testing.T, who, what string, values []float64, least, most float64) {
	t.Helper()
	if m := median(values); !(m >= least && m <= most) {
		t.Errorf("%s: %s is %.3f, not between %v and %v", who, what, m, least, most)
	}
}
