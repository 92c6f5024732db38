package scheduler_test

import (
	"fmt"
	"math"
	"os"
	"slices"
	"testing"
	"time"

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
func calibrate(kind string, first uint64, n int, how course) (c calibration) {
	w := newWorld(code)
	var all []told
	for seed := first; seed < first+uint64(n); seed++ {
		r := newReal(w, seed)
		asked := &asking{real: r}
		p := newPractice(w, newTypist(kind, w.work, seed+1), asked, seed)
		p.length, p.miss = time.Duration(how.minutes*float64(time.Minute)), how.miss
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

// BenchmarkCalibration prints the tables of FIGURES.md.
//
//	go test ./scheduler -run - -bench Calibration -benchtime 1x
func BenchmarkCalibration(b *testing.B) {
	usual := course{8, .15}
	for range b.N {
		tenths := map[string]calibration{}
		out := os.Stdout
		fmt.Fprintln(out, "\n| typists | ranges that hold | error of ln ms | bias | error of the chance of a slip |\n| --- | --- | --- | --- | --- |")
		for _, kind := range typists() {
			for _, c := range []struct {
				name  string
				first uint64
				course
			}{{"1 to 12", 0, usual}, {"41 to 52", 40, usual}, {"81 to 92", 80, usual}, {"1 to 12, 4 minutes a day", 0, course{4, .15}}, {"1 to 12, 40 % of days missed", 0, course{8, .4}}} {
				r := calibrate(kind, c.first, 12, c.course)
				if c.course == usual {
					tenths[kind] = r
				}
				fmt.Fprintf(out, "| %s, %s | %.2f of %.0f | %.3f | %+.3f | %.3f |\n", kind, c.name, r.inside/r.levels, r.levels, r.off/r.levels, r.bias/r.levels, math.Sqrt(r.errSquares/r.levels))
			}
		}
		fmt.Fprintln(out, "\n| tenth of the tries | gradual: expected | seen | searcher: expected | seen |\n| --- | --- | --- | --- | --- |")
		g, s := tenths["gradual"].tenths, tenths["searcher"].tenths
		for k := range g {
			a, b := g[k], s[k]
			fmt.Fprintf(out, "| %d | %.3f | %.3f | %.3f | %.3f |\n", k+1, a.expected/a.n, a.seen/a.n, b.expected/b.n, b.seen/b.n)
		}
	}
}
