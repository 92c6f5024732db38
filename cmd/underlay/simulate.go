package main

import (
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"

	"underlay/scheduler/learners"
)

func newSimulate(env *Env) *cobra.Command {
	o := simulation{}
	var w wish
	var asJSON bool
	c := &cobra.Command{
		Use:   "simulate",
		Short: "Let a simulated typist practise: no keyboard needed",
		Long: `A simulated typist practises a session a day, through the same plan, drills,
grading and journal as a person. The last day is yesterday. With --into, the invented history is kept in a directory that can
stand for XDG_DATA_HOME; without, it is thrown away. The same seed gives the
same history. Minutes and days of a simulation say nothing about people.`,
		Example: `  underlay simulate --days 10
  underlay simulate --into invented
  XDG_DATA_HOME=invented underlay progress`,
		Args: takes(0, 0),
		RunE: func(*cobra.Command, []string) error {
			if o.days < 1 || o.days > 3650 {
				return misuse("--days %d: from 1 to 3650 days can be simulated", o.days)
			}
			result, err := env.simulate(o, w)
			if err != nil {
				return err
			}
			if asJSON {
				return env.json(result)
			}
			result.write(env.Stdout)
			return nil
		},
	}
	f := c.Flags()
	f.IntVar(&o.days, "days", 40, "practise on `N` days")
	f.Uint64Var(&o.seed, "seed", 1, "which typist, and which course of chance: the same `SEED` gives the same")
	f.StringVar(&o.into, "into", "", "keep the history in `DIR`, which can stand for XDG_DATA_HOME")
	f.StringVar(&o.typist, "typist", "gradual", "which `KIND` of typist: gradual or searcher")
	f.Var(&w.minutes, "minutes", "practise for `N` minutes a day, 1 to 120")
	f.StringVar(&w.board, "board", "", "learn `BOARD`, a name or a file")
	f.BoolVar(&asJSON, "json", false, "print one JSON object")
	completeNames(c, "board", env.boardNames)
	completeNames(c, "typist", func() []string { return []string{"gradual", "searcher"} })
	return c
}

// simulation says what to simulate.
type simulation struct {
	days   int
	seed   uint64
	into   string
	typist string
}

// simulate practises all days and returns what happened.
func (e *Env) simulate(o simulation, w wish) (simulated, error) {
	dir := o.into
	if dir == "" {
		made, err := os.MkdirTemp("", "underlay-simulated-")
		if err != nil {
			return simulated{}, err
		}
		defer os.RemoveAll(made)
		dir = made
	}
	s, err := e.newSimulator(o, w, e.Dirs.In(dir))
	if err != nil {
		return simulated{}, err
	}
	defer s.practice.writer.close()
	out := simulated{Board: s.practice.course.Boards()[0].Name, Seed: o.seed, Typist: o.typist, Invented: true, Days: []simulatedDay{}}
	for day := range o.days {
		d, err := s.day(day)
		if err != nil {
			return simulated{}, err
		}
		out.Days = append(out.Days, d)
	}
	out.Into = o.into
	return out, nil
}

// firstDay is when the first session begins, so that the last of n days is
// yesterday. Days are 24 hours long here: a change of the clocks would make
// the history depend on when it is made.
func firstDay(now time.Time, n int) time.Time {
	_, offset := now.Zone()
	y, m, d := now.Date()
	midnight := time.Date(y, m, d, 0, 0, 0, 0, time.FixedZone("", offset))
	return midnight.Add(-time.Duration(n)*24*time.Hour + 18*time.Hour)
}

// newTypist makes the simulated person.
func newTypist(kind string, w *learners.Work, seed uint64) (learners.Typist, error) {
	switch kind {
	case "gradual":
		return learners.NewGradual(w, seed), nil
	case "searcher":
		return learners.NewSearcher(w, seed), nil
	}
	return nil, misuse("there is no typist %q", kind).hinted("one of gradual, searcher")
}

// simulated is what happened.
type simulated struct {
	Board    string         `json:"board"`
	Typist   string         `json:"typist"`
	Seed     uint64         `json:"seed"`
	Invented bool           `json:"invented"` // always true: no person typed this
	Into     string         `json:"into,omitempty"`
	Days     []simulatedDay `json:"days"`
}

// simulatedDay is one session.
type simulatedDay struct {
	Day        int            `json:"day"` // from 0
	Minutes    float64        `json:"minutes"`
	Drills     int            `json:"drills"`
	Strokes    int            `json:"strokes"`
	ErrorShare float64        `json:"error_share"`
	LatencyMS  float64        `json:"latency_ms"`  // median of right first tries
	ExpectedMS float64        `json:"expected_ms"` // what the program believes a stroke of the work takes
	TrueMS     float64        `json:"true_ms"`     // what it takes the typist
	States     map[string]int `json:"states"`      // strokes off the base layer by state
}

func (s simulated) write(out interface{ Write([]byte) (int, error) }) {
	fmt.Fprintf(out, "an invented history: a simulated typist (%s, seed %d) learns %s\n\n", s.Typist, s.Seed, s.Board)
	fmt.Fprintf(out, "  day  minutes  strokes  wrong  median ms  believed ms  true ms  steady\n")
	for _, d := range s.Days {
		if n := len(s.Days); n > 20 && d.Day%((n+19)/20) != 0 && d.Day != n-1 {
			continue
		}
		fmt.Fprintf(out, "  %3d  %7.1f  %7d  %4.1f%%  %9.0f  %11.0f  %7.0f  %6d\n",
			d.Day, d.Minutes, d.Strokes, 100*d.ErrorShare, d.LatencyMS, d.ExpectedMS, d.TrueMS, d.States["steady"])
	}
	fmt.Fprintf(out, "\n  believed and true: ms a stroke of the work, slips and their repair included.\n")
	if s.Into != "" {
		fmt.Fprintf(out, "  kept in %s, which can stand for XDG_DATA_HOME.\n", s.Into)
	}
}
