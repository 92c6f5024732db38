package main

import (
	"math"
	"testing"
)

// What the program believes while a typist practises is what it believes after
// the next start, from the journal alone.
func TestSimulatedHistoryIsRebuilt(t *testing.T) {
	b := newBench(t)
	o := simulation{days: 3, seed: 5, typist: "searcher"}
	s, err := b.newSimulator(o, wish{minutes: 3}, b.Dirs)
	if err != nil {
		t.Fatal(err)
	}
	for day := range o.days {
		if _, err := s.day(day); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.practice.writer.close(); err != nil {
		t.Fatal(err)
	}
	again, err := b.practise(wish{minutes: 3})
	if err != nil {
		t.Fatal(err)
	}
	online, rebuilt := s.practice.course, again.course
	met := 0
	for id := range online.Strokes() {
		st := online.Stroke(id)
		other, ok := rebuilt.Find(st.Board, string(st.Symbol), st.Stroke.String())
		if !ok {
			t.Fatalf("%s is not there any more", st.Symbol)
		}
		x, y := online.Scheduler().Level(id, b.Now()), rebuilt.Scheduler().Level(other, b.Now())
		if x.Tries != y.Tries || math.Abs(math.Log(x.MS/y.MS)) > 1e-9 || math.Abs(x.Err-y.Err) > 1e-9 {
			t.Errorf("%s: believed %+v, rebuilt %+v", st.Symbol, x, y)
		}
		if x.Tries > 0 {
			met++
		}
	}
	if met < 40 {
		t.Errorf("only %d strokes were met", met)
	}
	if p := online.Past(s.now); p.Days != 3 || p.Today <= 0 {
		t.Errorf("past %+v", p)
	}
}

// The last simulated day is yesterday, whatever the zone.
func TestLastSimulatedDayIsYesterday(t *testing.T) {
	b := newBench(t)
	now := b.Now()
	last := firstDay(now, 40).AddDate(0, 0, 39)
	if y, m, d := now.AddDate(0, 0, -1).Date(); last.Year() != y || last.Month() != m || last.Day() != d {
		t.Errorf("the last day is %v, today is %v", last, now)
	}
}
