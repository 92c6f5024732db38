package standing

import (
	"bytes"
	"encoding/gob"
	"errors"
	"fmt"
	"time"

	"underlay/scheduler/journal"
)

// Tally counts the journal. It takes drills in the journal's order, each before
// the model learns from it, so that it can note at the end of a day where the
// model stood.
type Tally struct {
	find    Find
	model   Model
	strokes []Stroke
	c       counts
}

// Find names what the journal's words stand for: the board's index and the id
// of a key's stroke. ok is false for a board or a stroke that is none of ours;
// the drill or the key is passed over.
type Find interface {
	Board(d journal.Drill) (index int, ok bool)
	Stroke(index int, k journal.Key) (id int, ok bool)
}

// countsVersion is that of the form in which counts are stored.
const countsVersion = 3

// counts is what a tally keeps. Fields are exported for their encoding.
type counts struct {
	Version int
	Days    []dayCount // by date and board
	Open    [2]openDay // the latest day of each board
	Sides   [2]sideCount
	Met     []date  // by stroke: the day it was last met
	Timed   []int32 // by stroke: tries whose time is known
	Slips   slipCount
	Probes  [2][]probeCount
	Upkeep  upkeepCount
	Tail    tailCount
	Passed  map[string]int // drills on boards that are none of ours, by the board's name
	Before  time.Time      // when the drill before was begun, on any board
	SetBack int            // times that the clock went back by more than an hour
}

// sideCount is what is counted of one board.
type sideCount struct {
	Tries    int
	Timed    int     // of them: those whose time is known
	MS       float64 // practised
	Sessions int
	Session  string // the latest
	Last     time.Time
	Hash     string
	Name     string
}

// NewTally returns an empty tally. The strokes are those of Input.
func NewTally(find Find, model Model, strokes []Stroke) *Tally {
	return &Tally{find: find, model: model, strokes: strokes, c: counts{Version: countsVersion}}
}

// Add counts a drill. The model must not have learned from it yet.
func (t *Tally) Add(d journal.Drill) {
	b, ok := t.find.Board(d)
	if !ok || b < 0 || b > 1 {
		if t.c.Passed == nil {
			t.c.Passed = map[string]int{}
		}
		t.c.Passed[d.Board]++
		return
	}
	on := dateOf(d.At)
	t.endDays(on)
	t.arrive(b, on, d)
	for i, k := range d.Keys {
		t.key(b, on, d, i, k)
	}
	t.c.probe(b, d)
	t.c.Sides[b].Last = later(t.c.Sides[b].Last, d.At)
}

// arrive notes on which board, in which sitting and on which day d was typed.
func (t *Tally) arrive(b int, on date, d journal.Drill) {
	s := &t.c.Sides[b]
	if d.Session != s.Session || s.Sessions == 0 {
		s.Sessions++
		s.Session = d.Session
	}
	if t.c.Before.Sub(d.At) > time.Hour {
		t.c.SetBack++
	}
	t.c.Before = d.At
	changed := s.Hash != "" && s.Hash != d.Hash
	s.Hash, s.Name = d.Hash, d.Board
	t.openDay(b, on)
	day := &t.c.Open[b].Day
	day.Name, day.Changed = d.Board, day.Changed || changed
}

// key counts one stroke.
func (t *Tally) key(b int, on date, d journal.Drill, i int, k journal.Key) {
	s, o := &t.c.Sides[b], &t.c.Open[b]
	ms := worked(k)
	s.MS += ms
	o.Day.MS += ms
	if k.Flags.Has(journal.Repair) {
		return
	}
	s.Tries++
	o.Day.Strokes++
	if k.Wrong() {
		o.Day.Slips++
	}
	id, ok := t.find.Stroke(b, k)
	if !ok {
		return
	}
	if k.Wrong() && b == 0 {
		t.c.Slips.add(id, k.Slip)
	}
	if hasTime(k) {
		s.Timed++
		t.c.Timed = grown(t.c.Timed, id)
		t.c.Timed[id]++
		t.tail(id, d.At, k)
	}
	if b == 1 {
		t.c.Upkeep.add(id, s.Sessions, k)
	}
	if first := t.meet(id, on); first {
		o.first(k, d.Unordered && again(d.Keys, i))
	} else if timed(k) {
		o.MS = append(o.MS, float32(k.MS))
	}
}

// meet notes that a stroke was met, and tells whether it was for the first
// time on a day after another one.
func (t *Tally) meet(id int, on date) bool {
	t.c.Met = grown(t.c.Met, id)
	last := t.c.Met[id]
	t.c.Met[id] = on
	return last != 0 && last != on
}

// grown is a slice by stroke that has a place for one.
func grown[T any](s []T, id int) []T {
	if id < len(s) {
		return s
	}
	return append(s, make([]T, id+1-len(s))...)
}

// again tells whether the stroke of key i occurs more than once.
func again(keys []journal.Key, i int) bool {
	n := 0
	for _, k := range keys {
		if k.Symbol == keys[i].Symbol && k.Stroke == keys[i].Stroke {
			n++
		}
	}
	return n > 1
}

// hasTime tells whether a key's latency is that of a stroke: right, unaided, and
// measured without looking away. Lines that are typed as a whole have none.
func hasTime(k journal.Key) bool {
	const not = journal.Helped | journal.Paused | journal.Repair
	return !k.Wrong() && k.Flags&not == 0 && k.MS >= shortestMS && k.MS <= longestMS
}

// timed tells whether a key's latency can be compared with others: the first
// of a line is read before it is typed.
func timed(k journal.Key) bool { return hasTime(k) && !k.Flags.Has(journal.First) }

const (
	shortestMS = 20
	longestMS  = 3000 // longer is a pause
)

// worked is the time that a key took, without looking away.
func worked(k journal.Key) float64 {
	if k.Flags.Has(journal.Paused) {
		return 0
	}
	return min(max(k.MS, 0), longestMS) + min(max(k.Lost, 0), longestMS)
}

// Finish notes where the model stands after the last drill. More may follow.
func (t *Tally) Finish() {
	for b := range t.c.Open {
		t.noteDay(b)
	}
}

// MarshalBinary returns what was counted, for a cache.
func (t *Tally) MarshalBinary() ([]byte, error) {
	var b bytes.Buffer
	err := gob.NewEncoder(&b).Encode(t.c)
	return b.Bytes(), err
}

// UnmarshalBinary takes up what MarshalBinary returned. After an error the
// tally is as it was.
func (t *Tally) UnmarshalBinary(b []byte) error {
	var c counts
	if err := gob.NewDecoder(bytes.NewReader(b)).Decode(&c); err != nil {
		return fmt.Errorf("standing: no tally: %w", err)
	}
	if c.Version != countsVersion {
		return errors.New("standing: a tally of another version")
	}
	t.c = c
	return nil
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// soon is when a level is shown for: a day after the last practice, since the
// evening of a practised day flatters; now, when that was longer ago.
func soon(now, last time.Time) time.Time {
	next := last.Add(24 * time.Hour)
	if last.IsZero() || now.After(next) || last.Sub(now) > 24*time.Hour {
		return now
	}
	return next
}
