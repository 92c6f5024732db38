package main

import (
	"math"
	"testing"
	"time"

	"underlay/cmd/underlay/standing"
	"underlay/scheduler/learners"
)

// The readiness of simulated typists, of both kinds, is within a tenth of the truth
// in four of five cases, one for each typist and session from the 14th to the 20th;
// for most typists after every one of these sessions (of 60 searchers, 52; ten are too
// few to hold that share); and in its range as often as it says, or nearly. The truth is what they tell of
// themselves, and what nobody sees of a person.
func TestReadinessOfSimulatedTypists(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates months of practice; not with -short")
	}
	// Seeds other than those that the sessions looked at were chosen on.
	const typists, sessions, from, seeds = 10, 20, 14, 40
	for _, kind := range []string{"gradual", "searcher"} {
		t.Run(kind, func(t *testing.T) {
			t.Parallel()
			right, near, held, all := 0, 0, 0, 0
			for seed := range uint64(typists) {
				worst := 0.0
				for _, r := range readinessAndTruth(t, kind, seeds+seed, from, sessions) {
					off := math.Abs(r.told.Value/r.truth - 1)
					worst = max(worst, off)
					all++
					if off <= .1 {
						near++
					}
					if r.told.Lo <= r.truth && r.truth <= r.told.Hi {
						held++
					}
				}
				if worst <= .1 {
					right++
				}
				t.Logf("%s %d: off by at most %.1f %%", kind, seeds+seed, 100*worst)
			}
			t.Logf("%s: %d of %d within a tenth, %d in the range", kind, near, all, held)
			if near*5 < all*4 {
				t.Errorf("%s: %d of %d are within a tenth of the truth", kind, near, all)
			}
			if right*2 <= typists {
				t.Errorf("%s: of %d of %d typists all are within a tenth of the truth", kind, right, typists)
			}
			if held*10 < all*6 {
				t.Errorf("%s: the range holds %d of %d truths", kind, held, all)
			}
		})
	}
}

type toldAndTrue struct {
	told  standing.Range
	truth float64
}

// readinessAndTruth lets a typist practise, and returns the readiness after
// every session from one on, with the truth.
func readinessAndTruth(t *testing.T, kind string, seed uint64, from, sessions int) []toldAndTrue {
	t.Helper()
	e := home(t, 0)
	s, err := e.newSimulator(simulation{typist: kind, seed: seed, days: sessions}, wish{}, e.Dirs)
	if err != nil {
		t.Fatal(err)
	}
	defer s.practice.writer.close()
	var out []toldAndTrue
	for n := range sessions {
		if _, err := s.day(n); err != nil {
			t.Fatal(err)
		}
		if n+1 < from {
			continue
		}
		at := s.now.Add(12 * time.Hour)
		e.Now = func() time.Time { return at }
		told, _, err := e.standing("")
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, toldAndTrue{told.Readiness.Share, learners.Pace(s.typist, 1, at) / learners.Pace(s.typist, 0, at)})
	}
	return out
}
