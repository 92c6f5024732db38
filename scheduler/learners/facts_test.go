package learners

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// courseOfNew drills the strokes of a layer, each beside a letter, a hundred times in eight
// days, and returns the exponents of their latencies.
func courseOfNew(who Typist, b *builder, r *rand.Rand) (exponents []float64) {
	var layer []int
	for id, s := range b.strokes {
		if s.Board == 0 && s.Layer == 2 {
			layer = append(layer, id)
		}
	}
	p := practice{t: who}
	for day := range 8 {
		p.now = monday().AddDate(0, 0, day)
		for range 13 * len(layer) / 8 {
			var line []int
			for range 8 {
				line = append(line, layer[r.IntN(len(layer))], b.by[0]['a'+rune(r.IntN(26))])
			}
			p.line(line...)
		}
	}
	course := map[int][]float64{}
	for _, k := range p.keys {
		if k.slip == Right && len(course[k.id]) < 100 {
			course[k.id] = append(course[k.id], k.ms)
		}
	}
	for _, id := range layer {
		exponents = append(exponents, exponent(course[id]))
	}
	return exponents
}

// Simple power laws fitted to practice have exponents from .08 to .51 (Newell and
// Rosenbloom 1981, their table, from memory), on small keyboards .22 (Clarkson et al. 2005, from the end
// points) and .32 (MacKenzie and Zhang 1999, likewise).
func TestNewStrokesGetFasterAsPublished(t *testing.T) {
	for name, make := range both() {
		w, b := testWork(t)
		var all []float64
		for seed := range uint64(10) {
			all = append(all, courseOfNew(make(w, seed), b, rand.New(rand.NewPCG(seed, 9)))...)
		}
		within(t, name, "practice exponent of new strokes", all, .15, .4)
	}
}

// Pairs that people know change with an exponent of .016 to .08 in the records of
// Killourhy and Maxion; here they are known better still.
func TestFamiliarPairsHardlyChange(t *testing.T) {
	for name, make := range both() {
		w, b := testWork(t)
		var all []float64
		for seed := range uint64(10) {
			p := practice{t: make(w, seed)}
			for day := range 8 {
				p.now = monday().AddDate(0, 0, day)
				for range 5 {
					for _, l := range b.lines(1) {
						p.line(l...)
					}
				}
			}
			course := map[Pair][]float64{}
			for i, k := range p.keys[1:] {
				if pair := (Pair{p.keys[i].id, k.id}); k.slip == Right && w.Pairs[pair] > .004 {
					course[pair] = append(course[pair], k.ms)
				}
			}
			for _, c := range course {
				all = append(all, exponent(c))
			}
		}
		within(t, name, "practice exponent of familiar pairs", all, -.01, .08)
	}
}

// month practises eight minutes a day.
func month(who Typist, b *builder, seed uint64) *practice {
	p := &practice{t: who}
	r := rand.New(rand.NewPCG(seed, 9))
	for day := range 30 {
		p.day(b, monday().AddDate(0, 0, day), 8, r)
	}
	return p
}

func TestAMonthOfPractice(t *testing.T) {
	for name, make := range both() {
		w, b := testWork(t)
		var start, end, kept, old []float64
		for seed := range uint64(10) {
			g := make(w, seed)
			first, standard := Pace(g, 0, monday()), Pace(g, 1, monday())
			month(g, b, seed)
			last := Pace(g, 0, monday().AddDate(0, 0, 30))
			start, end = append(start, first/standard), append(end, last/standard)
			kept = append(kept, (first-Pace(g, 0, monday().AddDate(1, 0, 30)))/(first-last))
			old = append(old, Pace(g, 1, monday().AddDate(0, 0, 30))/standard)
		}
		within(t, name, "the new board at first, as a multiple of the old one", start, 2.5, 5.5)
		within(t, name, "the same after a month", end, .9, 1.6)
		// Kolers (1976): of the time saved in reading inverted text, 86.8 % were left after a year.
		within(t, name, "what is left after a year of what was won", kept, .8, 1)
		switch name {
		case "searcher": // Gopher and Raij: the old skill does not suffer
			within(t, name, "the old board after a month, as a multiple of before", old, .98, 1.02)
		case "gradual": // by its interference: what upkeep is for
			within(t, name, "the old board after a month, as a multiple of before", old, 1.05, 1.4)
		}
	}
}

