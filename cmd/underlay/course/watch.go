package course

import (
	"encoding"

	"underlay/scheduler"
	"underlay/scheduler/journal"
)

// Watch counts the journal beside the skill model, for what practice does not
// need: progress. What it counted is kept in the same cache.
type Watch interface {
	// Start drops all that was counted. The strokes of c are as they will be; its
	// model has learned from no drill that Drill has not been told, or
	// UnmarshalBinary follows.
	Start(c *Course)
	// Drill is told every drill, in the order of the journal, before the
	// model learns from it.
	Drill(d journal.Drill)
	encoding.BinaryMarshaler
	encoding.BinaryUnmarshaler
}

// Strokes is the number of ids.
func (c *Course) Strokes() int { return len(c.strokes.all) }

// Features returns what the scheduler knows of an id.
func (c *Course) Features(id int) scheduler.Stroke { return c.strokes.features[id] }

// BoardOf returns the index of the board that a drill was typed on.
func (c *Course) BoardOf(d journal.Drill) (int, bool) {
	b := c.boardOf(d)
	return b, b >= 0
}

// Find returns the id of a stroke as a journal names it, which the board may
// have had before and not now.
func (c *Course) Find(b int, symbol, stroke string) (int, bool) {
	id, ok := c.strokes.spelled[spelled{b, symbol, stroke}]
	return id, ok
}
