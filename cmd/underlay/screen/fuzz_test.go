package screen

import (
	"math/rand/v2"
	"testing"
	"time"

	"underlay/cmd/underlay/session"
	"underlay/cmd/underlay/session/sessiontest"
	"underlay/drills/board"
)

// roll makes random events: keys that mean something more often than others,
// windows of all sizes, breaks, failing saves and long nights.
type roll struct {
	*rand.Rand
	at   time.Time
	keys []board.Symbol
}

func newRoll(seed uint64, boards ...*board.Board) *roll {
	r := &roll{Rand: rand.New(rand.NewPCG(seed, 1)), at: sessiontest.Noon()}
	for _, b := range boards {
		r.keys = append(r.keys, b.Symbols()...)
	}
	for _, c := range "bmfspq?/eonctjkhl" {
		r.keys = append(r.keys, board.Symbol(c))
	}
	r.keys = append(r.keys, "Control+c", "Control+n", "Control+p", "Control+z", "Control+q", "", "日", "\u0301", "👩‍👩‍👧", "\x00", "\u202e")
	return r
}

func (r *roll) event() session.Event {
	r.at = r.at.Add(time.Duration(r.IntN(600)) * time.Millisecond)
	switch n := r.IntN(1000); {
	case n < 3:
		r.at = r.at.Add(12 * time.Hour)
		return session.Tick{At: r.at}
	case n < 40:
		return session.Tick{At: r.at.Add(time.Duration(r.IntN(5000)) * time.Millisecond)}
	case n < 45:
		return session.Focus{In: r.IntN(2) == 0, At: r.at}
	case n < 50:
		return session.Paste{Runes: r.IntN(1 << 20), At: r.at}
	case n < 55:
		return session.Resumed{At: r.at}
	case n < 57:
		r.at = r.at.Add(-time.Hour) // somebody set the clock
		return session.Tick{At: r.at}
	case n < 200:
		return session.Key{Symbol: board.Enter, At: r.at}
	}
	return session.Key{Symbol: r.keys[r.IntN(len(r.keys))], At: r.at, Vague: r.IntN(10) == 0}
}

// answer answers effects; the disk fails now and then.
func (r *roll) answer(t *testing.T, m *session.Model, effects []session.Effect) (left bool) {
	for _, e := range append([]session.Effect(nil), effects...) {
		var back session.Event
		switch e := e.(type) {
		case session.Record:
			back = session.Saved{At: r.at}
			if r.IntN(5) == 0 {
				back = session.Saved{Err: errFuzz{}, At: r.at}
			}
		case session.Report:
			back = session.Reported{Lines: []string{"1", "2"}, At: r.at}
		case session.Configure:
			back = session.Configured{Settings: e.Settings, At: r.at}
			if r.IntN(5) == 0 {
				back = session.Configured{Settings: settings(), Err: errFuzz{}, At: r.at}
			}
		case session.Suspend:
			back = session.Resumed{At: r.at}
		case session.Leave:
			return true
		}
		if r.answer(t, m, m.Update(back)) {
			return true
		}
	}
	return false
}

type errFuzz struct{}

func (errFuzz) Error() string { return "a failure\x1b[2J that was made up" }

// fence is a sheet whose neighbours in memory must not change.
func drawFenced(t *testing.T, s *sheet, v session.View, ascii bool, at *places) {
	t.Helper()
	s.clear()
	draw(s, v, ascii, at)
	for i := range s.cells {
		c := s.cells[i]
		if c.text == "" && (i == 0 || cells(s.cells[i-1].text) < 2) {
			t.Fatalf("cell %d of %dx%d is half of nothing", i, s.w, s.h)
		}
		if c.text != "" && i%s.w+cells(c.text) > s.w {
			t.Fatalf("cell %d of %dx%d reaches over the edge: %q", i, s.w, s.h, c.text)
		}
		for _, r := range c.text {
			if r < ' ' || r == 0x7f || r >= 0x202a && r <= 0x202e {
				t.Fatalf("cell %d of %dx%d has %q raw", i, s.w, s.h, c.text)
			}
		}
	}
}

// 100,000 random events, with windows of all sizes: nothing panics, nothing is
// drawn outside, nothing raw gets through.
func TestRandomEventsAndSizes(t *testing.T) {
	n := 100_000
	if testing.Short() {
		n = 20_000
	}
	b, other := sessiontest.Trial(t), sessiontest.Standard(t)
	r := newRoll(1, b, other)
	var s sheet
	var at places
	var m *session.Model
	s.resize(80, 24)
	for i := range n {
		if m == nil || i%5000 == 0 {
			p := trialPlanner(t)
			p.Repeat = true
			m = session.New(p, session.Options{Session: "f", Settings: settings(), Now: r.at})
		}
		e := r.event()
		if r.IntN(60) == 0 {
			s.resize(r.IntN(140), r.IntN(45))
			e = session.Fits{OK: fits(s.w, s.h), At: r.at}
		}
		if r.answer(t, m, m.Update(e)) {
			m = nil
			continue
		}
		if r.IntN(4) == 0 {
			drawFenced(t, &s, m.View(), r.IntN(2) == 0, &at)
		}
	}
}

// The fuzzer looks for sizes and keys of its own.
func FuzzDraw(f *testing.F) {
	f.Add(uint64(1), uint8(80), uint8(24))
	f.Add(uint64(2), uint8(60), uint8(20))
	f.Add(uint64(3), uint8(1), uint8(1))
	f.Fuzz(func(t *testing.T, seed uint64, w, h uint8) {
		r := newRoll(seed, sessiontest.Trial(t))
		m := session.New(trialPlanner(t), session.Options{Session: "f", Settings: settings(), Now: r.at})
		var s sheet
		var at places
		s.resize(int(w), int(h))
		for range 40 {
			if r.answer(t, m, m.Update(r.event())) {
				return
			}
			drawFenced(t, &s, m.View(), seed%2 == 0, &at)
		}
	})
}
