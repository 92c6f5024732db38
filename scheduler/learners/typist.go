package learners

import (
	"cmp"
	"slices"
	"time"

	"underlay/scheduler"
)

// Typist is a simulated person at a keyboard. The same calls on a typist made from
// the same values give the same answers.
type Typist interface {
	// Press types stroke id at the time now, when it could first be pressed. prev
	// is the stroke before, or -1: the first of a line. Times do not go back.
	Press(id, prev int, now time.Time) Press
	// Expect tells what nobody sees of a person: how the stroke would go at a
	// time at or after the last press, on average over the work, warmed up.
	Expect(id int, at time.Time) Truth
	// Work returns what the typist types.
	Work() *Work
}

// Press is what came of one try.
type Press struct {
	MS   float64 // latency; at least 40
	Got  int     // stroke that came: the one asked for, another, or -1: a key that has none
	Slip Slip    // Right, or why another one came
}

// Slip says why another stroke came than the one asked for.
type Slip int

const (
	Right  Slip = iota
	Layer       // the same position on another layer
	Column      // the next column
	Row         // the next row
	Mirror      // the same finger of the other hand
	Habit       // where the other board has it
)

// Truth is what a stroke takes in the work.
type Truth struct {
	Median float64 // latency in ms
	Mean   float64 // latency in ms, absences not counted
	Err    float64 // chance of a slip
	Cost   float64 // mean ms, with repair and absences
}

// What it takes to find and repair a slip, in ms and in latencies of the
// stroke. They are assumed, not measured.
const (
	repairMS    = 450
	repairTimes = .8
)

// RepairMS is the time from a slip with that latency to the next stroke.
func RepairMS(ms float64) float64 { return repairMS + repairTimes*ms }

// Pair is two strokes that follow each other.
type Pair struct{ Prev, ID int }

// Work is what a typist types.
//
// Strokes have the features that the scheduler sees. Rows count from the thumbs up:
// 0 thumb keys, 1 bottom, 2 home, 3 top, 4 digits, 5 function keys. Columns grow
// from left to right within a hand at least.
type Work struct {
	Strokes []scheduler.Stroke
	// Pairs holds the share of each pair among the strokes of its board.
	Pairs map[Pair]float64

	before [][]share   // for each stroke its predecessors
	at     map[key]int // which stroke a key gives on a layer
	inner  []bool      // the index finger has to reach inwards
	twin   []bool      // the same key gives it on both boards, in the same way
}

// share is a predecessor and its share of a stroke's occurrences.
type share struct {
	prev int
	p    float64
}

// key is a position on a layer of a board.
type key struct{ board, layer, hand, row, col int }

func keyOf(s scheduler.Stroke) key { return key{s.Board, s.Layer, s.Hand, s.Row, s.Col} }

// NewWork derives from strokes and the pairs of the work what typists need.
// Retired strokes may be among them; they are never met.
func NewWork(strokes []scheduler.Stroke, pairs map[Pair]float64) *Work {
	w := &Work{Strokes: strokes, Pairs: pairs, at: map[key]int{}}
	for id, s := range strokes {
		if before, ok := w.at[keyOf(s)]; !s.Retired && (!ok || s.Freq > strokes[before].Freq) {
			w.at[keyOf(s)] = id // a chord lies where its key does; the key alone is commoner
		}
	}
	w.before = predecessors(len(strokes), pairs)
	w.inner = make([]bool, len(strokes))
	w.twin = make([]bool, len(strokes))
	for id := range strokes {
		w.inner[id] = w.reachesInwards(id)
		w.twin[id] = w.isTwin(id)
	}
	return w
}

// predecessors lists, for each stroke, those before it, the commonest first.
func predecessors(n int, pairs map[Pair]float64) [][]share {
	list := make([][]share, n)
	for p, f := range pairs {
		if f > 0 {
			list[p.ID] = append(list[p.ID], share{p.Prev, f})
		}
	}
	for id, l := range list {
		slices.SortFunc(l, func(a, b share) int { return cmp.Or(cmp.Compare(b.p, a.p), cmp.Compare(a.prev, b.prev)) })
		sum := 0.0
		for _, s := range l {
			sum += s.p
		}
		for i := range l {
			l[i].p /= sum
		}
		list[id] = l
	}
	return list
}

// reachesInwards tells whether a stroke is in the inner of the index finger's columns.
func (w *Work) reachesInwards(id int) bool {
	s := w.Strokes[id]
	if s.Finger != index {
		return false
	}
	for _, o := range w.Strokes {
		same := o.Board == s.Board && o.Hand == s.Hand && o.Finger == index && o.Row == s.Row
		if same && (s.Hand == 0 && o.Col < s.Col || s.Hand == 1 && o.Col > s.Col) {
			return true
		}
	}
	return false
}

// isTwin tells whether a stroke off the base layer is given by the same key on both
// boards, as capital letters are: the keys that give it give one symbol on both base layers.
func (w *Work) isTwin(id int) bool {
	s := w.Strokes[id]
	if s.Other < 0 || s.Layer == 0 {
		return false
	}
	here := keyOf(s)
	here.layer = 0
	there := keyOf(w.Strokes[s.Other])
	if there.layer == 0 {
		return false
	}
	there.layer = 0
	a, ok := w.at[here]
	b, found := w.at[there]
	return ok && found && w.Strokes[a].Other == b
}

// The fingers, as scheduler.Stroke counts them.
const (
	index = 3
	thumb = 4
)

// Pace is the expected ms for a stroke of the work on a board, repair included.
func Pace(t Typist, board int, at time.Time) float64 {
	sum, all := 0.0, 0.0
	for id, s := range t.Work().Strokes {
		if s.Board == board && !s.Retired {
			sum += s.Freq * t.Expect(id, at).Cost
			all += s.Freq
		}
	}
	return sum / all
}
