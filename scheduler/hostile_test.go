package scheduler_test

import (
	"encoding/binary"
	"math"
	"testing"
	"time"

	"underlay/scheduler"
)

// sensible fails where a number is none, or out of its range.
func sensible(t *testing.T, s *scheduler.Scheduler, n int, at time.Time) {
	t.Helper()
	for id := range n {
		l, w := s.Level(id, at), s.Why(id, at)
		for _, x := range []float64{l.MS, l.Lo, l.Hi, w.MS, w.ClassMS} {
			if !(x > 0 && x < 1e7) {
				t.Fatalf("stroke %d: %+v, %+v", id, l, w)
			}
		}
		if !(l.Lo <= l.MS && l.MS <= l.Hi && l.Err >= 0 && l.Err <= 1 && w.Days >= 0 && w.PerMille >= 0 && w.PerMille <= 1000) || w.Slips > w.Of || w.Of > 20 {
			t.Fatalf("stroke %d: %+v, %+v", id, l, w)
		}
		if st := s.State(id, at); st < scheduler.Unmet || st > scheduler.Fading {
			t.Fatalf("stroke %d: state %d", id, st)
		}
	}
	for board := range 2 {
		for _, p := range append(s.Course(board), s.Pace(board, at)) {
			if !(p.MS >= 0 && p.MS < 1e7 && p.SD >= 0 && p.SD < 100) {
				t.Fatalf("pace %+v", p)
			}
		}
	}
	whole(t, s, at, 3*time.Minute)
}

// whole goes through a session, which has to end.
func whole(t *testing.T, s *scheduler.Scheduler, at time.Time, length time.Duration) {
	t.Helper()
	var sum time.Duration
	plan := s.Begin(at, length)
	for _, b := range plan.Blocks {
		sum += b.Length
	}
	if len(plan.Blocks) > 0 && sum != length {
		t.Fatalf("blocks last %v of %v", sum, length)
	}
	for left := length; left > 0; left -= 2 * time.Second {
		e, ok := s.Next(at.Add(length-left), left)
		if !ok {
			return
		}
		if len(e.Items) < 1 || len(e.Items) > 120 {
			t.Fatalf("%s: %d strokes", e.Block, len(e.Items))
		}
	}
}

