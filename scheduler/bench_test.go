package scheduler_test

import (
	"testing"
	"time"

	"underlay/scheduler"
)

// large is a scheduler of 400 strokes on six layers, and tries of four weeks.
func large(tb testing.TB) (*scheduler.Scheduler, []scheduler.Try) {
	tb.Helper()
	const n = 400
	strokes := make([]scheduler.Stroke, n)
	for id := range strokes {
		strokes[id] = scheduler.Stroke{Layer: id / 70, Hand: id % 2, Finger: id % 5, Row: id / 10 % 4, Col: id % 10, Freq: 1 / float64(id+1), Switch: .4, Other: -1, Was: -1, Text: true}
	}
	lines := make([][]int, 600)
	for l := range lines {
		for k := range 40 {
			lines[l] = append(lines[l], (l*k*k+7*k+l)%n*(k%3+1)/3)
		}
	}
	s := scheduler.New(strokes, lines, scheduler.Options{Seed: 1, OldMS: 250})
	tries := make([]scheduler.Try, 28*700)
	for i := range tries {
		id := i * i % n
		tries[i] = scheduler.Try{ID: id, Prev: -1, Pressed: id, At: start().AddDate(0, 0, i/700).Add(time.Duration(i%700) * 600 * time.Millisecond),
			MS: 400 + float64(i*37%200), Wrong: i%19 == 0, First: i%30 == 0, Switch: i%3 == 0, AfterSlip: i%19 == 1}
	}
	for _, t := range tries {
		s.Observe(t)
	}
	return s, tries
}

func BenchmarkObserve(b *testing.B) {
	s, tries := large(b)
	b.ReportAllocs()
	for i := range b.N {
		t := tries[i%len(tries)]
		t.At = t.At.AddDate(0, 0, 28*(1+i/len(tries)))
		s.Observe(t)
	}
}

func BenchmarkNext(b *testing.B) {
	s, _ := large(b)
	at := start().AddDate(0, 0, 29)
	s.Begin(at, 20*time.Minute)
	for i := range b.N {
		if _, ok := s.Next(at, 20*time.Minute-time.Duration(i%200)*6*time.Second); !ok {
			s.Begin(at, 20*time.Minute)
		}
	}
}

func BenchmarkBegin(b *testing.B) {
	s, _ := large(b)
	for range b.N {
		s.Begin(start().AddDate(0, 0, 29), 8*time.Minute)
	}
}

func BenchmarkForecast(b *testing.B) {
	points := make([]scheduler.Point, 60)
	for i := range points {
		points[i] = scheduler.Point{MS: 700 / (1 + .1*float64(i)), SD: .03}
	}
	for range b.N {
		scheduler.Forecast(points, 250, 275)
	}
}

func BenchmarkSnapshot(b *testing.B) {
	s, _ := large(b)
	for range b.N {
		s.Snapshot()
	}
}

// An exercise costs no more than some thousand updates: half a millisecond
// against a microsecond, in the same run.
func TestCostOfAnExercise(t *testing.T) {
	if testing.Short() {
		t.Skip("benchmarks")
	}
	next, observe := testing.Benchmark(BenchmarkNext), testing.Benchmark(BenchmarkObserve)
	if ratio := float64(next.NsPerOp()) / float64(observe.NsPerOp()); ratio > 1500 {
		t.Errorf("an exercise costs %d ns, %.0f updates of %d ns", next.NsPerOp(), ratio, observe.NsPerOp())
	}
	if observe.AllocsPerOp() > 0 {
		t.Errorf("an update allocates %d times", observe.AllocsPerOp())
	}
}