// Salthouse (1984): a key after one of the other hand comes 30 to 60 ms sooner.
func TestOtherHandIsFaster(t *testing.T) {
	w, b := testWork(t)
	var gain []float64
	for seed := range uint64(20) {
		p := practice{t: NewSearcher(w, seed), now: monday()}
		for range 20 {
			for _, l := range b.lines(1) {
				p.line(l...)
			}
		}
		var same, other []float64
		for i, k := range p.keys[1:] {
			before, s := w.Strokes[p.keys[i].id], w.Strokes[k.id]
			switch {
			case before.Layer != s.Layer || before.Finger == thumb || s.Finger == thumb || p.keys[i].slip != Right || k.at.Sub(p.keys[i].at) > 3*time.Second:
			case before.Hand != s.Hand:
				other = append(other, k.ms)
			case before.Finger != s.Finger:
				same = append(same, k.ms)
			}
		}
		gain = append(gain, median(same)-median(other))
	}
	within(t, "searcher", "ms gained by the other hand", gain, 30, 60)
}

// What Expect tells is what comes about: over lines of the work, warmed up, the mean time
// a stroke is within a few per cent, and the share of slips too.
func TestExpectIsWhatComesAbout(t *testing.T) {
	for name, make := range both() {
		w, b := testWork(t)
		var pace, slips []float64
		for seed := range uint64(6) {
			g := make(w, seed)
			p := month(g, b, seed)
			lines := b.lines(0)
			for range 10 { // warm up
				p.line(lines[len(p.keys)%len(lines)]...)
			}
			expected, wrong := Pace(g, 0, p.now), wrongs(g, p.now)
			p.keys = p.keys[:0]
			for range 2 { // before the typist tires
				for _, l := range lines {
					p.line(l...)
				}
			}
			cost, slipped := 0.0, 0.0
			n := 0.0
			for i, k := range p.keys {
				if i == 0 || k.at.Sub(p.keys[i-1].at) > 1500*time.Millisecond && w.Strokes[p.keys[i-1].id].Row == 0 {
					continue // the first of a line takes longer
				}
				n++
				cost += k.cost()
				if k.slip != Right {
					slipped++
				}
			}
			pace, slips = append(pace, cost/n/expected), append(slips, slipped/n-wrong)
		}
		within(t, name, "time a stroke, as a multiple of what was expected", pace, .95, 1.05)
		within(t, name, "share of slips less what was expected", slips, -.006, .006)
	}
}

func wrongs(who Typist, at time.Time) (sum float64) {
	for id, s := range who.Work().Strokes {
		if s.Board == 0 {
			sum += s.Freq * who.Expect(id, at).Err
		}
	}
	return sum
}

// The same seed types the same; another one is another person.
func TestSeedsArePersons(t *testing.T) {
	for name, make := range both() {
		w, b := testWork(t)
		type result struct {
			keys []tried
			pace float64
		}
		run := func(seed uint64) result {
			p := practice{t: make(w, seed)}
			r := rand.New(rand.NewPCG(1, 1))
			for day := range 3 {
				p.day(b, monday().AddDate(0, 0, day), 2, r)
			}
			return result{p.keys, Pace(p.t, 0, p.now)}
		}
		one, again, other := run(1), run(1), run(2)
		if !slices.Equal(one.keys, again.keys) || one.pace != again.pace {
			t.Errorf("%s: the same seed typed differently", name)
		}
		if math.Abs(one.pace/other.pace-1) < 1e-6 {
			t.Errorf("%s: two seeds are the same person", name)
		}
	}
}

