package scheduler_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"underlay/scheduler"
)

// The ways to practise that the scheduler is held against.

// draws takes strokes by chance, by a weight of each.
type draws struct {
	sums []float64
	ids  []int
	r    *rand.Rand
}

func newDraws(w *world, seed uint64, weight func(scheduler.Stroke) float64) *draws {
	d := &draws{r: rand.New(rand.NewPCG(seed, 2))}
	sum := 0.0
	for id, s := range w.strokes {
		if s.Board == 0 {
			sum += weight(s)
			d.sums, d.ids = append(d.sums, sum), append(d.ids, id)
		}
	}
	return d
}

func (d *draws) begin(time.Time, time.Duration) {}
func (d *draws) observe(scheduler.Try)          {}
func (d *draws) draw() int {
	k, _ := slices.BinarySearch(d.sums, d.r.Float64()*d.sums[len(d.sums)-1])
	return d.ids[min(k, len(d.ids)-1)]
}
func (d *draws) next(time.Time, time.Duration) []int {
	ids := make([]int, 24)
	for i := range ids {
		ids[i] = d.draw()
	}
	return ids
}

func byFrequency(s scheduler.Stroke) float64 { return s.Freq }
func byRoot(s scheduler.Stroke) float64      { return math.Sqrt(s.Freq) }
func evenly(scheduler.Stroke) float64        { return 1 }
func outsideText(s scheduler.Stroke) float64 {
	if s.Text {
		return 0
	}
	return s.Freq
}

// halves is half real lines, with drills of what no text shows in its share,
// and half draws by the root of the frequency.
type halves struct {
	*draws
	w           *world
	unseen      *draws
	share       float64
	lines, kept float64 // strokes so far, and those of them that no text shows
}

func newHalves(w *world, seed uint64) *halves {
	h := &halves{draws: newDraws(w, seed, byRoot), w: w, unseen: newDraws(w, seed+1, outsideText)}
	for _, s := range w.strokes {
		if s.Board == 0 {
			h.share += outsideText(s)
		}
	}
	return h
}

func (h *halves) next(now time.Time, left time.Duration) []int {
	if h.r.Float64() < .5 {
		return h.draws.next(now, left)
	}
	if h.kept < h.share*h.lines {
		h.kept += 24
		h.lines += 24
		return h.unseen.next(now, left)
	}
	line := h.w.lines[h.r.IntN(len(h.w.lines))]
	h.lines += float64(len(line))
	return line
}

// record is what the following ways remember of a stroke.
type record struct {
	tries, slips float64
	ms           float64 // running mean
	last         time.Time
	box          int
	due          time.Time
	right, wrong float64
}

type recorder struct {
	w    *world
	of   []record
	fill *draws
}

func newRecorder(w *world, seed uint64) recorder {
	return recorder{w, make([]record, len(w.strokes)), newDraws(w, seed, byFrequency)}
}

func (r *recorder) begin(time.Time, time.Duration) {}
func (r *recorder) note(t scheduler.Try) *record {
	k := &r.of[t.ID]
	k.tries++
	if t.Wrong {
		k.slips++
		k.wrong++
	} else {
		k.ms += (t.MS - k.ms) / min(k.tries-k.slips, 10)
		k.right++
	}
	return k
}

// choose returns 24 strokes: the most urgent ones, and draws by frequency after them.
func (r *recorder) choose(urgency func(id int) float64) []int {
	type urgent struct {
		id int
		u  float64
	}
	var all []urgent
	for id, s := range r.w.strokes {
		if u := urgency(id); s.Board == 0 && u > 0 {
			all = append(all, urgent{id, u})
		}
	}
	slices.SortStableFunc(all, func(a, b urgent) int {
		switch {
		case a.u > b.u:
			return -1
		case a.u < b.u:
			return 1
		}
		return 0
	})
	var ids []int
	for _, a := range all[:min(12, len(all))] {
		ids = append(ids, a.id)
	}
	for len(ids) < 24 {
		ids = append(ids, r.fill.draw())
	}
	return ids
}

// worstFirst drills what costs most.
type worstFirst struct{ recorder }

