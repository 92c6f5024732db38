package scheduler

import (
	"math/rand/v2"
	"time"
)

// BlockKind names a part of a session.
type BlockKind string

const (
	WarmUp     BlockKind = "warm-up"     // what the hands know
	FirstLook  BlockKind = "first look"  // single strokes, to find out what is known: coming back where nothing was tried yet
	ComingBack BlockKind = "coming back" // weak or faded strokes
	NewStrokes BlockKind = "new"         // first meetings
	Lines      BlockKind = "lines"       // lines of the user's code
	Switching  BlockKind = "switch"      // ways into a layer and back
	Upkeep     BlockKind = "upkeep"      // the other board
	Probe      BlockKind = "probe"       // lines typed unaided, for measuring
)

// board is the one that a block is typed on.
func (k BlockKind) board() int {
	if k == Upkeep {
		return 1
	}
	return 0
}

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

// Plan is what a session holds. The lengths of its blocks sum to the session's.
type Plan struct {
	Blocks []Block
}

// sitting is the session under way. It is no part of what is learned.
type sitting struct {
	plan   Plan
	length time.Duration
	at     int     // the current block
	served bool    // it has had an exercise
	ahead  float64 // strokes that the blocks of lines still ahead will bring
	rng    *rand.Rand

	stretch  float64       // how many times as long as expected exercises take
	given    time.Duration // what was left when the last one was given
	expected float64       // ms that it was expected to take

	worth            worth
	scratch, planned []float64 // by stroke id
}

// Begin plans a session that starts now and lasts for length. It may be called
// again, also only to show the plan. The same tries and the same seed give the
// same session.
func (s *Scheduler) Begin(now time.Time, length time.Duration) Plan {
	length = max(length, 0)
	n := len(s.strokes)
	s.sitting = sitting{
		length: length, stretch: 1, scratch: make([]float64, n), planned: make([]float64, n),
		worth: worth{rate: make([]float64, n), cost: make([]float64, n)},
		rng:   rand.New(rand.NewPCG(s.opts.Seed, uint64(s.Clock.All[0]+s.Clock.All[1]))),
	}
	s.price(0, now)
	for _, w := range s.wishes(length) {
		b := Block{Kind: w.kind, Board: w.kind.board(), Length: w.length, About: s.about(w.kind, w.length, now)}
		s.sitting.plan.Blocks = append(s.sitting.plan.Blocks, b)
	}
	return s.sitting.plan
}

// wish is a block with the time that it would like.
type wish struct {
	kind   BlockKind
	length time.Duration
}

const (
	newTime  = 8 * time.Second // to show a stroke for the first time
	newShare = .35             // of a session, for new strokes at most
)

// wishes lists the blocks of a session of a length. What returns, or lines
// without it, gets what the others leave.
func (s *Scheduler) wishes(length time.Duration) []wish {
	const sec = time.Second
	part := func(share float64, least, most time.Duration) time.Duration {
		return min(max(time.Duration(share*float64(length)), least), most)
	}
	all := []wish{{WarmUp, part(.05, 12*sec, 45*sec)}, {s.returning(), 0}}
	if n := s.due(); n > 0 {
		all = append(all, wish{NewStrokes, part(newShare, 0, time.Duration(n)*newTime)})
	}
	all = append(all, wish{Lines, part(.23, 30*sec, 300*sec)}, wish{Switching, part(.05, 10*sec, 60*sec)})
	if s.boardInUse(1) {
		all = append(all, wish{Upkeep, s.upkeepTime(part)})
	}
	all = append(all, wish{Probe, part(.03, 10*sec, 45*sec)})
	return fit(s.possible(all), length)
}

// returning is the kind of the block that takes what the others leave.
func (s *Scheduler) returning() BlockKind {
	if s.anyTried(func(int) bool { return true }) {
		return ComingBack
	}
	return FirstLook
}

// upkeepTime is what the other board gets: enough to see how it stands, and
// more while it lags.
func (s *Scheduler) upkeepTime(part func(share float64, least, most time.Duration) time.Duration) time.Duration {
	if s.Upkeep.Lagging {
		return part(.05, 6*time.Second, 180*time.Second)
	}
	return part(.016, 6*time.Second, 20*time.Second)
}

// possible leaves out the blocks that have nothing to show.
func (s *Scheduler) possible(all []wish) []wish {
	out := all[:0]
	for _, w := range all {
		switch w.kind {
		case WarmUp, Lines, Probe:
			if len(s.pool.usable[0]) == 0 {
				continue
			}
		case Switching:
			if !s.anyTried(func(id int) bool { return s.strokes[id].Layer != 0 }) {
				continue
			}
		case FirstLook, ComingBack:
			if !s.boardInUse(0) {
				continue
			}
		}
		out = append(out, w)
	}
	return out
}

// fit makes the lengths sum to that of the session: the block that has no wish
// takes the rest, and when there is little left, all shrink but those that measure.
func fit(all []wish, length time.Duration) []wish {
	if length <= 0 || len(all) == 0 {
		return nil
	}
	rest := takesRest(all)
	all[rest].length = 0
	most := length * 3 / 5
	squeeze(all, most, func(k BlockKind) bool { return !k.measures() })
	squeeze(all, most, func(BlockKind) bool { return true })
	all[rest].length = length - total(all)
	return all
}

// takesRest returns which block has no wish: what returns, or lines without it.
func takesRest(all []wish) int {
	rest := -1
	for k, w := range all {
		if w.kind == FirstLook || w.kind == ComingBack || rest < 0 && w.kind == Lines {
			rest = k
		}
	}
	if rest < 0 {
		rest = len(all) - 1
	}
	return rest
}

// squeeze shortens the blocks that may be until all together take no more than most, or nothing is left of them.
func squeeze(all []wish, most time.Duration, may func(BlockKind) bool) {
	var sum time.Duration
	for _, w := range all {
		if may(w.kind) {
			sum += w.length
		}
	}
	over := total(all) - most
	if over <= 0 || sum <= 0 {
		return
	}
	share := max(0, 1-float64(over)/float64(sum))
	for k, w := range all {
		if may(w.kind) {
			all[k].length = time.Duration(share * float64(w.length))
		}
	}
}

// measures tells whether blocks of a kind are there to see how a board stands.
func (k BlockKind) measures() bool { return k == Upkeep || k == Probe }

func total(all []wish) (sum time.Duration) {
	for _, w := range all {
		sum += w.length
	}
	return sum
}

func (s *Scheduler) boardInUse(board int) bool {
	for id := range s.strokes {
		if s.drilled(id, board) {
			return true
		}
	}
	return false
}

func (s *Scheduler) anyTried(may func(id int) bool) bool {
	for id := range s.strokes {
		if s.drilled(id, 0) && s.Items[id].Tries > 0 && may(id) {
			return true
		}
	}
	return false
}
