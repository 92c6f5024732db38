package board

// inspect adds findings that need the strokes.
func (r *reader) inspect() {}
