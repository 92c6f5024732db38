// Package screen shows a sitting in a terminal. It is the only user of tcell:
// it translates keys, draws views and runs the loop.
package screen

import (
	"os"
	"time"

	"github.com/gdamore/tcell/v2"

	"underlay/cmd/underlay/session"
)

// Host does what a sitting asks for. Its methods are called one at a time, on
// a goroutine of their own, so that a slow disk holds up nobody's typing.
type Host interface {
	// Record puts a drill on the journal and returns when it is safe there.
	Record(session.Record) error
	// Report says how far the person is, in lines of at most width cells. It
	// fills all of the result but the time.
	Report(width int) session.Reported
	// Configure writes settings and returns what is used from then on. It
	// fills all of the result but the time.
	Configure(session.Configure) session.Configured
}

// Options say where and how a sitting is shown. The zero value takes the
// terminal of the process.
type Options struct {
	Colours string              // auto, dark, light or none
	Env     func(string) string // looks up environment variables; nil: os.Getenv
	Signals <-chan os.Signal    // any of them ends the sitting in order
	Screen  tcell.Screen        // not yet initialised; nil: the terminal
	Now     func() time.Time    // nil: time.Now
}

// Run shows a sitting until it is left, and gives the terminal back as it was,
// also while a panic unwinds. What was practised has been recorded then,
// unless an error says otherwise.
func Run(m *session.Model, h Host, o Options) error {
	l, err := newLoop(m, h, o)
	if err != nil {
		return err
	}
	defer l.close()
	return l.run()
}
