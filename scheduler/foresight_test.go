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

// foresight is how forecasts came out: how many there were, how many ranges
// held, and how wide the ones of open targets were.
type foresight struct {
	n, held float64
	widths  []float64 // Hi over Lo, what is never counting as session 400
}

// foresee lets n typists practise, without missed days. After 10, 14 and 20
// sessions it asks when 1.5, 1.25 and 1.1 times the other board's pace are reached.
func foresee(kind string, n, days int) map[int]*foresight {
	out := map[int]*foresight{10: {}, 14: {}, 20: {}}
	w := newWorld(code)
	for seed := range uint64(n) {
		r := newReal(w, seed)
		p := newPractice(w, newTypist(kind, w.work, seed+1), r, seed)
		p.miss = 0
		old := learners.Pace(p.typist, 1, start())
		targets, reached := []float64{1.5 * old, 1.25 * old, 1.1 * old}, []int{days, days, days}
		told := map[int][]scheduler.Outlook{}
		for d := range days {
			p.day(d)
			pace := learners.Pace(p.typist, 0, morning(d))
			for k, target := range targets {
				if pace <= target {
					reached[k] = min(reached[k], d)
				}
				if out[d+1] != nil {
					told[d+1] = append(told[d+1], scheduler.Forecast(r.s.Course(0), old, target))
				}
			}
		}
		for asked, all := range told {
			for k, o := range all {
				out[asked].count(o, asked, reached[k], days)
			}
		}
	}
	return out
}

// count takes an outlook and the session in which its target was reached: days
// when that did not come.
func (f *foresight) count(o scheduler.Outlook, asked, reached, days int) {
	f.n++
	if at := float64(reached); o.Lo <= at && at <= o.Hi || reached == days && o.Hi >= at {
		f.held++
	}
	if reached >= asked {
		f.widths = append(f.widths, math.Min(o.Hi, 400)/math.Max(math.Min(o.Lo, 400), 1))
	}
}

// BenchmarkForesight prints a table of FIGURES.md.
//
//	go test ./scheduler -run - -bench Foresight -benchtime 1x
func BenchmarkForesight(b *testing.B) {
	for range b.N {
		fmt.Fprintln(os.Stdout, "\n| typist, sessions so far | 80 % ranges that hold | median Hi/Lo of what was not reached yet |\n| --- | --- | --- |")
		for _, kind := range typists() {
			all := foresee(kind, 20, 90)
			for _, asked := range []int{10, 14, 20} {
				f := all[asked]
				slices.Sort(f.widths)
				width := "none"
				if n := len(f.widths); n > 0 {
					width = fmt.Sprintf("%.1f (%d)", f.widths[n/2], n)
				}
				fmt.Fprintf(os.Stdout, "| %s, %d | %.2f of %.0f | %s |\n", kind, asked, f.held/f.n, f.n, width)
			}
		}
	}
}
