package scheduler_test

import (
	"fmt"
	"reflect"
	"testing"
	"time"

	"underlay/scheduler"
)

// practised is a scheduler after some days with a typist.
func practised(w *world, days int, minutes float64) (*scheduler.Scheduler, *practice) {
	r := newReal(w, 1)
	p := newPractice(w, newTypist("gradual", w.work, 1), r, 1)
	p.length = time.Duration(minutes * float64(time.Minute))
	for d := range days {
		p.day(d)
	}
	return r.s, p
}

// alone is the world without the other board.
func (w *world) alone() *world {
	a := *w
	a.strokes = nil
	for _, s := range w.strokes {
		if s.Board == 0 {
			s.Other = -1
			a.strokes = append(a.strokes, s)
		}
	}
	return &a
}

func kinds(p scheduler.Plan) (out []scheduler.BlockKind) {
	for _, b := range p.Blocks {
		out = append(out, b.Kind)
	}
	return out
}

// The blocks fill the minutes exactly, in their order, none is empty, and no
// part is starved; with one board alone there is no upkeep.
func TestPlanFitsTheMinutes(t *testing.T) {
	w := newWorld(code)
	all := []scheduler.BlockKind{scheduler.WarmUp, scheduler.ComingBack, scheduler.NewStrokes, scheduler.Lines, scheduler.Switching, scheduler.Upkeep, scheduler.Probe}
	s, _ := practised(w, 4, 4)
	one, _ := practised(w.alone(), 4, 4)
	for _, minutes := range []float64{1, 3, 8, 20, 45} {
		length := time.Duration(minutes * float64(time.Minute))
		for name, sch := range map[string]*scheduler.Scheduler{"two boards": s, "one board": one} {
			p := sch.Begin(morning(4), length)
			want := all
			if name == "one board" {
				want = append(append([]scheduler.BlockKind{}, all[:5]...), all[6])
			}
			if got := kinds(p); !reflect.DeepEqual(got, want) {
				t.Errorf("%s, %v minutes: blocks %v", name, minutes, got)
			}
			var sum time.Duration
			for _, b := range p.Blocks {
				sum += b.Length
				if b.Length < 2*time.Second {
					t.Errorf("%s, %v minutes: %s has %v", name, minutes, b.Kind, b.Length)
				}
				if (b.Board == 1) != (b.Kind == scheduler.Upkeep) {
					t.Errorf("%s is on board %d", b.Kind, b.Board)
				}
			}
			if sum != length {
				t.Errorf("%s, %v minutes: blocks last %v", name, minutes, sum)
			}
			if back := p.Blocks[1].Length; back < length/4 {
				t.Errorf("%s, %v minutes: coming back has %v", name, minutes, back)
			}
		}
	}
}

// A first session has nothing to switch between yet, and begins.
func TestFirstPlan(t *testing.T) {
	w := newWorld(code)
	p := newReal(w, 1).s.Begin(start(), 8*time.Minute)
	if k := p.Blocks[1].Kind; k != scheduler.FirstLook {
		t.Errorf("before the first stroke there is a block of %s", k)
	}
	for _, b := range p.Blocks {
		if b.Kind == scheduler.Switching {
			t.Error("nothing can be switched to yet")
		}
		for _, a := range b.About {
			if b.Kind == scheduler.NewStrokes && (a.State != scheduler.Unmet || a.Why.Reason != scheduler.Unknown || a.Why.Days != 0) {
				t.Errorf("new: %+v", a)
			}
		}
	}
	if len(p.Blocks) != 6 {
		t.Errorf("blocks %v", kinds(p))
	}
}

