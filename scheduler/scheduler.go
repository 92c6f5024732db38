package scheduler

import (
	"math"
	"math/rand/v2"
)

// Stroke is one way to produce a symbol, as the scheduler sees it: an id (its
// index in the slice given to [New]) with features that it shares with others.
type Stroke struct {
	Board  int // 0: the board being learned, 1: the other one
	Layer  int // 0: base layer, plain; every other (layer, shift level) has its own number
	Hand   int // 0 left, 1 right
	Finger int // 0 little finger to 4 thumb
	Row    int
	Col    int

	Freq   float64 // share of the user's strokes on this board; the shares of a board sum to 1
	Switch float64 // share of its occurrences that follow a stroke of another layer, 0 to 1
	Other  int     // id of the same symbol's stroke on the other board, or -1
	Text   bool    // occurs in lines of text

	// Retired marks a stroke that its board no longer has. It is never drilled,
	// but what is known of it is kept, and told to the stroke that replaced it.
	Retired bool
	// Was is the id of the retired stroke that gave this symbol before the
	// board was changed, or -1. An id that is not retired counts as -1.
	Was int
}

// Aim says what the plan is to favour.
type Aim int

const (
	Speed    Aim = iota // the same work faster
	Coverage            // every symbol reachable
)

// Options are the settings of a scheduler. The zero value is useful.
type Options struct {
	Aim   Aim
	Seed  uint64
	OldMS float64 // measured ms a stroke on the other board; 0: unknown
}

// Scheduler holds the skill model and the plan of the session. It is not safe
// for concurrent use.
type Scheduler struct {
	strokes []Stroke
	places  []place
	opts    Options
	policy  policy
	pool    pool
	memory
	sitting sitting
	inputs  inputs // of the observation or the estimate under way
}

// memory is all that tries have taught; a snapshot holds it.
type memory struct {
	Speed  side // ln ms
	Slips  side // logit of the chance of a slip
	Items  []item
	Noise  noise
	Clock  clock
	Upkeep upkeep
	Points [2][]Point // by board, one for each practised session that is over
}

// item is what is remembered of a stroke beside its terms.
type item struct {
	Tries    float64
	Scatter  float64 // of its latencies: variance as a share of the usual, less 1
	Credit   float64 // tries on the stroke that it replaced, as far as they count
	Last     float64 // when it was last tried, in Unix seconds
	Gap      float64 // ln(1+days away) before the session under way
	Here     float64 // tries in the session under way
	Pulls    float64 // presses of its old place, the older the less they count
	Recent   uint32  // the last tries, newest in bit 0; set: wrong
	Standing State   // as of the last try
}

// New returns a scheduler for strokes, whose ids are their indices, and a pool
// of lines of the user's code, each a sequence of ids of board 0. Lines with
// ids that are not drilled there are left out. Shares that are no numbers count
// as 0; when all are 0, all strokes count the same.
func New(strokes []Stroke, lines [][]int, o Options) *Scheduler {
	s := &Scheduler{strokes: sound(strokes), opts: o, policy: policyFor(o.Aim)}
	f := featuresOf(s.strokes)
	s.places = f.places
	s.Speed = newSide(latencyPriors(), f)
	s.Slips = newSide(slipPriors(), f)
	s.Items = make([]item, len(strokes))
	s.Noise = newNoise()
	s.pool = newPool(s.strokes, lines)
	s.sitting.rng = rand.New(rand.NewPCG(o.Seed, 0))
	return s
}

// sound returns a copy with shares that sum to 1 on each board and references
// that exist.
func sound(strokes []Stroke) []Stroke {
	out := append([]Stroke(nil), strokes...)
	var sum, n [2]float64
	for i := range out {
		st := &out[i]
		st.Board = min(max(st.Board, 0), 1)
		st.Switch = share(st.Switch)
		if st.Freq = share(st.Freq); st.Retired {
			st.Freq = 0
		}
		if st.Other < 0 || st.Other >= len(out) || out[st.Other].Retired || strokes[st.Other].Board == strokes[i].Board {
			st.Other = -1
		}
		if st.Was < 0 || st.Was >= len(out) || st.Was == i || !out[st.Was].Retired {
			st.Was = -1
		}
		if !st.Retired {
			sum[st.Board] += st.Freq
			n[st.Board]++
		}
	}
	for i := range out {
		st := &out[i]
		switch {
		case st.Retired:
		case sum[st.Board] > 0:
			st.Freq /= sum[st.Board]
		default:
			st.Freq = 1 / n[st.Board]
		}
	}
	return out
}

// share returns a number from 0 to 1.
func share(x float64) float64 {
	if !(x > 0) {
		return 0
	}
	return math.Min(x, 1)
}

// drilled tells whether a stroke may be asked for on a board.
func (s *Scheduler) drilled(id, board int) bool {
	return s.strokes[id].Board == board && !s.strokes[id].Retired
}

// place numbers the features of a stroke that it shares with others.
type place struct {
	board, layer, finger, row int
}

// features holds the places of all strokes and how many of each kind there are.
type features struct {
	places []place
	plain  []bool // by number of layer: the base layer of a board
	finger int
	row    int
}

func featuresOf(strokes []Stroke) features {
	layers, fingers, rows := map[[2]int]int{}, map[[3]int]int{}, map[[2]int]int{}
	f := features{places: make([]place, len(strokes))}
	for i, s := range strokes {
		f.places[i] = place{
			board:  s.Board,
			layer:  number(layers, [2]int{s.Board, s.Layer}),
			finger: number(fingers, [3]int{s.Board, s.Hand, s.Finger}),
			row:    number(rows, [2]int{s.Board, s.Row}),
		}
	}
	f.plain = make([]bool, len(layers))
	for l, n := range layers {
		f.plain[n] = l[1] == 0
	}
	f.finger, f.row = len(fingers), len(rows)
	return f
}

// number gives keys numbers without holes, in the order of their coming.
func number[K comparable](m map[K]int, k K) int {
	n, ok := m[k]
	if !ok {
		n = len(m)
		m[k] = n
	}
	return n
}