func (w *worstFirst) observe(t scheduler.Try) { w.note(t).last = t.At }
func (w *worstFirst) next(time.Time, time.Duration) []int {
	return w.choose(func(id int) float64 {
		k := &w.of[id]
		if k.tries == 0 {
			return 1500
		}
		return k.ms + k.slips/k.tries*(450+.8*k.ms)
	})
}

// boxes is Leitner's scheme as Settles & Meeder (2016) write it: the half-life is
// 2^(right - wrong) days, so that right doubles it and wrong halves it. A stroke
// is right once a time it is due; it is due after its half-life.
type boxes struct{ recorder }

func (b *boxes) observe(t scheduler.Try) {
	k := b.note(t)
	switch {
	case t.Wrong:
		k.box = max(0, k.box-1)
	case t.At.After(k.due):
		k.box++
	default:
		return
	}
	k.due = t.At.Add(time.Duration(boxDays(k.box) * 24 * float64(time.Hour)))
	if k.box == 0 {
		k.due = t.At
	}
}

// boxDays is the half-life; the first time that it was right makes it a day.
func boxDays(box int) float64 { return math.Exp2(float64(box - 1)) }

func (b *boxes) next(now time.Time, _ time.Duration) []int {
	return b.choose(func(id int) float64 {
		if k := &b.of[id]; k.tries > 0 && now.Before(k.due) {
			return 0
		}
		return 1 / float64(1+b.of[id].box)
	})
}

// halfLives is half-life regression (Settles & Meeder 2016, ACL, 1848-1858): the
// half-life of a stroke is 2^(theta . x) days with x = sqrt(1+right), sqrt(1+wrong), 1. The
// weights are learned as it goes; what is least likely to be recalled comes first.
type halfLives struct {
	recorder
	theta [3]float64
}

func newHalfLives(w *world, seed uint64) *halfLives {
	return &halfLives{newRecorder(w, seed), [3]float64{.1, -.1, 0}}
}

// recall is the chance of recall after so many days: p = 2^(-days/h).
func recall(days, halfLife float64) float64 {
	return math.Min(math.Max(math.Exp2(-days/halfLife), .0001), .9999)
}

// halfLifeOf is the half-life in days that a chance of recall stands for: h = -days/log2 p.
func halfLifeOf(p, days float64) float64 { return boundHalfLife(-days / math.Log2(p)) }

func boundHalfLife(h float64) float64 { return math.Min(math.Max(h, 15./60/24), 274) }

func (h *halfLives) features(k *record) [3]float64 {
	return [3]float64{math.Sqrt(1 + k.right), math.Sqrt(1 + k.wrong), 1}
}

func (h *halfLives) halfLife(x [3]float64) float64 {
	sum := 0.0
	for i := range x {
		sum += h.theta[i] * x[i]
	}
	return boundHalfLife(math.Exp2(sum))
}

// observe takes a step down the loss (p - p')^2 + alpha (h - h')^2 + lambda |theta|^2,
// at the first meeting of a day.
func (h *halfLives) observe(t scheduler.Try) {
	k := &h.of[t.ID]
	if days := t.At.Sub(k.last).Hours() / 24; k.tries > 0 && days > .1 {
		const rate, alpha, lambda = .001, .01, .1
		p := .9999
		if t.Wrong {
			p = .0001
		}
		x := h.features(k)
		hat := h.halfLife(x)
		guess, want := recall(days, hat), halfLifeOf(p, days)
		dp := 2 * (guess - p) * math.Ln2 * math.Ln2 * guess * days / hat
		dh := 2 * alpha * (hat - want) * math.Ln2 * hat
		for i := range x {
			h.theta[i] -= rate * (math.Min(math.Max(dp+dh, -10), 10)*x[i] + lambda*h.theta[i])
		}
	}
	h.note(t).last = t.At
}

func (h *halfLives) next(now time.Time, _ time.Duration) []int {
	return h.choose(func(id int) float64 {
		k := &h.of[id]
		if k.tries == 0 {
			return 1
		}
		u := 1 - recall(now.Sub(k.last).Hours()/24, h.halfLife(h.features(k)))
		if u < .1 {
			return 0
		}
		return u
	})
}