// Without lines the session is made of single strokes; without strokes there is none.
func TestPlanWithoutLinesOrStrokes(t *testing.T) {
	w := newWorld(code)
	w.lines = nil
	s, _ := practised(w, 2, 3)
	for _, b := range s.Begin(morning(2), 3*time.Minute).Blocks {
		if b.Kind == scheduler.Lines || b.Kind == scheduler.Probe || b.Kind == scheduler.WarmUp {
			t.Errorf("%s without lines", b.Kind)
		}
	}
	none := scheduler.New(nil, nil, scheduler.Options{})
	if p := none.Begin(start(), time.Minute); len(p.Blocks) != 0 {
		t.Errorf("blocks without strokes: %v", kinds(p))
	}
	if e, ok := none.Next(start(), time.Minute); ok {
		t.Errorf("an exercise without strokes: %+v", e)
	}
	if p := none.Pace(0, start()); p.MS != 0 {
		t.Errorf("pace without strokes: %+v", p)
	}
}

// session lets the clock run through a session, at so many ms a stroke and 250 on the other board.
func session(s *scheduler.Scheduler, now time.Time, length time.Duration, ms float64) (out []scheduler.Exercise) {
	s.Begin(now, length)
	end := now.Add(length)
	for now.Before(end) {
		e, ok := s.Next(now, end.Sub(now))
		if !ok {
			break
		}
		out = append(out, e)
		each := ms
		if e.Board == 1 {
			each = 250
		}
		now = now.Add(time.Duration(each*float64(len(e.Items)))*time.Millisecond + 1500*time.Millisecond)
	}
	return out
}

// Every block gets an exercise; exercises are of strokes of their board, of at most 120,
// and lines are the pool's; new strokes are first shown alone and few at once;
// equal neighbours occur only where code has them.
func TestExercises(t *testing.T) {
	w := newWorld(code)
	for _, minutes := range []float64{3, 8, 20} {
		s, _ := practised(w, 2, 3)
		seen := map[scheduler.BlockKind]int{}
		lineTime, all := 0, 0
		for _, e := range session(s, morning(2), time.Duration(minutes*float64(time.Minute)), 400) {
			seen[e.Block]++
			all += len(e.Items)
			if e.Line >= 0 {
				lineTime += len(e.Items)
			}
			if e.Line >= 0 && e.Board == 0 {
				if !reflect.DeepEqual(e.Items, w.lines[e.Line]) {
					t.Errorf("%s: line %d is not the pool's", e.Block, e.Line)
				}
			}
			if n := len(e.Items); n < 1 || n > 120 {
				t.Errorf("%s: %d strokes", e.Block, n)
			}
			for _, id := range e.Items {
				if w.strokes[id].Board != e.Board {
					t.Errorf("%s: stroke %d is on another board", e.Block, id)
				}
			}
			if e.Unmet && (len(e.Wanted) > 3 || !reflect.DeepEqual(e.Items[:len(e.Wanted)], e.Wanted)) {
				t.Errorf("new strokes %v in %v", e.Wanted, e.Items)
			}
		}
		for _, b := range s.Begin(morning(2), time.Duration(minutes*float64(time.Minute))).Blocks {
			if seen[b.Kind] == 0 {
				t.Errorf("%v minutes: nothing for %s", minutes, b.Kind)
			}
		}
		if part := float64(lineTime) / float64(all); part < .25 || part > .5 {
			t.Errorf("%v minutes: %.2f of the strokes are real lines", minutes, part)
		}
	}
}

// The same seed gives the same session, another one another.
func TestSameSeedSameSession(t *testing.T) {
	w := newWorld(code)
	a, _ := practised(w, 3, 3)
	b, _ := practised(w, 3, 3)
	x, y := session(a, morning(3), 4*time.Minute, 400), session(b, morning(3), 4*time.Minute, 400)
	if !reflect.DeepEqual(x, y) {
		t.Error("two sessions of one seed differ")
	}
	if again := session(a, morning(3), 4*time.Minute, 400); !reflect.DeepEqual(x, again) {
		t.Error("beginning again gives another session")
	}
	c := scheduler.New(w.strokes, w.lines, scheduler.Options{Seed: 2, OldMS: 250})
	if err := c.Restore(a.Snapshot()); err != nil {
		t.Fatal(err)
	}
	if reflect.DeepEqual(x, session(c, morning(3), 4*time.Minute, 400)) {
		t.Error("another seed gives the same session")
	}
}

