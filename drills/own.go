package drills

import (
	"io"

	"underlay/drills/board"
)

// Own makes drills from lines of the user's own file, read from r to its end.
// Indentation and control characters are left out, long lines are cut between
// words, and what the board cannot type is skipped. Nothing is kept but the
// drills returned.
func Own(r io.Reader, b *board.Board, o Options) ([]Drill, error) { return nil, nil }
