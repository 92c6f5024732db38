//go:build !unix

package screen

import (
	"sync/atomic"

	"github.com/gdamore/tcell/v2"
)

// openTerminal returns the terminal of the process; when bytes come from it is
// not known.
func openTerminal() (tcell.Screen, *atomic.Int64, error) {
	s, err := tcell.NewScreen()
	return s, nil, err
}
