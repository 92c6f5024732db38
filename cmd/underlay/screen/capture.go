package screen

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"time"

	"github.com/gdamore/tcell/v2"

	"underlay/cmd/underlay/capture"
)

// CaptureHost does what the capture of a board asks for.
type CaptureHost interface {
	// Keep stores a state to go on from; nil forgets it.
	Keep(state []byte) error
	// Save writes a board file. Without Over, a file that is there stays, and
	// the error is an fs.ErrExist.
	Save(capture.Save) error
}

// ErrStopped says that a signal ended a capture; its state has been kept.
var ErrStopped = errors.New("stopped by a signal")

// RunCapture shows the capture of a board until it is left, and gives the
// terminal back as it was. What could not be kept is told by the error.
func RunCapture(c *capture.Capture, h CaptureHost, o Options) error {
	// What opens and closes the terminal is the same as for a sitting.
	l, err := newLoop(nil, nil, o)
	if err != nil {
		return err
	}
	defer l.close()
	r := &capturing{loop: l, capture: c, host: h}
	return r.run()
}

// capturing is the loop of a capture.
type capturing struct {
	*loop
	capture *capture.Capture
	host    CaptureHost
	kept    error // the last failure to keep the state
}

func (r *capturing) run() error {
	r.take(capture.Tick{At: r.now()})
	alarm := time.NewTimer(time.Hour)
	defer alarm.Stop()
	for !r.left {
		r.show()
		if at := r.capture.Wake(); at.IsZero() {
			alarm.Stop()
		} else {
			alarm.Reset(max(0, at.Sub(r.now())))
		}
		select {
		case ev := <-r.events:
			r.event(ev)
		case <-alarm.C:
			r.take(capture.Tick{At: r.now()})
		case <-r.signals:
			r.left = true
			r.kept = cmp.Or(r.kept, ErrStopped)
		}
	}
	return r.kept
}

func (r *capturing) event(ev tcell.Event) {
	switch ev := ev.(type) {
	case *tcell.EventKey:
		if k, ok := r.keys.key(ev); ok && !r.pasting {
			r.take(capture.Key{Symbol: k.Symbol, At: r.onClock(k.At)})
		}
	case *tcell.EventPaste:
		r.pasting = ev.Start()
	case *tcell.EventResize:
		r.repaint = true
	case *tcell.EventError:
		r.left = true
	}
}

// take gives the capture an event and carries out what it asks for.
func (r *capturing) take(e capture.Event) {
	for _, effect := range r.capture.Update(e) {
		switch effect := effect.(type) {
		case capture.Leave:
			r.left = true
		case capture.Keep:
			if r.kept = r.host.Keep(effect.State); r.kept != nil {
				r.kept = fmt.Errorf("keeping the capture: %w", r.kept)
			}
		case capture.Save:
			err := r.host.Save(effect)
			if errors.Is(err, fs.ErrExist) && !effect.Over {
				r.take(capture.Exists{})
			} else {
				r.take(capture.Saved{Err: err})
			}
		}
	}
}

func (r *capturing) show() {
	if r.left {
		return
	}
	w, h := r.screen.Size()
	r.sheet.resize(w, h)
	r.sheet.clear()
	drawCapture(&r.sheet, r.capture.View(), r.theme.plainText)
	r.flush()
}
