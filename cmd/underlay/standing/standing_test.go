package standing_test

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"underlay/cmd/underlay/standing"
	"underlay/cmd/underlay/standing/standingtest"
	"underlay/scheduler/journal"
)

func invent(t testing.TB, boards ...string) *standingtest.Invented {
	t.Helper()
	return standingtest.For(t, boards...).Invented
}

func practise(t testing.TB, v *standingtest.Invented, from, to int) {
	t.Helper()
	if err := v.Practise(from, to); err != nil {
		t.Fatal(err)
	}
}

func standingOf(t testing.TB, v *standingtest.Invented, day int) standing.Standing {
	t.Helper()
	s, err := v.Standing(standingtest.Start().AddDate(0, 0, day))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The readiness of a simulated typist is near the truth, by the model and by
// the probes, and they agree; the truth is what the typist computes from its own
// skill.
func TestReadinessIsNearTheTruth(t *testing.T) {
	v := invent(t, "split-38", "ansi-61")
	practise(t, v, 0, 25)
	s := standingOf(t, v, 25)
	r, truth := s.Readiness, v.Pace(1)/v.Pace(0)
	if !r.Known || math.Abs(math.Log(r.Share.Value/truth)) > .1 {
		t.Errorf("readiness %v, truth %v", r.Share, truth)
	}
	if r.Share.Lo > truth || r.Share.Hi < truth {
		t.Errorf("the range %v leaves out %v", r.Share, truth)
	}
	if r.Probe == nil || math.Abs(math.Log(r.Probe.Share.Value/truth)) > .1 {
		t.Errorf("by probes %+v, truth %v", r.Probe, truth)
	}
	if r.Disagree {
		t.Errorf("model %v and probes %v are said to disagree", r.Share, r.Probe.Share)
	}
	for b, side := range s.Boards {
		if math.Abs(math.Log(side.LatencyMS.Value/v.Pace(b))) > .1 {
			t.Errorf("%s: %v ms a stroke, truth %v", side.Name, side.LatencyMS, v.Pace(b))
		}
		if got := side.CharsAMinute.Value * side.LatencyMS.Value; math.Abs(got-60000) > 1e-6 {
			t.Errorf("%s: speed times time is %v ms, want a minute", side.Name, got)
		}
	}
}

// Time during which attention wanders is in the expected times: they are means,
// whatever the tail of the latencies.
func TestTailIsInTheMean(t *testing.T) {
	for _, absent := range []float64{0, .03} {
		v := invent(t, "split-38", "ansi-61")
		v.Absent = absent
		practise(t, v, 0, 25)
		for b, side := range standingOf(t, v, 25).Boards {
			if off := math.Log(side.LatencyMS.Value / v.Pace(b)); math.Abs(off) > .075 {
				t.Errorf("absent at %v of the strokes, %s: %v ms a stroke, truth %v", absent, side.Name, side.LatencyMS.Value, v.Pace(b))
			}
		}
	}
}

// What costs, by stroke, by layer and by finger, is the same in all three ways
// of summing.
func TestCostsAddUp(t *testing.T) {
	v := invent(t, "split-38", "ansi-61")
	practise(t, v, 0, 6)
	h := standingOf(t, v, 6).HoldsBack
	sum := func(costs []standing.Cost) (ms, use float64) {
		for _, c := range costs {
			ms += c.MS.Value
			use += c.PerMille
			if math.Abs(c.SlowMS+c.SlipsMS-c.MS.Value) > 1e-6 {
				t.Errorf("%s: %v by latency and %v by slips make %v", c.Name, c.SlowMS, c.SlipsMS, c.MS.Value)
			}
		}
		return ms, use
	}
	strokes, use := sum(h.Strokes)
	layers, _ := sum(h.Layers)
	fingers, _ := sum(h.Fingers)
	if math.Abs(strokes-layers) > 1e-6*strokes || math.Abs(strokes-fingers) > 1e-6*strokes {
		t.Errorf("strokes %v, layers %v, fingers %v", strokes, layers, fingers)
	}
	if math.Abs(use-1000) > 1e-6 {
		t.Errorf("the strokes make up %v per mille", use)
	}
	if math.Abs(strokes-h.TotalMS.Value) > 1e-6*strokes {
		t.Errorf("strokes sum to %v, all cost %v", strokes, h.TotalMS.Value)
	}
}

// A quick stroke is one that a quarter of the work does not beat, and a stroke
// costs what it takes more than that, as often as it comes: worked out here from
// the strokes' own expected times, most expensive first.
func TestWhatHoldsBack(t *testing.T) {
	v := invent(t, "split-38", "ansi-61")
	practise(t, v, 0, 6)
	h := standingOf(t, v, 6).HoldsBack
	in, err := v.Input(standingtest.Start().AddDate(0, 0, 6))
	if err != nil {
		t.Fatal(err)
	}
	expected, quicker, asQuick := standing.Expected(in), 0.0, 0.0
	for id, s := range in.Strokes {
		switch off := expected(id) - h.QuickMS; {
		case s.Board != 1:
		case math.Abs(off) < 1e-9:
			asQuick += s.Freq
		case off < 0:
			quicker += s.Freq
		}
	}
	if h.Against != "ansi-61" || asQuick == 0 || quicker >= .25 || quicker+asQuick < .25 {
		t.Errorf("quick strokes are those on %s, %v ms; %v of the work are quicker, %v as quick", h.Against, h.QuickMS, quicker, asQuick)
	}
	for i, c := range h.Strokes {
		if want := c.PerMille * (c.ExpectedMS - h.QuickMS); math.Abs(c.MS.Value-want) > 1e-6 || c.SlipsMS < 0 {
			t.Errorf("%s: costs %+v, want %v", c.Name, c, want)
		}
		if i > 0 && c.MS.Value > h.Strokes[i-1].MS.Value {
			t.Errorf("%s comes after one that costs less", c.Name)
		}
	}
	if first := h.Strokes[0]; h.TotalMS.Value <= 0 || first.OtherMS <= 0 || first.ExpectedMS <= first.OtherMS {
		t.Errorf("in all %v, most of it %+v", h.TotalMS, first)
	}
}

// Of what was typed line by line no time is known: there is no speed and nothing
// that rests on one, and it is said what is missing. Slips count.
func TestWithoutTimes(t *testing.T) {
	v := invent(t, "split-38", "ansi-61")
	for day := range 6 {
		for b := range 2 {
			d := plain(t, v, b, at(day, 18+b), 0, "(", ")", "{", "}", "[", "]", "=", "+", "e", "t", "a", "n", "x", "y", "z", "0", "1", "2", "3", "4")
			for i := range d.Keys {
				d.Keys[i].Flags |= journal.Paused
				if i%4 == 0 {
					d.Keys[i].Got, d.Keys[i].Slip = "w", "layer"
				}
			}
			add(t, v, d)
		}
	}
	s := standingOf(t, v, 6)
	for _, b := range s.Boards {
		if !b.Known || b.Tries != 120 || b.Timed != 0 || b.LatencyMS.Value != 0 || b.CharsAMinute.Value != 0 {
			t.Errorf("%s: %+v", b.Name, b)
		}
		for _, st := range b.Strokes {
			if st.LatencyMS.Value != 0 || st.NeedTries == 0 {
				t.Errorf("%s on %s: %+v", st.Symbol, b.Name, st)
			}
		}
	}
	if s.Readiness.Known || !strings.Contains(s.Readiness.Needs, "timed") || !strings.Contains(s.HoldsBack.Needs, "timed") || s.Moves.Known || s.Upkeep.Known {
		t.Errorf("readiness %+v, holds back %q, moves %v, upkeep %+v", s.Readiness, s.HoldsBack.Needs, s.Moves.Known, s.Upkeep)
	}
	if s.Slips.Total != 30 || len(s.HoldsBack.Kinds) != 1 || s.Days[0].LatencyMS.Value != 0 || s.Days[0].Slips != 5 {
		t.Errorf("slips %+v, day %+v", s.Slips, s.Days[0])
	}
}

// With one board the yardstick is its base layer.
func TestOneBoard(t *testing.T) {
	v := invent(t, "split-38")
	practise(t, v, 0, 5)
	s := standingOf(t, v, 5)
	if s.Readiness.Against != "the base layer" || !s.Readiness.Known || s.Readiness.Share.Value >= 1 || s.Readiness.Share.Value <= .2 {
		t.Errorf("readiness %+v", s.Readiness)
	}
	if s.Upkeep != nil || s.Readiness.Probe != nil || len(s.Readiness.Outlook) > 0 {
		t.Errorf("upkeep %v, probes %v, outlook %v", s.Upkeep, s.Readiness.Probe, s.Readiness.Outlook)
	}
}

// Nothing practised, one session, and both boards untouched but one: all of it
// can be told, without a figure that is no number.
func TestLittlePractice(t *testing.T) {
	for name, days := range map[string]int{"nothing": 0, "one session": 1, "two": 2} {
		for _, boards := range [][]string{{"split-38", "ansi-61"}, {"split-38"}, {"ansi-61"}} {
			v := invent(t, boards...)
			practise(t, v, 0, days)
			s := standingOf(t, v, days)
			if text, err := json.Marshal(s); err != nil || bytes.Contains(text, []byte(":null")) {
				t.Errorf("%s on %v: %v, or a list that is null: %s", name, boards, err, text)
			}
			if days == 0 && (s.Readiness.Known || s.Readiness.Needs == "" || s.Boards[0].Known || s.HoldsBack.Needs == "" || s.Moves.Known) {
				t.Errorf("%s on %v: %+v", name, boards, s.Readiness)
			}
			if days > 0 && len(boards) == 2 && s.Readiness.OutlookNeeds == 0 {
				t.Errorf("%s: an outlook after %d days", name, days)
			}
		}
	}
}

// The days hold what was typed: in all, as the rows of the table do, which are
// counted in another way.
func TestDaysAgreeWithRows(t *testing.T) {
	v := invent(t, "split-38", "ansi-61")
	practise(t, v, 0, 4)
	practise(t, v, 9, 11)
	var rows standing.Rows
	for d := range v.Drills() {
		rows.Add(d)
	}
	type total struct {
		tries, slips int
		minutes      float64
	}
	want := map[[2]string]total{}
	for r := range rows.All() {
		w := want[[2]string{r.Date, r.Board}]
		want[[2]string{r.Date, r.Board}] = total{w.tries + r.Tries, w.slips + r.Slips, w.minutes + r.Minutes}
	}
	s := standingOf(t, v, 11)
	if len(s.Days) != len(want) {
		t.Errorf("%d days and boards, want %d", len(s.Days), len(want))
	}
	for _, d := range s.Days {
		w := want[[2]string{d.Date, d.Board}]
		if d.Strokes != w.tries || d.Slips != w.slips || math.Abs(d.Minutes-w.minutes) > 1e-6 {
			t.Errorf("%s on %s: %d strokes, %d slips, %v minutes; the rows have %+v", d.Date, d.Board, d.Strokes, d.Slips, d.Minutes, w)
		}
		gap := 0
		if d.Date == standingtest.Start().AddDate(0, 0, 9).Format(time.DateOnly) {
			gap = 5
		}
		if d.Gap != gap {
			t.Errorf("%s: a gap of %d days, want %d", d.Date, d.Gap, gap)
		}
	}
}
