package standing

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"underlay/scheduler"
)

// work is a standing being worked out.
type work struct {
	tail  float64 // see tailFactor
	in    Input
	at    [2]time.Time    // when levels are shown for, by board
	form  [2]form         // by board
	yard  scheduler.Point // see yardstick
	fast  quickStroke
	costs map[int]Cost // by id, of the board being learned
}

// New works out where the user stands.
func New(in Input) Standing {
	w := newWork(in)
	s := Standing{At: in.Now, Readiness: w.readiness(), HoldsBack: w.holdsBack(), Days: in.Tally.c.days(w.tail),
		Slips: in.Tally.c.Slips.slips(in), Upkeep: w.upkeep(), Notes: w.notes()}
	for b := range in.Boards {
		s.Boards = append(s.Boards, w.side(b))
	}
	s.Moves = w.moves()
	s.listed()
	return s
}

// listed makes empty lists of those that hold nothing: null is no list to who reads JSON.
func (s *Standing) listed() {
	h := &s.HoldsBack
	for _, costs := range []*[]Cost{&h.Strokes, &h.Layers, &h.Fingers, &h.Kinds} {
		some(costs)
	}
	for i := range s.Boards {
		some(&s.Boards[i].Strokes)
	}
	some(&s.Readiness.Outlook)
	some(&s.Days)
	some(&s.Slips.Kinds)
	some(&s.Moves.Advice)
}

func some[T any](list *[]T) {
	if *list == nil {
		*list = []T{}
	}
}

func newWork(in Input) *work {
	w := &work{in: in}
	w.tail = w.tailFactor()
	for b := range in.Boards {
		w.at[b] = soon(in.Now, in.Tally.c.Sides[b].Last)
		w.form[b] = w.formOf(b)
	}
	w.yard = w.yardstick()
	w.fast = w.quick()
	w.costs = w.costOf()
	return w
}

// two tells whether there is another board.
func (w *work) two() bool { return len(w.in.Boards) == 2 }

// against names the yardstick.
func (w *work) against() string {
	if w.two() {
		return w.in.Boards[1].Name
	}
	return "the base layer"
}

// pace is the expected time a stroke on a board.
func (w *work) pace(b int) scheduler.Point {
	return w.form[b].corrected(w.in.Model.Pace(b, w.at[b]))
}

// yardstick is what the board being learned is held against: the other board,
// or its own base layer.
func (w *work) yardstick() scheduler.Point {
	if w.two() {
		return w.pace(1)
	}
	return w.part(func(s Stroke) bool { return s.Layer == 0 })
}

// layersPace is the pace of what is not on the base layer.
func (w *work) layersPace() scheduler.Point {
	return w.part(func(s Stroke) bool { return s.Layer != 0 })
}

// part is the pace of a part of the board being learned.
func (w *work) part(of func(Stroke) bool) scheduler.Point {
	return w.form[0].corrected(w.in.Model.PaceOf(w.at[0], func(id int) bool {
		s := w.in.Strokes[id]
		return s.Board == 0 && !s.Retired && of(s)
	}))
}

// side is one board.
func (w *work) side(b int) Side {
	c := w.in.Tally.c.Sides[b]
	s := Side{Name: w.in.Boards[b].Name, Title: w.in.Boards[b].Title, Learned: b == 0,
		Known: c.Tries > 0, Timed: c.Timed, Sessions: c.Sessions, Minutes: c.MS / 60000, Tries: c.Tries}
	if s.Timed > 0 {
		s.LatencyMS = paceRange(w.pace(b))
		s.CharsAMinute = s.LatencyMS.perMinute()
	}
	for id, st := range w.in.Strokes {
		if st.Board != b || st.Retired {
			continue
		}
		in := w.inHand(id)
		s.Strokes = append(s.Strokes, in)
		s.States.add(w.in.Model.State(id, w.at[b]), st.Freq)
	}
	return s
}

func (s *States) add(state scheduler.State, share float64) {
	switch state {
	case scheduler.Unmet:
		s.Unmet++
	case scheduler.Building:
		s.Building++
	case scheduler.Steady:
		s.Steady++
		s.SteadyUse += share
	case scheduler.Fading:
		s.Fading++
	}
}

const (
	triesForMS  = 10 // before a latency of a stroke means something
	triesForErr = 15 // before its share of slips does
)

func (w *work) inHand(id int) InHand {
	st := w.in.Strokes[id]
	l := w.in.Model.Level(id, w.at[st.Board])
	h := InHand{Symbol: st.Symbol, Stroke: st.Keys.String(), Position: st.Keys.Final().Position, Layer: st.Keys.Layer, Level: st.Keys.Level,
		State: w.in.Model.State(id, w.at[st.Board]).String(), PerMille: 1000 * st.Freq, Tries: l.Tries, Timed: w.timed(id), Last: l.Last}
	h.NeedTries = max(0, triesForMS-h.Timed)
	if l.Tries == 0 {
		return h // all that is known of it is presumed
	}
	h.ErrShare = l.Err
	if h.Timed > 0 {
		h.LatencyMS = Range{l.MS, l.Lo, l.Hi}
	}
	if st.Board == 0 {
		h.CostMS = w.costs[id].MS
	}
	return h
}

// timed is how many tries of a stroke have a time.
func (w *work) timed(id int) int {
	if all := w.in.Tally.c.Timed; id < len(all) {
		return int(all[id])
	}
	return 0
}

// notes says what is to be known about the figures.
func (w *work) notes() []string {
	var out []string
	c := &w.in.Tally.c
	for _, r := range w.in.Renamed {
		out = append(out, r.Words())
	}
	for _, name := range slices.Sorted(maps.Keys(c.Passed)) {
		out = append(out, notCounted(c.Passed[name], name))
	}
	if c.SetBack > 0 {
		out = append(out, fmt.Sprintf("the clock went back by more than an hour %s; days are as the clock told them", times(c.SetBack)))
	}
	if last := later(c.Sides[0].Last, c.Sides[1].Last); last.Sub(w.in.Now) > time.Hour {
		out = append(out, fmt.Sprintf("the last practice is dated %s, after now: is the clock right?", last.Format(time.DateOnly)))
	}
	return out
}

// notCounted says of drills that their board is not looked at.
func notCounted(n int, on string) string {
	said := fmt.Sprintf("1 drill on %q is not counted", on)
	if n > 1 {
		said = fmt.Sprintf("%d drills on %q are not counted", n, on)
	}
	return said + ": it is none of these boards; if one of them has a new name and other strokes, give it the old name again"
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}
