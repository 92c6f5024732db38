// Package course joins what the domain packages keep apart: boards and a mix
// of tables become the scheduler's strokes, the journal becomes skill, and the
// scheduler's exercises become drills. It implements session.Planner.
//
// The scheduler learns from the journal's records and from nothing else: a
// drill that was just typed is learned from as it was written, so that what is
// known is the same after the next start.
package course

import (
	"errors"
	"time"

	"underlay/cmd/underlay/session"
	"underlay/corpus"
	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
)

// Config is what a course is made of.
type Config struct {
	Boards []*board.Board // one or two: the one being learned, and the other
	Mix    []corpus.Part  // what the work is made of; weights are shares of strokes
	Keys   *corpus.Table  // the strokes that no text shows, with their Weight among all; may be nil
	Keeps  []board.Symbol // never asked for
	Own    []drills.Drill // lines of the user's own files, for the board being learned
	Kind   drills.Kind    // drills of this kind alone; "" for what is planned
	Aim    scheduler.Aim
	Seed   uint64
	Past   Past // the journal; the zero Past is an empty one

	// Watch counts the journal besides; may be nil. A cache serves either
	// with a watch or without.
	Watch Watch
	// Idle says that nothing will be practised: no drills are prepared.
	Idle bool
}

// Course is a session.Planner. It is not safe for concurrent use.
type Course struct {
	config     Config
	plain      []string // the boards' names without an OS layout
	mix        *corpus.Table
	strokes    *strokes
	generators [2]*drills.Generator // made when they are needed
	pool       []drills.Drill
	probed     []int // lines typed for measuring on the other board, to be typed on this one
	scheduler  *scheduler.Scheduler
	drawn      uint64 // drills made so far: the seed of the next one

	past   *past
	begin  time.Time               // when the sitting was planned
	before map[int]scheduler.Level // of the strokes met since, as they were then
}

var _ session.Planner = (*Course)(nil)

// New joins boards, mix and journal. It reads the journal, from where the
// cache left off if it can.
func New(c Config) (*Course, error) {
	if len(c.Boards) < 1 || len(c.Boards) > 2 {
		return nil, errors.New("course: one board is needed, or two")
	}
	k := &Course{config: c, mix: mixed(c.Mix, c.Keys), before: map[int]scheduler.Level{}}
	for _, b := range c.Boards {
		k.plain = append(k.plain, board.PlainName(b.Name))
	}
	k.strokes = newStrokes(c.Boards, k.mix, c.Keeps)
	if c.Idle {
		return k, k.recall(c.Past)
	}
	k.pool = k.newPool()
	if err := k.recall(c.Past); err != nil {
		return nil, err
	}
	return k, nil
}

// generator returns the one that makes drills for a board.
func (c *Course) generator(b int) *drills.Generator {
	if c.generators[b] == nil {
		c.generators[b] = drills.NewGenerator(c.config.Boards[b], c.config.Mix, drills.Options{Keeps: c.config.Keeps})
	}
	return c.generators[b]
}

// mixed adds the strokes that no text shows to a mix, in their share.
func mixed(parts []corpus.Part, keys *corpus.Table) *corpus.Table {
	if keys == nil || !(keys.Weight > 0 && keys.Weight < 1) {
		return corpus.Mix(parts...)
	}
	total := 0.0
	for _, p := range parts {
		total += p.Weight
	}
	all := []corpus.Part{{Table: keys, Weight: keys.Weight}}
	for _, p := range parts {
		all = append(all, corpus.Part{Table: p.Table, Weight: p.Weight / total * (1 - keys.Weight)})
	}
	return corpus.Mix(all...)
}

// Boards returns the boards: the one being learned, and the other if any.
func (c *Course) Boards() []*board.Board { return c.config.Boards }

// ID returns the scheduler's id of the stroke that is drilled for a symbol.
func (c *Course) ID(b int, s board.Symbol) (int, bool) {
	id, ok := c.strokes.drilled[place{b, s}]
	return id, ok
}

// Stroke returns what an id stands for.
func (c *Course) Stroke(id int) Stroke { return c.strokes.all[id] }

// Scheduler returns the skill model, for what only reads it: progress, maps.
func (c *Course) Scheduler() *scheduler.Scheduler { return c.scheduler }

// Mix returns what the work is made of, the strokes that no text shows included.
func (c *Course) Mix() *corpus.Table { return c.mix }