// What was long away comes back: the block for it grows more of such strokes,
// and says since when.
func TestWhatFadesComesBack(t *testing.T) {
	w := newWorld(code)
	s, p := practised(w, 12, 8)
	p.way.observe(scheduler.Try{ID: w.by[0]['a'], Prev: -1, At: morning(40), MS: 200})
	reasons := map[scheduler.Reason]int{}
	for _, a := range s.Begin(morning(40), 8*time.Minute).Blocks[1].About {
		reasons[a.Why.Reason]++
		if a.Why.Reason == scheduler.Away && (a.Why.Days < 20 || a.Why.Days > 45) {
			t.Errorf("away for %.1f days", a.Why.Days)
		}
	}
	if reasons[scheduler.Away] < 4 {
		t.Errorf("after four weeks: reasons %v", reasons)
	}
}

// Coverage drills rare strokes more than speed does.
func TestAims(t *testing.T) {
	w := newWorld(code)
	rare := func(aim scheduler.Aim) (share float64) {
		r := real{scheduler.New(w.strokes, w.lines, scheduler.Options{Seed: 1, OldMS: 250, Aim: aim})}
		p := newPractice(w, newTypist("gradual", w.work, 1), r, 1)
		for d := range 10 {
			p.day(d)
		}
		n, all := 0, 0
		for id, k := range p.tries {
			all += k
			if s := w.strokes[id]; s.Board == 0 && s.Freq < .001 {
				n += k
			}
		}
		return float64(n) / float64(all)
	}
	if speed, cover := rare(scheduler.Speed), rare(scheduler.Coverage); cover < 1.4*speed {
		t.Errorf("rare strokes: %.3f of all with coverage, %.3f with speed", cover, speed)
	}
}

// The other board is only looked at, until it has become slower; then it gets
// more, until it is as before.
func TestUpkeepFollowsTheLag(t *testing.T) {
	w := newWorld(code)
	s := newReal(w, 1).s
	typed := func(day int, ms float64) {
		at := start().AddDate(0, 0, day)
		for i := range 60 {
			at = at.Add(400 * time.Millisecond)
			s.Observe(scheduler.Try{ID: w.by[1][rune("etaonisr"[i%8])], Prev: -1, At: at, MS: ms})
		}
	}
	share := func(day int) float64 {
		p := s.Begin(start().AddDate(0, 0, day).Add(time.Hour), 8*time.Minute)
		for _, b := range p.Blocks {
			if b.Kind == scheduler.Upkeep {
				return b.Length.Seconds() / 480
			}
		}
		return 0
	}
	for d := range 6 {
		typed(d, 200)
	}
	if got := share(6); got <= 0 || got > .03 {
		t.Errorf("without lag upkeep has %.3f", got)
	}
	for d := 6; d < 20; d++ {
		typed(d, 260)
	}
	if got := share(20); got < .045 {
		t.Errorf("with a lag of a third upkeep has %.3f", got)
	}
	for d := 20; d < 50; d++ {
		typed(d, 190)
	}
	if got := share(50); got > .03 {
		t.Errorf("after the lag upkeep has %.3f", got)
	}
}

func ExampleScheduler_Begin() {
	strokes := []scheduler.Stroke{
		{Layer: 0, Finger: 3, Row: 2, Freq: .7, Other: -1, Was: -1, Text: true},
		{Layer: 1, Finger: 2, Row: 3, Freq: .3, Other: -1, Was: -1, Text: true, Switch: .9},
	}
	s := scheduler.New(strokes, [][]int{{0, 0, 1, 0}}, scheduler.Options{})
	for _, b := range s.Begin(time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC), 3*time.Minute).Blocks {
		fmt.Println(b.Kind, len(b.About))
	}
	// Output:
	// warm-up 0
	// first look 1
	// new 1
	// lines 0
	// probe 0
}
