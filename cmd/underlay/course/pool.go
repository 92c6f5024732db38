package course

import (
	"underlay/drills"
	"underlay/scheduler"
)

// How many lines the pool has, and how many drills besides, in which strokes
// stand that lines have seldom or never.
const (
	linesInPool   = 160
	motionsInPool = 16
	numbersInPool = 10
	shellInPool   = 10
)

// newPool makes what the scheduler chooses lines from: lines of the mix and
// of the user's own, and some drills of other kinds in which strokes follow each other
// as they do at work. The lines of the mix come first.
func (c *Course) newPool() []drills.Drill {
	pool := append(c.generator(0).Pool(linesInPool, c.config.Seed), c.config.Own...)
	pool = c.add(pool, drills.Motion, motionsInPool)
	pool = c.add(pool, drills.Number, numbersInPool)
	if c.inMix("shell") {
		pool = c.add(pool, drills.Shell, shellInPool)
	}
	return pool
}

// inMix tells whether the work is made of a language, among others.
func (c *Course) inMix(language string) bool {
	for _, p := range c.mix.Leaves() {
		if p.Table.Language == language {
			return true
		}
	}
	return false
}

// add adds drills of a kind to the pool, as far as all their strokes are asked for.
func (c *Course) add(pool []drills.Drill, k drills.Kind, n int) []drills.Drill {
	for i := range n {
		d, err := c.generator(0).Generate(k, nil, c.config.Seed+uint64(i))
		if err != nil {
			return pool // the board or the mix has nothing of the kind
		}
		if c.known(d) {
			pool = append(pool, d)
		}
	}
	return pool
}

func (c *Course) known(d drills.Drill) bool {
	for _, k := range d.Keys {
		if id, ok := c.ID(0, k.Symbol); !ok || c.strokes.features[id].Retired {
			return false
		}
	}
	return true
}

// lines returns the pool as ids of the board being learned. A line with a
// symbol that is never asked for is left empty: the scheduler passes over it.
func (c *Course) lines() [][]int {
	out := make([][]int, len(c.pool))
	for i, d := range c.pool {
		if !c.known(d) {
			continue
		}
		for _, k := range d.Keys {
			id, _ := c.ID(0, k.Symbol)
			out[i] = append(out[i], id)
		}
	}
	return out
}

// measure makes a line for measuring. What was typed on the other board is
// asked for on the one being learned as well, so that the two can be
// compared. Lines of the user's own are not taken for it: the journal does not keep
// their text, by which equal lines are known.
func (c *Course) measure(e scheduler.Exercise) drills.Drill {
	n := e.Line
	if c.pool[n].Kind != drills.Line {
		n = int((c.config.Seed + c.drawn) % linesInPool)
	}
	if e.Board == 0 && len(c.probed) > 0 {
		n, c.probed = c.probed[0], c.probed[1:]
	}
	if n >= len(c.pool) || c.pool[n].Kind != drills.Line {
		return c.pool[e.Line] // the mix has no lines
	}
	d := c.pool[n]
	if e.Board != 0 {
		c.probed = append(c.probed, n)
		d = c.generator(e.Board).Render(drills.Line, d.Symbols())
		d.Language = c.pool[n].Language
	}
	d.Kind = drills.Probe
	return d
}
