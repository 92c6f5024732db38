package scheduler_test

import (
	"math"
	"testing"
	"time"

	"underlay/scheduler"
)

// tell lets a stroke be tried n times, a second apart.
func tell(s *scheduler.Scheduler, id int, at time.Time, ms float64, n int, set func(*scheduler.Try)) time.Time {
	for range n {
		at = at.Add(time.Second)
		t := scheduler.Try{ID: id, Prev: -1, Pressed: id, At: at, MS: ms}
		if set != nil {
			set(&t)
		}
		s.Observe(t)
	}
	return at
}

// A new stroke starts from what is known of its layer, finger and row.
func TestNewStrokeStartsFromItsKind(t *testing.T) {
	w := newWorld(code)
	s := newReal(w, 1).s
	id, slow, fast := w.by[0]['^'], "#*|@", "{}()"
	before := s.Level(id, start())
	at := start()
	for range 30 {
		for _, c := range slow {
			at = tell(s, w.by[0][c], at, 1400, 1, nil)
		}
	}
	if after := s.Level(id, at); after.MS < 1.2*before.MS || after.Hi/after.Lo >= before.Hi/before.Lo || after.Tries != 0 {
		t.Errorf("slow neighbours: %.0f ms [%.0f, %.0f], was %.0f [%.0f, %.0f]", after.MS, after.Lo, after.Hi, before.MS, before.Lo, before.Hi)
	}
	f := newReal(w, 1).s
	at = start()
	for range 30 {
		for _, c := range fast {
			at = tell(f, w.by[0][c], at, 300, 1, nil)
		}
	}
	if near, far := f.Level(id, at).MS, f.Level(w.by[0]['7'], at).MS; near > .9*before.MS || far < near {
		t.Errorf("fast layer: %.0f ms in it, %.0f beside it, %.0f before", near, far, before.MS)
	}
}

// Helped, paused, impossible and wrong tries move no latency; helped ones say
// nothing of slips either; all of them are tries.
func TestWhatIsNoLatency(t *testing.T) {
	w := newWorld(code)
	id := w.by[0]['e']
	for name, set := range map[string]func(*scheduler.Try){
		"helped": func(t *scheduler.Try) { t.Helped = true },
		"paused": func(t *scheduler.Try) { t.Paused = true },
		"wrong":  func(t *scheduler.Try) { t.Wrong = true },
		"long":   func(t *scheduler.Try) { t.MS = 3001 },
		"zero":   func(t *scheduler.Try) { t.MS = 0 },
		"NaN":    func(t *scheduler.Try) { t.MS = math.NaN() },
	} {
		s := newReal(w, 1).s
		at := tell(s, id, start(), 300, 30, nil)
		before := s.Level(id, at)
		at = tell(s, id, at, 2000, 10, set)
		after := s.Level(id, at)
		if drop := after.MS / before.MS; drop > 1.001 || drop < .9 {
			t.Errorf("%s: %.1f ms became %.1f", name, before.MS, after.MS)
		}
		if after.Tries != 40 {
			t.Errorf("%s: %d tries", name, after.Tries)
		}
		if name == "wrong" != (after.Err > 1.5*before.Err) {
			t.Errorf("%s: chance of a slip %.3f became %.3f", name, before.Err, after.Err)
		}
	}
}

// What a switch, a line's start, the same finger, a slip before, and the first
// minute cost is told from skill.
func TestContextIsNoSkill(t *testing.T) {
	w := newWorld(code)
	a, b := w.by[0]['e'], w.by[0]['(']
	s := newReal(w, 1).s
	at := start()
	for d := range 6 {
		at = start().AddDate(0, 0, d)
		for i := range 60 {
			for _, id := range []int{a, b} {
				ms := 400.0
				if i%2 == 1 {
					ms *= 1.6
				}
				at = tell(s, id, at, ms, 1, func(t *scheduler.Try) { t.First = i%2 == 1 })
			}
		}
	}
	if l := s.Level(a, at); l.MS < 320 || l.MS > 450 {
		t.Errorf("line starts of 640 ms make %.0f ms of 400", l.MS)
	}
}

// One good or bad day moves what is expected of the next one only in part.
func TestFormIsNoSkill(t *testing.T) {
	w := newWorld(code)
	s := newReal(w, 1).s
	letters := []rune("etaonisrhl")
	typed := func(day int, ms float64) (at time.Time) {
		at = start().AddDate(0, 0, day)
		for range 15 {
			for _, c := range letters {
				at = tell(s, w.by[0][c], at, ms, 1, nil)
			}
		}
		return at
	}
	for d := range 8 {
		typed(d, 300)
	}
	before := s.Level(w.by[0]['e'], morning(8)).MS
	typed(8, 345)
	if after := s.Level(w.by[0]['e'], morning(9)).MS; after < 1.01*before || after > 1.13*before {
		t.Errorf("a day of 345 ms after eight of 300: %.0f are expected, %.0f before", after, before)
	}
}

// Forgetting is presumed to be nil, and learned where it is.
func TestForgettingIsLearned(t *testing.T) {
	w := newWorld(code)
	letters := []rune("etaonisrhldcum")
	loss := func(overnight float64) float64 {
		s := newReal(w, 1).s
		var at time.Time
		for d := range 12 {
			at = start().AddDate(0, 0, 3*d)
			for i := range 12 {
				for _, c := range letters {
					at = tell(s, w.by[0][c], at, 300*(1+overnight*math.Exp(-float64(i)/8)), 1, nil)
				}
			}
		}
		id := w.by[0]['e']
		return s.Level(id, at.AddDate(0, 0, 10)).MS / s.Level(id, at).MS
	}
	if none, some := loss(0), loss(.4); math.Abs(none-1) > .05 || some < none+.03 {
		t.Errorf("ten days away: %.3f where nothing is lost, %.3f where a third is", none, some)
	}
}

// What is expected beforehand of tries holds: 80 % ranges of the level in 75 to 85
// of 100 cases, and chances of slips by tenths within 3 points. From the fourth day on.
func TestCalibration(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates for some seconds")
	}
	for _, kind := range typists() {
		c := calibrate(kind, 20, 8, course{8, .15})
		if in := c.inside / c.levels; in < .75 || in > .85 {
			t.Errorf("%s: 80 %% ranges hold in %.2f", kind, in)
		}
		for k, d := range c.tenths {
			if d.n > 500 && math.Abs(d.expected-d.seen)/d.n > .03 {
				t.Errorf("%s: slips in tenth %d: %.3f expected, %.3f seen", kind, k, d.expected/d.n, d.seen/d.n)
			}
		}
	}
}

// A level has a range around it however little and however evenly was typed.
func TestALevelHasARange(t *testing.T) {
	w := newWorld(code)
	for b, by := range w.by {
		s := newReal(w, 1).s
		for day := range 3 {
			at := start().AddDate(0, 0, day)
			for range 12 {
				for _, c := range "abcdefghijklmnopqrstuvwxyz" {
					at = tell(s, by[c], at, 240, 1, nil)
				}
				for symbol, id := range by {
					if l := s.Level(id, at); !(l.Lo > 0 && l.Lo < l.MS && l.MS < l.Hi) {
						t.Fatalf("board %d, day %d: %q is expected in %v ms, [%v, %v]", b, day, symbol, l.MS, l.Lo, l.Hi)
					}
				}
			}
		}
	}
}