func TestHostileTries(t *testing.T) {
	w := newWorld(code)
	year := 365 * 24 * time.Hour
	id := w.by[0]['(']
	for name, do := range map[string]func(*scheduler.Scheduler){
		"nothing": func(*scheduler.Scheduler) {},
		"one try": func(s *scheduler.Scheduler) { tell(s, id, start(), 500, 1, nil) },
		"500 wrong in a row": func(s *scheduler.Scheduler) {
			tell(s, id, start(), 500, 500, func(t *scheduler.Try) { t.Wrong = true })
		},
		"20,000 wrong": func(s *scheduler.Scheduler) {
			tell(s, id, start(), 500, 20000, func(t *scheduler.Try) { t.Wrong = true })
		},
		"latencies of 0":      func(s *scheduler.Scheduler) { tell(s, id, start(), 0, 100, nil) },
		"latencies of 10^6":   func(s *scheduler.Scheduler) { tell(s, id, start(), 1e6, 100, nil) },
		"latencies of NaN":    func(s *scheduler.Scheduler) { tell(s, id, start(), math.NaN(), 100, nil) },
		"infinite latencies":  func(s *scheduler.Scheduler) { tell(s, id, start(), math.Inf(1), 100, nil) },
		"always the quickest": func(s *scheduler.Scheduler) { tell(s, id, start(), 20, 50000, nil) },
		"no clock":            func(s *scheduler.Scheduler) { tell(s, id, time.Time{}, 500, 50, nil) },
		"clock going back": func(s *scheduler.Scheduler) {
			for i := range 200 {
				tell(s, id, start().Add(-time.Duration(i)*time.Hour), 500, 1, nil)
			}
		},
		"clock leaping": func(s *scheduler.Scheduler) {
			for i := range 400 {
				tell(s, id, start().Add(time.Duration(i%7-3)*100*year), 500, 30, nil)
			}
		},
		"two zones in a day": func(s *scheduler.Scheduler) {
			for i, zone := range []string{"east", "west", "east"} {
				at := start().In(time.FixedZone(zone, (1-i%2*2)*11*3600))
				tell(s, id, at.Add(time.Duration(i)*time.Hour), 500, 50, nil)
			}
		},
		"a million tries": func(s *scheduler.Scheduler) {
			for i := range 1_000_000 {
				s.Observe(scheduler.Try{ID: i % len(w.strokes), Prev: -1, Pressed: i % len(w.strokes), At: start().Add(time.Duration(i) * time.Minute / 20), MS: float64(150 + i%300), Wrong: i%23 == 0})
			}
		},
		"of a board that nobody has": func(s *scheduler.Scheduler) {
			for i := range 500 {
				tell(s, len(w.strokes)+i, start(), 400, 2, func(t *scheduler.Try) { t.Prev, t.Pressed = t.ID-1, t.ID+1 })
			}
			if at := start().Add(time.Hour); s.Begin(at, time.Minute).Blocks[0].Kind != scheduler.WarmUp || s.Course(0) != nil {
				t.Error("tries of another board taught something")
			}
		},
		"strokes that are none": func(s *scheduler.Scheduler) {
			for _, none := range []int{-1, math.MinInt, len(w.strokes), math.MaxInt} {
				tell(s, none, start(), 500, 3, nil)
				tell(s, id, start(), 500, 3, func(t *scheduler.Try) { t.Prev, t.Pressed, t.Wrong = none, none, true })
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := newReal(w, 1).s
			do(s)
			for _, at := range []time.Time{start(), start().Add(time.Hour), start().Add(10 * year), {}} {
				sensible(t, s, len(w.strokes), at)
			}
		})
	}
}

func TestHostileStrokes(t *testing.T) {
	w := newWorld(code)
	for name, change := range map[string]func(id int, s *scheduler.Stroke){
		"frequencies of 0":     func(_ int, s *scheduler.Stroke) { s.Freq = 0 },
		"frequencies of NaN":   func(_ int, s *scheduler.Stroke) { s.Freq = math.NaN() },
		"negative frequencies": func(_ int, s *scheduler.Stroke) { s.Freq = -1 },
		"infinite frequencies": func(_ int, s *scheduler.Stroke) { s.Freq = math.Inf(1) },
		"all retired":          func(_ int, s *scheduler.Stroke) { s.Retired = true },
		"all on one board":     func(_ int, s *scheduler.Stroke) { s.Board = 1 },
		"no such board":        func(_ int, s *scheduler.Stroke) { s.Board = -7 },
		"wild features":        func(id int, s *scheduler.Stroke) { s.Layer, s.Finger, s.Row = -id, id*1000, math.MinInt },
		"wild references":      func(id int, s *scheduler.Stroke) { s.Other, s.Was = id*99, -id },
		"itself":               func(id int, s *scheduler.Stroke) { s.Other, s.Was, s.Retired = id, id, id%2 == 0 },
	} {
		t.Run(name, func(t *testing.T) {
			strokes := append([]scheduler.Stroke(nil), w.strokes...)
			for id := range strokes {
				change(id, &strokes[id])
			}
			lines := append([][]int{nil, {-1}, {len(strokes)}, make([]int, 500)}, w.lines...)
			s := scheduler.New(strokes, lines, scheduler.Options{})
			for id := range strokes {
				tell(s, id, start().Add(time.Duration(id)*time.Second), 400, 2, nil)
			}
			sensible(t, s, len(strokes), start().Add(time.Hour))
			if p := s.Begin(start(), -time.Minute); len(p.Blocks) != 0 {
				t.Errorf("a session of no time: %v", p)
			}
		})
	}
}

