package drills

import (
	"errors"

	"underlay/drills/board"
)

// ErrNothing is returned where a board and a mix give nothing to drill of a
// kind: no key without a symbol for Unseen, for example.
var ErrNothing = errors.New("nothing to drill")

// Options narrow what a Generator may ask for.
type Options struct {
	Keeps []board.Symbol // symbols that the desktop or the terminal keeps for itself
}
