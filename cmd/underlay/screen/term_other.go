//go:build !unix

package screen

import "github.com/gdamore/tcell/v2"

// openTerminal returns the terminal of the process; how bytes come from it is
// not known.
func openTerminal() (tcell.Screen, *reading, error) {
	s, err := tcell.NewScreen()
	return s, nil, err
}