// What comes instead of a stroke fits the slip that it is said to be.
func TestSlipsAreWhatTheyAreCalled(t *testing.T) {
	for name, make := range both() {
		w, b := testWork(t)
		met := map[Slip]int{}
		for seed := range uint64(6) {
			p := practice{t: make(w, seed)}
			p.day(b, monday(), 8, rand.New(rand.NewPCG(seed, 1)))
			for _, k := range p.keys {
				met[k.slip]++
				if (k.slip == Right) != (k.got == k.id) {
					t.Fatalf("%s: %d for %d is called %v", name, k.got, k.id, k.slip)
				}
				if k.slip != Right && k.got >= 0 && !fits(w, k) {
					t.Errorf("%s: %+v for %+v is called %v", name, w.Strokes[k.got], w.Strokes[k.id], k.slip)
				}
			}
		}
		for _, s := range []Slip{Right, Layer, Column, Row, Mirror, Habit} {
			if met[s] == 0 {
				t.Errorf("%s: slip %v never comes about", name, s)
			}
		}
	}
}

func fits(w *Work, k tried) bool {
	asked, got := w.Strokes[k.id], w.Strokes[k.got]
	if asked.Board != got.Board {
		return false
	}
	through := got.Layer == asked.Layer || got.Layer == 0 // what a layer does not have falls through
	switch k.slip {
	case Layer:
		return asked.Hand == got.Hand && asked.Row == got.Row && asked.Col == got.Col && asked.Layer != got.Layer
	case Column:
		return through && asked.Row == got.Row && max(asked.Col-got.Col, got.Col-asked.Col) == 1
	case Row:
		return through && asked.Col == got.Col && max(asked.Row-got.Row, got.Row-asked.Row) == 1
	case Mirror:
		return asked.Layer == got.Layer && asked.Row == got.Row && asked.Finger == got.Finger && asked.Hand != got.Hand
	case Habit:
		there := w.Strokes[asked.Other]
		return got.Layer == 0 && got.Hand == there.Hand && got.Finger == there.Finger
	}
	return false
}

// Times that stand still, leap and are long, boards without pairs or other boards:
// what is told stays a number.
func FuzzPress(f *testing.F) {
	f.Add(uint64(1), []byte{1, 2, 3, 200, 255, 0, 9, 9})
	w, _ := testWork(f)
	few := slices.Clone(w.Strokes[:40])
	for i := range few {
		few[i].Other = -1
	}
	bare := NewWork(few, nil)
	f.Fuzz(func(t *testing.T, seed uint64, moves []byte) {
		for name, make := range both() {
			g := make(bare, seed)
			now, prev := monday(), -1
			for _, m := range moves {
				id := int(m) % len(bare.Strokes)
				p := g.Press(id, prev, now)
				e := g.Expect(id, now.AddDate(0, 0, int(m)))
				for _, v := range []float64{p.MS, e.Median, e.Mean, e.Err, e.Cost} {
					if !(v >= 0 && v < 1e7) {
						t.Fatalf("%s: %+v %+v", name, p, e)
					}
				}
				if p.MS < 40 || e.Err > 1 || e.Cost < e.Mean {
					t.Fatalf("%s: %+v %+v", name, p, e)
				}
				now, prev = now.Add(time.Duration(m)*time.Duration(m)*time.Minute), id
			}
		}
	})
}

func BenchmarkPress(b *testing.B) {
	w, build := testWork(b)
	for name, make := range both() {
		b.Run(name, func(b *testing.B) {
			p := practice{t: make(w, 1), now: monday()}
			line := build.lines(0)[0]
			for b.Loop() {
				p.keys = p.keys[:0]
				p.line(line...)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(line)), "ns/press")
		})
	}
}
