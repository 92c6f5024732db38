package standing

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"underlay/scheduler"
)

// The pace after one session carries that session's form: how awake somebody
// was, how few lines of the other board there were. What is told is therefore
// the mean of the last few on the board that is being learned, whose pace falls, and
// the median of more on the other, whose pace stays and where a session is some
// lines. The numbers were chosen on simulated typists, and tried on others.
const (
	formLearned = 5
	formOther   = 8
	// modelError is by how much (standard deviation of ln ms) the model's
	// pace is off besides what it says itself: simulated typists.
	modelError = .03
)

// form is the correction of a board's pace for the form of its last session, and for
// the tail of latencies.
type form struct {
	factor float64 // of times
	sd     float64 // of its logarithm
}

// formOf looks at the last days of practice on a board. In the first sessions,
// while all changes fast, it looks at fewer.
func (w *work) formOf(b int) form {
	y := w.lastPaces(b)
	if len(y) == 0 {
		return form{factor: w.tail, sd: modelError}
	}
	n, middle, steps := float64(len(y)), stat.Mean(y, nil), 0.0
	if b == 1 {
		middle = medianOf(y)
	}
	for i := 1; i < len(y); i++ {
		steps += (y[i] - y[i-1]) * (y[i] - y[i-1]) / 2 / (n - 1)
	}
	return form{w.tail * math.Exp(middle-y[0]), math.Hypot(modelError, math.Sqrt(steps/n))}
}

func medianOf(y []float64) float64 {
	s := slices.Sorted(slices.Values(y))
	return (s[(len(s)-1)/2] + s[len(s)/2]) / 2
}

// lastPaces are the ln ms at the ends of the last days on a board, latest
// first. Before a change of the board it was another one.
func (w *work) lastPaces(b int) (y []float64) {
	most := formOther
	if b == 0 {
		most = min(formLearned, max(1, w.in.Tally.c.Sides[0].Sessions/3))
	}
	days := w.in.Tally.c.Days
	for i := len(days) - 1; i >= 0 && len(y) < most; i-- {
		d := days[i]
		if d.Board != b {
			continue
		}
		if d.Pace.MS <= 0 {
			break
		}
		y = append(y, math.Log(d.Pace.MS))
		if d.Changed {
			break
		}
	}
	return y
}

// corrected applies the form to a pace.
func (f form) corrected(p scheduler.Point) scheduler.Point {
	p.MS *= f.factor
	p.SD = math.Hypot(p.SD, f.sd)
	return p
}
