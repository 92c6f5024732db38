package course

import (
	"testing"
	"time"

	"underlay/scheduler"
)

// Each reason in words, as a person reads it.
func TestWhyInWords(t *testing.T) {
	c := embedded(t, nil)
	brace, escape := idOf(t, c, "{"), idOf(t, c, "Escape")
	for _, x := range []struct {
		id   int
		why  scheduler.Why
		want string
	}{
		{brace, scheduler.Why{Reason: scheduler.Unknown}, "hold left thumb 3 · right middle finger, top row"},
		{brace, scheduler.Why{Reason: scheduler.Away, Days: 6.2, MS: 778, PerMille: 8}, "last met 6 days ago, about 780 ms, common in your Go"},
		{brace, scheduler.Why{Reason: scheduler.Away, Days: .9, MS: 1234, PerMille: 1}, "last met yesterday, about 1200 ms"},
		{brace, scheduler.Why{Reason: scheduler.Slow, MS: 641, ClassMS: 518}, "slower than its neighbours: 640 ms against 520 ms"},
		{brace, scheduler.Why{Reason: scheduler.Slips, Slips: 2, Tries: 50, Of: 9, PerMille: 8}, "2 slips in the last 9 tries, common in your Go"},
		{brace, scheduler.Why{Reason: scheduler.Slips, Slips: 1, Tries: 1, Of: 1}, "1 slip in the last try"},
		{brace, scheduler.Why{Reason: scheduler.Common, MS: 300, PerMille: 8, Tries: 40, ErrShare: .08}, "common in your Go, about 300 ms, about 8 % slips"},
		{brace, scheduler.Why{Reason: scheduler.Common, MS: 300, PerMille: 8, Tries: 4, ErrShare: .5}, "common in your Go, about 300 ms"},
		{escape, scheduler.Why{Reason: scheduler.Common, MS: 300, PerMille: 20}, "common at work, about 300 ms"},
		{brace, scheduler.Why{Reason: scheduler.Rare, MS: 95.4}, "rare, kept within reach, about 95 ms"},
		{brace, scheduler.Why{Reason: scheduler.Moved}, "moved: hold left thumb 3 · right middle finger, top row"},
		{brace, scheduler.Why{Reason: scheduler.Lagging, MS: 303}, "slower than it was: 300 ms"},
		{brace, scheduler.Why{Reason: scheduler.Check, MS: 303}, "to see that it stays: 300 ms"},
		{brace, scheduler.Why{Reason: scheduler.Pull}, "still pressed where it was before"},
	} {
		if got := c.Words(scheduler.About{ID: x.id, Why: x.why}); got != x.want {
			t.Errorf("%s: %q, want %q", x.why.Reason, got, x.want)
		}
	}
}

// Days are counted by midnights, each time in its own zone.
func TestDaysBetween(t *testing.T) {
	east, west := time.FixedZone("", 9*3600), time.FixedZone("", -8*3600)
	for _, x := range []struct {
		from, to time.Time
		want     int
	}{
		{time.Date(2026, 3, 1, 23, 50, 0, 0, time.UTC), time.Date(2026, 3, 2, 0, 10, 0, 0, time.UTC), 1},
		{time.Date(2026, 3, 1, 0, 10, 0, 0, time.UTC), time.Date(2026, 3, 1, 23, 50, 0, 0, time.UTC), 0},
		{time.Date(2026, 3, 1, 20, 0, 0, 0, east), time.Date(2026, 3, 1, 21, 0, 0, 0, west), 0},
		{time.Date(2026, 2, 28, 12, 0, 0, 0, time.UTC), time.Date(2026, 3, 7, 1, 0, 0, 0, time.UTC), 7},
	} {
		if got := daysBetween(x.from, x.to); got != x.want {
			t.Errorf("%v to %v: %d days, want %d", x.from, x.to, got, x.want)
		}
	}
}

// A gain is told when it is greater than what is not known, and not before.
func TestOnlySureGainsAreTold(t *testing.T) {
	level := func(ms, spread float64) scheduler.Level {
		return scheduler.Level{MS: ms, Lo: ms / spread, Hi: ms * spread, Tries: 50}
	}
	for _, x := range []struct {
		before, after scheduler.Level
		want          bool
	}{
		{level(700, 1.05), level(600, 1.05), true},
		{level(700, 1.3), level(600, 1.3), false},     // too uncertain
		{level(700, 1.05), level(720, 1.05), false},   // slower
		{level(700, 1.001), level(695, 1.001), false}, // sure, but too little to tell
	} {
		if got := surely(x.before, x.after); got != x.want {
			t.Errorf("%.0f to %.0f ms: %v", x.before.MS, x.after.MS, got)
		}
	}
}

// What was practised in a sitting is what Rest tells of: strokes that come back
// soonest first, none of the other board, and what got quicker.
func TestGainsTellOfTheSitting(t *testing.T) {
	c := embedded(t, nil)
	for day := range 6 {
		practised(t, c, start.AddDate(0, 0, day), 30)
	}
	at := start.AddDate(0, 0, 5)
	g := c.Gains(at, at.Add(10*time.Minute))
	if len(g.Returns) == 0 || len(g.Returns[0].Symbols) == 0 {
		t.Errorf("nothing comes back: %+v", g)
	}
	for i, r := range g.Returns {
		if i > 0 && r.Days <= g.Returns[i-1].Days {
			t.Errorf("returns not in order: %+v", g.Returns)
		}
	}
	n := 0
	for _, s := range g.States {
		n += s.N
	}
	want := 0
	for id, st := range c.strokes.all {
		if f := c.strokes.features[id]; st.Board == 0 && !f.Retired && f.Layer != 0 {
			want++
		}
	}
	if n != want {
		t.Errorf("%d strokes in a state, want %d", n, want)
	}
	c.Plan(at.AddDate(0, 0, 1), 8*time.Minute)
	if g := c.Gains(at, at); len(g.Returns) > 0 || len(g.Quicker) > 0 {
		t.Errorf("a new sitting begins with %+v", g)
	}
}
