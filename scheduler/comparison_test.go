package scheduler_test

import (
	"fmt"
	"math"
	"os"
	"sync"
	"testing"
	"time"

	"underlay/scheduler"
	"underlay/scheduler/learners"
)

// typists are the simulated people of package learners.
func typists() []string { return []string{"gradual", "searcher"} }

func newTypist(kind string, w *learners.Work, seed uint64) learners.Typist {
	if kind == "searcher" {
		return learners.NewSearcher(w, seed)
	}
	return learners.NewGradual(w, seed)
}

// outcome is what a month of practice has brought.
type outcome struct {
	day7, day30, after float64 // ms a stroke of the work, next morning; after 14 days more
	rare               float64 // ms of the strokes below one per mille, after these
	neglected          float64
}

// course says how somebody practises.
type course struct {
	minutes float64
	miss    float64
}

func practise(w *world, believed *world, kind string, seed uint64, c course, make func(*world, uint64) chooser) (o outcome) {
	p := newPractice(believed, newTypist(kind, w.work, seed), make(believed, seed), seed)
	p.length, p.miss = time.Duration(c.minutes*float64(time.Minute)), c.miss
	for d := range 30 {
		p.day(d)
		switch d {
		case 6:
			o.day7 = learners.Pace(p.typist, 0, morning(d))
		case 29:
			o.day30 = learners.Pace(p.typist, 0, morning(d))
		}
	}
	p.w = w
	o.after = learners.Pace(p.typist, 0, morning(29+14))
	o.rare = p.rareMS(morning(29 + 14))
	o.neglected = float64(p.neglected())
	return o
}

type way struct {
	name string
	make func(*world, uint64) chooser
}

func ways() []way {
	drawn := func(weight func(scheduler.Stroke) float64) func(*world, uint64) chooser {
		return func(w *world, seed uint64) chooser { return newDraws(w, seed, weight) }
	}
	return []way{
		{"frequency", drawn(byFrequency)},
		{"halves", func(w *world, seed uint64) chooser { return newHalves(w, seed) }},
		{"uniform", drawn(evenly)},
		{"worst first", func(w *world, seed uint64) chooser { return &worstFirst{newRecorder(w, seed)} }},
		{"boxes", func(w *world, seed uint64) chooser { return &boxes{newRecorder(w, seed)} }},
		{"half-lives", func(w *world, seed uint64) chooser { return newHalfLives(w, seed) }},
		{"scheduler", func(w *world, seed uint64) chooser { return newReal(w, seed) }},
	}
}

// ratios are geometric means over typists of the outcomes against those of the
// first way; neglected is a plain mean.
func ratios(w, believed *world, kind string, n int, c course, all []way) []outcome {
	logs := make([][]outcome, len(all))
	for k := range logs {
		logs[k] = make([]outcome, n)
	}
	var wait sync.WaitGroup
	for half := range 2 {
		wait.Go(func() {
			for i := half; i < n; i += 2 {
				for k := range all {
					logs[k][i] = practise(w, believed, kind, uint64(i+1), c, all[k].make)
				}
			}
		})
	}
	wait.Wait()
	out := make([]outcome, len(all))
	for k := range all {
		var sum outcome
		for i := range n {
			a, b := logs[k][i], logs[0][i]
			sum.day7 += math.Log(a.day7 / b.day7)
			sum.day30 += math.Log(a.day30 / b.day30)
			sum.after += math.Log(a.after / b.after)
			sum.rare += math.Log(a.rare / b.rare)
			sum.neglected += a.neglected
		}
		mean := func(x float64) float64 { return math.Exp(x / float64(n)) }
		out[k] = outcome{mean(sum.day7), mean(sum.day30), mean(sum.after), mean(sum.rare), sum.neglected / float64(n)}
	}
	return out
}

// A month with the scheduler is better than one with draws by frequency, on
// both typists, and leaves no stroke out.
func TestBetterThanDraws(t *testing.T) {
	w := newWorld(code)
	all := ways()
	for _, kind := range typists() {
		r := ratios(w, w, kind, 4, course{8, .15}, []way{all[0], all[len(all)-1]})[1]
		if !(r.day7 < .99 && r.day30 < .99 && r.after < .99 && r.rare < .8 && r.neglected == 0) {
			t.Errorf("%s: ratios to draws by frequency %+v", kind, r)
		}
	}
}

// BenchmarkComparison prints the tables of FIGURES.md. It makes no sense of its
// time.
//
//	go test ./scheduler -run - -bench Comparison -benchtime 1x
func BenchmarkComparison(b *testing.B) {
	for range b.N {
		w := newWorld(code)
		out := os.Stdout
		for _, kind := range typists() {
			fmt.Fprintf(out, "\n| %s | day 7 | day 30 | after 14 days | rare strokes then | neglected |\n| --- | --- | --- | --- | --- | --- |\n", kind)
			all := ways()
			for k, r := range ratios(w, w, kind, 20, course{8, .15}, all) {
				fmt.Fprintf(out, "| %s | %.3f | %.3f | %.3f | %.3f | %.1f |\n", all[k].name, r.day7, r.day30, r.after, r.rare, r.neglected)
			}
		}
		fmt.Fprintf(out, "\n| scheduler against frequency | day 7 | day 30 | after 14 days | rare strokes then | neglected |\n| --- | --- | --- | --- | --- | --- |\n")
		for _, kind := range typists() {
			all := ways()
			pair := []way{all[0], all[len(all)-1]}
			for _, c := range []struct {
				name string
				course
				believed *world
			}{{"4 minutes a day", course{4, .15}, w}, {"20 minutes", course{20, .15}, w}, {"40 % of days missed", course{8, .4}, w}, {"frequencies of other code", course{8, .15}, newWorld(otherCode())}} {
				r := ratios(w, c.believed, kind, 12, c.course, pair)[1]
				fmt.Fprintf(out, "| %s, %s | %.3f | %.3f | %.3f | %.3f | %.1f |\n", kind, c.name, r.day7, r.day30, r.after, r.rare, r.neglected)
			}
		}
	}
}

// otherCode is half of the text: what a user with other habits would write.
func otherCode() string { return code[len(code)*6/10:] }
