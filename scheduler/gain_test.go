package scheduler_test

import (
	"cmp"
	"math"
	"slices"
	"testing"
	"time"

	"underlay/scheduler"
	"underlay/scheduler/learners"
)

// pressed is a stroke that a typist was asked for.
type pressed struct {
	id, prev int
	at       time.Time
}

// recording notes what a typist was asked for, so that another one who is the
// same can be brought to the same point.
type recording struct {
	learners.Typist
	all []pressed
}

func (r *recording) Press(id, prev int, now time.Time) learners.Press {
	r.all = append(r.all, pressed{id, prev, now})
	return r.Typist.Press(id, prev, now)
}

// history is a typist's past, up to the evening of a day.
type history struct {
	w    *world
	kind string
	seed uint64
	all  []pressed
	day  int
}

// saved is the pace of the next morning, and the ms that a few tries of a stroke
// more take, when a typist has typed all of the history, and some spaces, which shift
// what chance has in store. Without a stroke, -1, it is the pace that would have been.
func (h *history) saved(id, spaces int) (pace, spent float64) {
	const tries = 10
	t := newTypist(h.kind, h.w.work, h.seed)
	for _, p := range h.all {
		t.Press(p.id, p.prev, p.at)
	}
	now := h.all[len(h.all)-1].at
	press := func(id int) float64 {
		now = now.Add(time.Minute)
		k := t.Press(id, h.w.usualBefore(id), now)
		if k.Slip != learners.Right {
			return k.MS + learners.RepairMS(k.MS)
		}
		return k.MS
	}
	for range spaces {
		press(h.w.by[0][' '])
	}
	for n := 0; id >= 0 && n < tries; n++ {
		spent += press(id)
	}
	return learners.Pace(t, 0, morning(h.day)), spent
}

// usualBefore is the stroke that most often precedes one, or -1.
func (w *world) usualBefore(id int) int {
	best, most := -1, 0.0
	for p, f := range w.work.Pairs {
		if p.ID == id && (f > most || f == most && p.Prev < best) {
			best, most = p.Prev, f
		}
	}
	return best
}

// ranks are the places of values in their order; equal ones share the mean of theirs.
func ranks(x []float64) []float64 {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(x[a], x[b]) })
	out := make([]float64, len(x))
	for from := 0; from < len(order); {
		to := from
		for to < len(order) && x[order[to]] == x[order[from]] {
			to++
		}
		for _, i := range order[from:to] {
			out[i] = float64(from+to-1) / 2
		}
		from = to
	}
	return out
}

// spearman is the rank correlation: the product-moment correlation of the ranks.
func spearman(x, y []float64) float64 {
	a, b := ranks(x), ranks(y)
	mean := float64(len(x)-1) / 2
	var ab, aa, bb float64
	for i := range a {
		ab += (a[i] - mean) * (b[i] - mean)
		aa += (a[i] - mean) * (a[i] - mean)
		bb += (b[i] - mean) * (b[i] - mean)
	}
	return ab / math.Sqrt(aa*bb)
}

// What the plan expects practice to be worth goes with what it truly saves, on the
// mean of three typists. With the searcher, who finds a thing all at once or not at
// all, it does so less.
func TestExpectedGainIsGain(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates for some seconds")
	}
	for kind, least := range map[string]float64{"gradual": .8, "searcher": .4} {
		t.Run(kind, func(t *testing.T) {
			t.Parallel()
			const n = 3
			sum := 0.0
			for seed := range uint64(n) {
				sum += spearman(gains(kind, seed+1, 2, 2))
			}
			if got := sum / n; got < least {
				t.Errorf("rank correlation of expected and true gain is %.2f", got)
			}
		})
	}
}

// gains lets a typist practise for some days, and returns for each stroke of the board
// what practice of it is expected to be worth, and what it saves for a ms, over some runs.
func gains(kind string, seed uint64, days, runs int) (expected, truth []float64) {
	w := newWorld(code)
	rec := &recording{Typist: newTypist(kind, w.work, seed)}
	r := newReal(w, seed)
	p := newPractice(w, rec, r, seed)
	p.miss = 0
	for d := range days {
		p.day(d)
	}
	h := history{w, kind, seed, rec.all, days}
	expected, truth = make([]float64, len(w.strokes)), make([]float64, len(w.strokes))
	for id := range w.strokes {
		expected[id] = r.s.Worth(id, rec.all[len(rec.all)-1].at)
	}
	for spaces := range runs {
		before, _ := h.saved(-1, spaces)
		for id, s := range w.strokes {
			if s.Board == 0 {
				after, spent := h.saved(id, spaces)
				truth[id] += (before - after) / spent
			}
		}
	}
	n := slices.IndexFunc(w.strokes, func(s scheduler.Stroke) bool { return s.Board != 0 }) // they come first
	return expected[:n], truth[:n]
}

// Without ties (Spearman 1904; the formula is common knowledge)
// rho = 1 - 6 sum d^2 / (n (n^2 - 1)), here with d^2 = 1, 1, 0, 1, 1 and n = 5.
func TestSpearman(t *testing.T) {
	if got, want := spearman([]float64{1, 2, 3, 4, 5}, []float64{20, 10, 30, 50, 40}), 1-6*4./(5*24); math.Abs(got-want) > 1e-12 {
		t.Errorf("rank correlation %g, want %g", got, want)
	}
	if got := spearman([]float64{1, 1, 2}, []float64{5, 5, 9}); math.Abs(got-1) > 1e-12 {
		t.Errorf("with ties: %g", got)
	}
}
