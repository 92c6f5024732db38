package course

import (
	"fmt"
	"slices"
	"time"

	"underlay/cmd/underlay/session"
	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
)

// Next returns the next task; left is what remains of the sitting's time. It
// returns false when the sitting is over.
func (c *Course) Next(now time.Time, left time.Duration) (session.Task, bool) {
	const patience = 20 // exercises in a row that come to nothing
	for range patience {
		e, ok := c.scheduler.Next(now, left)
		if !ok {
			return session.Task{}, false
		}
		if d := c.Drill(e); len(d.Keys) > 0 {
			return session.Task{Block: e.Block, Board: e.Board, Drill: d, Wanted: c.symbols(e.Wanted), Unmet: e.Unmet}, true
		}
	}
	return session.Task{}, false
}

// Drill makes what an exercise asks for.
func (c *Course) Drill(e scheduler.Exercise) drills.Drill {
	c.drawn++
	if c.config.Kind != "" {
		return c.drillOfKind(e)
	}
	if e.Line >= 0 && (e.Block == scheduler.Probe || e.Block == scheduler.Upkeep) {
		return c.measure(e)
	}
	if e.Line >= 0 && e.Board == 0 {
		return c.pool[e.Line]
	}
	symbols := c.symbols(e.Items)
	return c.generator(e.Board).Render(kindOf(e, symbols), symbols)
}

// drillOfKind makes a drill of the one kind that is wanted, for the strokes
// that the exercise is for.
func (c *Course) drillOfKind(e scheduler.Exercise) drills.Drill {
	g, kind := c.generator(e.Board), c.config.Kind
	if kind == drills.OwnLine && len(c.config.Own) > 0 {
		d := c.config.Own[(c.config.Seed+c.drawn)%uint64(len(c.config.Own))]
		if e.Board != 0 {
			d = g.Render(kind, d.Symbols())
		}
		return d
	}
	wanted := map[board.Symbol]float64{}
	for _, id := range e.Wanted {
		wanted[c.strokes.all[id].Symbol]++
	}
	d, err := g.Generate(kind, wanted, c.config.Seed+c.drawn)
	if err != nil { // nothing of the kind has those strokes
		d, _ = g.Generate(kind, nil, c.config.Seed+c.drawn)
	}
	return d
}

// Has tells whether there is anything to drill of a kind; see drills.ErrNothing.
func (c *Course) Has(k drills.Kind) error {
	if k == drills.OwnLine {
		if len(c.config.Own) == 0 {
			return fmt.Errorf("%w: no lines of your own were given", drills.ErrNothing)
		}
		return nil
	}
	_, err := c.generator(0).Generate(k, nil, c.config.Seed)
	return err
}

func (c *Course) symbols(ids []int) []board.Symbol {
	out := make([]board.Symbol, len(ids))
	for i, id := range ids {
		out[i] = c.strokes.all[id].Symbol
	}
	return out
}

// kindOf names what a woven sequence of symbols is.
func kindOf(e scheduler.Exercise, symbols []board.Symbol) drills.Kind {
	is := func(f func(board.Symbol) bool) bool {
		return len(symbols) > 0 && !slices.ContainsFunc(symbols, func(s board.Symbol) bool { return !f(s) })
	}
	chord := func(s board.Symbol) bool { _, _, ok := s.Chord(); return ok }
	text := func(s board.Symbol) bool { _, ok := s.Rune(); return ok }
	switch {
	case e.Block == scheduler.Probe:
		return drills.Probe
	case e.Block == scheduler.Switching:
		return drills.Switch
	case e.Line >= 0:
		return drills.Line
	case is(chord):
		return drills.Chord
	case is(func(s board.Symbol) bool { return !drills.Received(s) }):
		return drills.Unseen
	case is(func(s board.Symbol) bool { return !text(s) && !chord(s) }):
		return drills.Navigation
	case e.Unmet:
		return drills.Position
	}
	return drills.Token
}
