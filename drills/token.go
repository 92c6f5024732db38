package drills

import (
	"math/rand/v2"

	"underlay/drills/board"
)

// strokes is how many strokes a drill of single strokes or short groups has.
const strokes = 20

// position makes a drill of single strokes, kept apart.
func (g *Generator) position(plan []want, rng *rand.Rand) Drill {
	if len(plan) == 0 {
		plan = g.plan(g.shares)
	}
	symbols := keepApart(apportion(plan, strokes, rng), rng)
	return gaps(g.drill(Position, symbols, false), func(int) bool { return true })
}

// gaps sets the gaps of a drill: before each cell of which before tells so.
func gaps(d Drill, before func(i int) bool) Drill {
	for i := range d.Prompt {
		d.Prompt[i].Gap = i > 0 && before(i)
	}
	return d
}

var _ board.Symbol
