package standing

import (
	"errors"

	"underlay/scheduler/journal"
)

// Tally counts the journal. It takes drills in the journal's order, each before
// the model learns from it, so that it can note at the end of a day where the
// model stood.
type Tally struct {
	find  Find
	model Model
}

// Find names what the journal's words stand for: the board's index and the id
// of a key's stroke. ok is false for a board or a stroke that is none of ours;
// the drill or the key is passed over.
type Find interface {
	Board(d journal.Drill) (index int, ok bool)
	Stroke(index int, k journal.Key) (id int, ok bool)
}

// NewTally returns an empty tally.
func NewTally(find Find, model Model) *Tally { return &Tally{find: find, model: model} }

// Add counts a drill. The model must not have learned from it yet.
func (t *Tally) Add(d journal.Drill) {}

// Finish notes where the model stands after the last drill.
func (t *Tally) Finish() {}

// MarshalBinary returns what was counted, for a cache.
func (t *Tally) MarshalBinary() ([]byte, error) { return nil, nil }

// UnmarshalBinary takes up what MarshalBinary returned.
func (t *Tally) UnmarshalBinary([]byte) error { return errors.New("standing: no tally") }