func TestHostileForecasts(t *testing.T) {
	good := make([]scheduler.Point, 15)
	for i := range good {
		good[i] = scheduler.Point{MS: 600 * math.Pow(float64(i+1), -.3), SD: .03}
	}
	bad := append([]scheduler.Point(nil), good...)
	for i, ms := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		bad[i].MS = ms
		bad[i+4].SD = ms
	}
	for _, points := range [][]scheduler.Point{nil, good[:9], good, bad, make([]scheduler.Point, 30)} {
		for _, old := range []float64{0, 250, -1, math.NaN(), math.Inf(1), 1e-300, 1e300} {
			for _, target := range []float64{0, 1e-9, 250, 1e9, -1, math.NaN(), math.Inf(1)} {
				o := scheduler.Forecast(points, old, target)
				if !(o.Chance >= 0 && o.Chance <= 1) || o.Lo > o.Median || o.Median > o.Hi || math.IsNaN(o.Lo+o.Median+o.Hi) && o.Lo == o.Lo && !math.IsInf(o.Hi, 1) {
					t.Fatalf("%d points, old %v, target %v: %+v", len(points), old, target, o)
				}
			}
		}
	}
	if o := scheduler.Forecast(good, 250, 1e9); !o.Known || o.Hi > 0 || o.Chance < .999 {
		t.Errorf("what is reached already: %+v", o)
	}
	if o := scheduler.Forecast(good, 250, 20); !o.Known || !math.IsInf(o.Lo, 1) || o.Chance > .01 {
		t.Errorf("what nobody reaches: %+v", o)
	}
	if o := scheduler.Forecast(good[:9], 250, 300); o.Known {
		t.Errorf("after nine sessions: %+v", o)
	}
}

// latencyOf reads a latency, which may be none.
func latencyOf(b []byte) float64 {
	switch v := binary.BigEndian.Uint16(b); v {
	case 0xffff:
		return math.NaN()
	case 0xfffe:
		return math.Inf(1)
	case 0xfffd:
		return math.Inf(-1)
	case 0xfffc:
		return 1e6
	default:
		return float64(v)
	}
}

// FuzzTries reads tries off bytes: id, flags, latency, and a step in time, which may go back.
func FuzzTries(f *testing.F) {
	f.Add([]byte{7, 0, 0xff, 0xff, 0, 9, 7, 0, 0xff, 0xfe, 0, 9, 7, 0, 0xff, 0xfd, 0, 9, 7, 0, 0xff, 0xfc, 0, 9, 7, 0, 0, 0, 0, 9})
	f.Add([]byte{1, 0, 0x20, 0x01, 0, 1, 2, 3, 0xff, 0xff, 0x80, 0x10})
	f.Add([]byte{9, 0xff, 0, 0, 0x7f, 0xff, 9, 0xff, 0, 0, 0x80, 0x00})
	w := newWorld(code)
	f.Fuzz(func(t *testing.T, data []byte) {
		s := newReal(w, 1).s
		at := start()
		for ; len(data) >= 6; data = data[6:] {
			flag := func(bit int) bool { return data[1]>>bit&1 == 1 }
			step := int64(int16(binary.BigEndian.Uint16(data[4:])))
			at = at.Add(time.Duration(step*step*step) * time.Millisecond)
			id := int(data[0]) - 2
			s.Observe(scheduler.Try{
				ID: id, Prev: id - 1, At: at, MS: latencyOf(data[2:]), Pressed: id + 1,
				Wrong: flag(0), First: flag(1), AfterSlip: flag(2), Switch: flag(3), SameFinger: flag(4), Helped: flag(5), Paused: flag(6),
			})
		}
		sensible(t, s, len(w.strokes), at)
		again := newReal(w, 1).s
		if err := again.Restore(s.Snapshot()); err != nil {
			t.Fatal(err)
		}
	})
}
