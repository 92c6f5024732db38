//go:build unix

package screen

import (
	"os"
	"sync/atomic"
	"time"

	"github.com/gdamore/tcell/v2"
)

// openTerminal returns the terminal of the process, and when bytes last came
// from it (Unix time in ns).
func openTerminal() (tcell.Screen, *atomic.Int64, error) {
	known, err := tcell.LookupTerminfo(os.Getenv("TERM"))
	if err != nil {
		return nil, nil, err
	}
	info := *known
	info.PadChar = "" // or tcell sleeps where a VT100 on a serial line had to be waited for
	tty, err := tcell.NewDevTty()
	if err != nil {
		return nil, nil, err
	}
	stamped := &stampedTty{Tty: tty}
	s, err := tcell.NewTerminfoScreenFromTtyTerminfo(stamped, &info)
	return s, &stamped.read, err
}

// stampedTty notes when bytes come.
type stampedTty struct {
	tcell.Tty
	read atomic.Int64
}

func (t *stampedTty) Read(b []byte) (int, error) {
	n, err := t.Tty.Read(b)
	if n > 0 {
		t.read.Store(time.Now().UnixNano())
	}
	return n, err
}
