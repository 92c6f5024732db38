package learners

import (
	"math"
	"testing"
	"time"
)

// password has a learner type .tie5Roanl and Enter 50 times in each of eight sittings on
// the standard board, as people did for Killourhy and Maxion, "Comparing anomaly-detection
// algorithms for keystroke dynamics" (2009). It returns the latencies in ms of each try's keys after the
// first; tries with a slip are typed again, as they were there.
func password(who Typist, b *builder) (tries [][]float64) {
	var ids []int
	for _, c := range ".tie5Roanl\n" {
		ids = append(ids, b.by[1][c])
	}
	p := practice{t: who}
	for sitting := range 8 {
		p.now = monday().AddDate(0, 0, sitting)
		for done := 0; done < 50; {
			p.keys = p.keys[:0]
			p.line(ids...)
			p.now = p.now.Add(2 * time.Second)
			var try []float64
			for _, k := range p.keys[1:] {
				if k.slip == Right {
					try = append(try, k.ms)
				}
			}
			if len(try) == len(ids)-1 {
				tries = append(tries, try)
				done++
			}
		}
	}
	return tries
}

// spread is how the logarithms of one key's latencies in one sitting lie.
type spread struct{ deviation, robust, above, correlation float64 }

func spreadOf(course []float64) (s spread) {
	var x, off []float64
	for _, ms := range course {
		x = append(x, math.Log(ms))
	}
	mid, m := median(x), mean(x)
	var squares, products float64
	for i, v := range x {
		off = append(off, math.Abs(v-mid))
		squares += (v - m) * (v - m)
		if i > 0 {
			products += (v - m) * (x[i-1] - m)
		}
		if v > mid+math.Ln2 {
			s.above += 1 / float64(len(x))
		}
	}
	s.deviation = math.Sqrt(squares / float64(len(x)-1))
	s.robust = 1.4826 * median(off) // the factor for a normal distribution
	s.correlation = products / squares
	return s
}

// facts of a number of learners: a value a learner.
type facts struct{ deviation, robust, above, correlation, practice, first, second []float64 }

func (f *facts) add(tries [][]float64) {
	var deviation, robust, above, correlation, first, second, totals []float64
	for _, try := range tries {
		totals = append(totals, mean(try))
	}
	for sitting := range 8 {
		part := tries[50*sitting : 50*sitting+50]
		for key := range part[0] {
			var course []float64
			for _, try := range part {
				course = append(course, try[key])
			}
			s := spreadOf(course)
			deviation, robust = append(deviation, s.deviation), append(robust, s.robust)
			above, correlation = append(above, s.above), append(correlation, s.correlation)
		}
		whole := totals[50*sitting : 50*sitting+50]
		first, second = append(first, whole[0]/median(whole)), append(second, whole[1]/median(whole))
	}
	f.deviation, f.robust = append(f.deviation, median(deviation)), append(f.robust, median(robust))
	f.above, f.correlation = append(f.above, mean(above)), append(f.correlation, mean(correlation))
	f.practice = append(f.practice, exponent(totals))
	f.first, f.second = append(f.first, median(first)), append(f.second, median(second))
}

func factsOf(t *testing.T, make func(*Work, uint64) Typist) (f facts) {
	w, b := testWork(t)
	for seed := range uint64(40) {
		f.add(password(make(w, seed), b))
	}
	return f
}

// The ranges are computed from the records of Killourhy and Maxion (51 people) and
// of a like set with a symbol layer (56 people).
func TestSearcherTypesAPasswordAsPeopleDo(t *testing.T) {
	f := factsOf(t, both()["searcher"])
	within(t, "searcher", "log standard deviation in a sitting", f.deviation, .21, .34)
	within(t, "searcher", "the same, robust", f.robust, .12, .21)
	within(t, "searcher", "share above twice the median", f.above, .025, .057)
	within(t, "searcher", "correlation from try to try", f.correlation, .10, .16)
	within(t, "searcher", "practice exponent of the whole, quartiles .090 and .131", f.practice, .090, .131)
	within(t, "searcher", "first try of a sitting, 1.15 times the median", f.first, 1.12, 1.18)
	within(t, "searcher", "second try of a sitting, 1.03 times the median", f.second, 1.01, 1.05)
}

// What the other one has of these, and has not.
func TestGradualTypesAPassword(t *testing.T) {
	f := factsOf(t, both()["gradual"])
	within(t, "gradual", "log standard deviation in a sitting", f.deviation, .21, .34)
	within(t, "gradual", "first try of a sitting", f.first, 1.12, 1.32)
	within(t, "gradual", "share above twice the median: too few", f.above, .005, .025)
	within(t, "gradual", "correlation from try to try: none", f.correlation, -.03, .05)
}
