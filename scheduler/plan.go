package scheduler

import (
	"math"
	"sort"
	"time"
)

// BlockKind names a part of a session.
type BlockKind string

const (
	WarmUp     BlockKind = "warm-up"     // what the hands know
	ComingBack BlockKind = "coming back" // weak or faded strokes
	NewStrokes BlockKind = "new"         // first meetings
	Lines      BlockKind = "lines"       // lines of the user's code
	Switching  BlockKind = "switch"      // ways into a layer and back
	Upkeep     BlockKind = "upkeep"      // the other board
	Probe      BlockKind = "probe"       // lines typed unaided, for measuring
)

// About is a stroke that a block is about, with its standing and the reason.
type About struct {
	ID    int
	State State
	Level Level
	Why   Why
}

// Block is a part of a session.
type Block struct {
	Kind   BlockKind
	Board  int
	Length time.Duration
	About  []About // the strokes it is about, most important first; may be empty
}

// Plan is what a session holds. Its blocks fill its length.
type Plan struct {
	Blocks []Block
}

// Exercise is a sequence of strokes to type in one go.
type Exercise struct {
	Block  BlockKind
	Board  int
	Items  []int // ids of strokes of the board
	Line   int   // index of the line in the pool given to New, or -1
	Wanted []int // the strokes that it is for; the others are their surroundings
	Unmet  bool  // the strokes are shown for the first time, and asked alone
}

// Begin plans a session that starts now and lasts for length. It may be called
// again, also only to show the plan.
func (s *Scheduler) Begin(now time.Time, length time.Duration) Plan {
	s.plan, s.at, s.used = Plan{}, 0, 0
	add := func(k BlockKind, share float64, about []About) {
		if d := time.Duration(share * float64(length)); d > 0 {
			s.plan.Blocks = append(s.plan.Blocks, Block{Kind: k, Length: d, About: about})
		}
	}
	add(WarmUp, .1, nil)
	add(ComingBack, .4, s.about(now, false))
	if n := s.about(now, true); len(n) > 0 {
		add(NewStrokes, .1, n)
	}
	if len(s.lines) > 0 {
		add(Lines, .4, nil)
	}
	return s.plan
}

func (s *Scheduler) about(now time.Time, unmet bool) []About {
	var out []About
	for id, st := range s.strokes {
		if st.Board == 0 && !st.Retired && (s.items[id].tries == 0) == unmet {
			out = append(out, About{ID: id, State: s.State(id, now), Level: s.Level(id, now), Why: s.Why(id, now)})
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return s.strokes[out[a].ID].Freq > s.strokes[out[b].ID].Freq })
	return out[:min(len(out), 5)]
}

// Next returns the next exercise, or false when the session is over. left is
// what remains of the session's time.
func (s *Scheduler) Next(now time.Time, left time.Duration) (Exercise, bool) {
	if left <= 0 {
		return Exercise{}, false
	}
	if len(s.lines) > 0 && s.rng.Float64() < .5 {
		n := s.rng.IntN(len(s.lines))
		return Exercise{Block: Lines, Items: s.lines[n], Line: n}, true
	}
	e := Exercise{Block: ComingBack, Line: -1}
	total := 0.0
	weight := func(st Stroke) float64 {
		if st.Board != 0 || st.Retired {
			return 0
		}
		return math.Sqrt(st.Freq) + 1e-6
	}
	for _, st := range s.strokes {
		total += weight(st)
	}
	for range 20 {
		u := s.rng.Float64() * total
		for id, st := range s.strokes {
			if u -= weight(st); u < 0 {
				e.Items = append(e.Items, id)
				break
			}
		}
	}
	e.Wanted = e.Items
	return e, len(e.Items) > 0
}
