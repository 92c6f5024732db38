package scheduler_test

import (
	"testing"
	"time"

	"underlay/scheduler"
)

// A stroke is unmet, building while it is learned, steady once it is fast and
// sure, fading when it is not met for long or gets slow again, and steady anew.
func TestStates(t *testing.T) {
	w := newWorld(code)
	s := newReal(w, 1).s
	id := w.by[0]['(']
	want := func(when string, at time.Time, st scheduler.State) {
		t.Helper()
		if got := s.State(id, at); got != st {
			t.Errorf("%s: %v, not %v (%+v)", when, got, st, s.Level(id, at))
		}
	}
	want("at first", start(), scheduler.Unmet)
	at := tell(s, id, start(), 900, 5, nil)
	want("after a few tries", at, scheduler.Building)
	for d := range 8 {
		at = tell(s, id, start().AddDate(0, 0, d), 300, 15, nil)
	}
	want("after many fast ones", at, scheduler.Steady)
	want("the next day", at.AddDate(0, 0, 1), scheduler.Steady)
	at = tell(s, id, at.AddDate(0, 0, 1), 800, 60, nil)
	want("after slow ones", at, scheduler.Fading)
	for range 2 {
		at = tell(s, id, at.AddDate(0, 0, 1), 280, 60, nil)
	}
	want("after fast ones again", at, scheduler.Steady)
	at = tell(s, id, at.AddDate(0, 0, 1), 280, 30, func(t *scheduler.Try) { t.Wrong = true })
	want("after slips", at, scheduler.Fading)
}

// What is close to the limit and not met for months fades.
func TestAwayFades(t *testing.T) {
	w := newWorld(code)
	s, _ := practised(w, 25, 8)
	faded := 0
	for id, st := range w.strokes {
		if st.Board != 0 || s.State(id, morning(25)) != scheduler.Steady {
			continue
		}
		if s.State(id, morning(25+120)) == scheduler.Fading {
			faded++
		}
		if got := s.State(id, morning(26)); got != scheduler.Steady {
			t.Errorf("stroke %d is %v after one day", id, got)
		}
	}
	if faded < 3 {
		t.Errorf("%d strokes fade in four months", faded)
	}
}

// States do not flicker: over a month of practice a stroke changes its state a
// few times, not with every try.
func TestStatesDoNotFlicker(t *testing.T) {
	w := newWorld(code)
	r := newReal(w, 1)
	p := newPractice(w, newTypist("searcher", w.work, 1), r, 1)
	changes, tries := map[int]int{}, map[int]int{}
	was := map[int]scheduler.State{}
	p.each = func(k scheduler.Try) {
		st := r.s.State(k.ID, k.At)
		if tries[k.ID]++; tries[k.ID] > 1 && st != was[k.ID] {
			changes[k.ID]++
		}
		was[k.ID] = st
	}
	for d := range 30 {
		p.day(d)
	}
	sum, most := 0, 0
	for _, n := range changes {
		sum += n
		most = max(most, n)
	}
	if len(changes) < 20 {
		t.Errorf("only %d strokes ever changed: the test shows nothing", len(changes))
	}
	if mean := float64(sum) / float64(len(changes)); mean > 2.5 || most > 12 {
		t.Errorf("%.1f changes on average, %d at most", mean, most)
	}
}

func TestStateWords(t *testing.T) {
	for st, want := range map[scheduler.State]string{scheduler.Unmet: "unmet", scheduler.Building: "building", scheduler.Steady: "steady", scheduler.Fading: "fading", 9: "unknown"} {
		if got := st.String(); got != want {
			t.Errorf("%d is called %q, not %q", st, got, want)
		}
	}
}

// Reasons name the figure that speaks most for a stroke.
func TestReasons(t *testing.T) {
	w := newWorld(code)
	s := newReal(w, 1).s
	id := func(c rune) int { return w.by[0][c] }
	at := start()
	for _, c := range "etaonisrhldcum{}()[]=" {
		at = tell(s, id(c), at, 350, 20, nil)
	}
	at = tell(s, id('|'), at, 700, 20, nil)
	at = tell(s, id('&'), at, 350, 20, func(t *scheduler.Try) { t.Wrong = t.At.Unix()%3 == 0 })
	at = tell(s, id('7'), at, 350, 20, nil)
	day := func(n int) time.Time { return at.AddDate(0, 0, n) }
	for _, c := range []struct {
		what string
		id   int
		at   time.Time
		want scheduler.Reason
	}{
		{"unmet", id('^'), at, scheduler.Unknown},
		{"frequent", id('e'), at, scheduler.Common},
		{"away", id('e'), day(6), scheduler.Away},
		{"slow", id('|'), at, scheduler.Slow},
		{"slips", id('&'), at, scheduler.Slips},
		{"other board", w.by[1]['e'], at, scheduler.Check},
	} {
		if got := s.Why(c.id, c.at); got.Reason != c.want {
			t.Errorf("%s: %+v, not %q", c.what, got, c.want)
		}
	}
	away := s.Why(id('e'), day(6))
	if away.Days < 5.9 || away.Days > 6.1 || away.Tries != 20 || away.Of != 20 || away.PerMille < 20 || away.MS < 250 || away.MS > 450 {
		t.Errorf("figures of what was away: %+v", away)
	}
	if slips := s.Why(id('&'), at); slips.Slips < 6 || slips.Slips > 7 || slips.Of != 20 || slips.ErrShare < .1 {
		t.Errorf("figures of slips: %+v", slips)
	}
}
