package scheduler_test

import (
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"underlay/scheduler"
	"underlay/scheduler/learners"
)

// calibration compares what was expected with what came.
type calibration struct {
	levels, inside float64 // strokes on mornings; true medians inside the 80 % range
	off, bias      float64 // sums of |ln| and ln of expected over true medians
	errSquares     float64
	tenths         [10]struct{ n, expected, seen float64 }
}

type told struct {
	expected float64
	wrong    bool
}

// calibrate lets n typists practise for a month, and asks before every try of a
// later day and on every third morning.
func calibrate(kind string, n int) (c calibration) {
	w := newWorld(code)
	var all []told
	for seed := range uint64(n) {
		r := newReal(w, seed)
		asked := &asking{real: r}
		p := newPractice(w, newTypist(kind, w.work, seed+1), asked, seed)
		for d := range 30 {
			asked.on = d > 3
			p.day(d)
			if d%3 == 2 && d > 3 {
				c.ask(w, r.s, p.typist, d)
			}
		}
		all = append(all, asked.told...)
	}
	slices.SortStableFunc(all, func(a, b told) int {
		if a.expected < b.expected {
			return -1
		} else if a.expected > b.expected {
			return 1
		}
		return 0
	})
	for i, a := range all {
		d := &c.tenths[i*10/len(all)]
		d.n++
		d.expected += a.expected
		if a.wrong {
			d.seen++
		}
	}
	return c
}

// asking asks for the chance of a slip before it tells what came.
type asking struct {
	real
	on   bool
	told []told
}

func (a *asking) observe(t scheduler.Try) {
	if a.on {
		a.told = append(a.told, told{a.s.Level(t.ID, t.At).Err, t.Wrong})
	}
	a.real.observe(t)
}

func (c *calibration) ask(w *world, s *scheduler.Scheduler, t learners.Typist, day int) {
	for id, st := range w.strokes {
		if st.Board != 0 || !st.Text { // the typists know no neighbours of the others
			continue
		}
		l, truth := s.Level(id, morning(day)), t.Expect(id, morning(day))
		c.levels++
		if l.Lo <= truth.Median && truth.Median <= l.Hi {
			c.inside++
		}
		d := math.Log(l.MS / truth.Median)
		c.off += math.Abs(d)
		c.bias += d
		c.errSquares += (l.Err - truth.Err) * (l.Err - truth.Err)
	}
}

// BenchmarkCalibration prints the table of FIGURES.md.
//
//	go test ./scheduler -run - -bench Calibration -benchtime 1x
func BenchmarkCalibration(b *testing.B) {
	for range b.N {
		for _, kind := range typists() {
			c := calibrate(kind, 12)
			fmt.Fprintf(os.Stdout, "\n%s: 80 %% ranges of the median hold in %.2f of %.0f; mean |ln expected/true| %.3f, mean ln %+.3f; slips rmse %.3f\n",
				kind, c.inside/c.levels, c.levels, c.off/c.levels, c.bias/c.levels, math.Sqrt(c.errSquares/c.levels))
			fmt.Fprintln(os.Stdout, "\n| tenth of the tries | slips expected | seen |\n| --- | --- | --- |")
			for k, d := range c.tenths {
				fmt.Fprintf(os.Stdout, "| %d | %.3f | %.3f |\n", k+1, d.expected/d.n, d.seen/d.n)
			}
		}
	}
}
