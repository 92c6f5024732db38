package scheduler

import (
	"math"
	"math/rand/v2"
	"time"
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

// Try is one graded attempt at a stroke, as the journal has it.
type Try struct {
	ID      int
	Prev    int       // id of the stroke before, or -1: unknown, or the first of a line
	At      time.Time // after the stroke
	MS      float64   // latency of the first press
	Wrong   bool
	Pressed int // id of the stroke that came, or -1

	First      bool // first stroke of a line
	AfterSlip  bool // the stroke before was wrong
	Switch     bool // the stroke before was on another layer
	SameFinger bool // the finger of the stroke before, on another key
	Helped     bool // the picture was looked at; no latency
	Paused     bool // the user looked away; no latency
}

// Level is what is known of a stroke at some time, in the user's own work,
// warmed up.
type Level struct {
	MS     float64   // median latency
	Lo, Hi float64   // 80 % range of MS
	Err    float64   // chance of a slip, 0 to 1
	Tries  int       // attempts so far
	Last   time.Time // of the last attempt; zero if there was none
}

// Scheduler holds the skill model and the plan of the session. It is not safe
// for concurrent use.
type Scheduler struct {
	strokes []Stroke
	lines   [][]int
	opts    Options
	items   []item
	plan    Plan
	at      int // current block
	used    time.Duration
	rng     *rand.Rand
}

type item struct {
	ln, err float64 // running means
	tries   int
	slips   int
	last    time.Time
	known   bool
}

// New returns a scheduler for strokes, whose ids are their indices, and a pool
// of lines of the user's code, each a sequence of ids of board 0.
func New(strokes []Stroke, lines [][]int, o Options) *Scheduler {
	return &Scheduler{strokes: strokes, lines: lines, opts: o, items: make([]item, len(strokes)), rng: rand.New(rand.NewPCG(o.Seed, 1))}
}

// Observe learns from one try. Ids out of range are ignored.
func (s *Scheduler) Observe(t Try) {
	if t.ID < 0 || t.ID >= len(s.items) {
		return
	}
	it := &s.items[t.ID]
	it.tries++
	it.last = t.At
	wrong := 0.0
	if t.Wrong {
		wrong = 1
		it.slips++
	}
	it.err += (wrong - it.err) / float64(min(it.tries+2, 30))
	if t.Wrong || t.Helped || t.Paused || !(t.MS > 0 && t.MS <= 3000) {
		return
	}
	y := math.Log(t.MS)
	if !it.known {
		it.ln, it.known = y, true
	}
	it.ln += (y - it.ln) / float64(min(it.tries, 20))
}

// Level returns what is known of a stroke at a time.
func (s *Scheduler) Level(id int, at time.Time) Level {
	it := s.items[id]
	ln := it.ln
	if !it.known {
		ln = math.Log([2]float64{520, 280}[s.strokes[id].Board&1])
	}
	half := .5 / math.Sqrt(float64(it.tries)+1)
	return Level{MS: math.Exp(ln), Lo: math.Exp(ln - half), Hi: math.Exp(ln + half), Err: it.err, Tries: it.tries, Last: it.last}
}
