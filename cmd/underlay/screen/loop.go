package screen

import (
	"fmt"
	"os"
	"runtime/debug"
	"time"

	"github.com/gdamore/tcell/v2"

	"underlay/cmd/underlay/session"
)

// loop is the only place with goroutines: those inside tcell read the
// terminal, one carries out effects.
type loop struct {
	model   *session.Model
	screen  tcell.Screen
	keys    keys
	now     func() time.Time
	options Options
	painter

	events  <-chan tcell.Event
	jobs    chan session.Effect
	results chan any
	signals <-chan os.Signal
	left    bool
	pasting bool
	pasted  int
}

func newLoop(m *session.Model, h Host, o Options) (*loop, error) {
	if o.Env == nil {
		o.Env = os.Getenv
	}
	now := o.Now
	if now == nil {
		now = time.Now
	}
	s, read := o.Screen, (*reading)(nil)
	if s == nil {
		var err error
		if s, read, err = openTerminal(); err != nil {
			return nil, fmt.Errorf("opening the terminal: %w", err)
		}
	}
	if err := s.Init(); err != nil {
		return nil, fmt.Errorf("opening the terminal: %w", err)
	}
	s.EnablePaste()
	s.EnableFocus()
	l := &loop{model: m, screen: s, keys: keys{read: read}, now: now, options: o, signals: o.Signals,
		events: eventsOf(s), jobs: make(chan session.Effect, 16), results: make(chan any, 16)}
	l.painter = newPainter(s, newTheme(o, s.Colors()))
	go carryOut(h, now, l.jobs, l.results)
	return l, nil
}

// eventsOf returns the events of a screen: those that tcell's screens queue
// themselves, which spares a goroutine between every key and its answer.
func eventsOf(s tcell.Screen) <-chan tcell.Event {
	if q, ok := s.(interface{ EventQ() chan tcell.Event }); ok {
		return q.EventQ()
	}
	events := make(chan tcell.Event, 64)
	go s.ChannelEvents(events, nil)
	return events
}

// carryOut performs the effects that take time, one after the other. A panic
// of the host goes to the loop, which gives the terminal back first.
func carryOut(h Host, now func() time.Time, jobs <-chan session.Effect, results chan<- any) {
	defer close(results)
	defer func() {
		if r := recover(); r != nil {
			results <- crash{r, debug.Stack()}
		}
	}()
	for job := range jobs {
		switch e := job.(type) {
		case session.Record:
			err := h.Record(e)
			results <- session.Saved{Err: err, At: now()}
		case session.Report:
			r := h.Report(e.Width)
			r.At = now()
			results <- r
		case session.Configure:
			c := h.Configure(e)
			c.At = now()
			results <- c
		}
	}
}

// crash is a panic in another goroutine.
type crash struct {
	value any
	stack []byte
}

// result handles what carryOut reports.
func (l *loop) result(r any) {
	switch r := r.(type) {
	case session.Configured:
		l.update(r)
		l.colour(r.Settings.Colours)
	case session.Event:
		l.update(r)
	case crash:
		panic(fmt.Sprintf("%v\n%s", r.value, r.stack))
	}
}

// close gives the terminal back. It waits for what is being saved.
func (l *loop) close() {
	l.screen.Fini()
	close(l.jobs)
	for range l.results {
	}
}

// run handles events until the sitting is left.
func (l *loop) run() error {
	l.fit()
	l.draw()
	alarm := time.NewTimer(time.Hour)
	defer alarm.Stop()
	for !l.left {
		l.arm(alarm)
		select {
		case ev := <-l.events:
			l.handle(ev)
		case r := <-l.results:
			l.result(r)
		case <-alarm.C:
			l.update(session.Tick{At: l.now()})
		case <-l.signals:
			l.update(session.Stop{At: l.now()})
		}
		l.drain()
		l.draw()
	}
	return nil
}

// arm sets the alarm to when the model wants a tick.
func (l *loop) arm(alarm *time.Timer) {
	at := l.model.Wake()
	if at.IsZero() {
		alarm.Stop()
		return
	}
	alarm.Reset(max(0, at.Sub(l.now())))
}

// colour takes other colours into use.
func (l *loop) colour(colours string) {
	if colours == l.options.Colours {
		return
	}
	l.options.Colours = colours
	l.theme = newTheme(l.options, l.screen.Colors())
	l.repaint = true
}

// drain handles what is queued, so that several events cost one drawing.
func (l *loop) drain() {
	for !l.left {
		select {
		case ev := <-l.events:
			l.handle(ev)
		case r := <-l.results:
			l.result(r)
		default:
			return
		}
	}
}

// handle translates an event of the terminal.
func (l *loop) handle(ev tcell.Event) {
	switch ev := ev.(type) {
	case *tcell.EventKey:
		l.key(ev)
	case *tcell.EventPaste:
		l.pasting = ev.Start()
		if ev.End() {
			l.update(session.Paste{Runes: l.pasted, At: l.onClock(ev.When())})
			l.pasted = 0
		}
	case *tcell.EventFocus:
		l.update(session.Focus{In: ev.Focused, At: l.onClock(ev.When())})
	case *tcell.EventResize:
		l.fit()
		l.repaint = true
	case *tcell.EventError:
		l.update(session.Stop{At: l.now()})
	}
}

// key gives the model a key, unless it is part of a paste. Control+c by itself
// leaves at any time.
func (l *loop) key(ev *tcell.EventKey) {
	if l.pasting {
		l.pasted++
		return
	}
	if n, ok := l.keys.read.pasted(); ok && (n > 1 || ev.Key() != tcell.KeyCtrlC) {
		l.update(session.Paste{Runes: n, At: l.onClock(ev.When())})
		return
	}
	if k, ok := l.keys.key(ev); ok {
		k.At = l.onClock(k.At)
		l.update(k)
	}
}

// onClock takes a time that tcell gave to the clock of the options.
func (l *loop) onClock(at time.Time) time.Time {
	if l.options.Now == nil {
		return at
	}
	return l.now().Add(-time.Since(at))
}

// fit tells the model whether the window is large enough.
func (l *loop) fit() {
	w, h := l.screen.Size()
	l.update(session.Fits{OK: fits(w, h), Width: w, At: l.now()})
}

// update gives the model an event and carries out what it asks for.
func (l *loop) update(e session.Event) {
	for _, effect := range l.model.Update(e) {
		switch effect.(type) {
		case session.Leave:
			l.left = true
		case session.Suspend:
			l.suspend()
		case session.Redraw:
			l.repaint = true
		default:
			l.jobs <- effect
		}
	}
}

// draw shows the model as it is now.
func (l *loop) draw() {
	if !l.left {
		l.paint(l.model.View())
	}
}

// suspend gives the terminal back, stops the program and takes it again.
func (l *loop) suspend() {
	if err := l.screen.Suspend(); err != nil {
		return
	}
	stopSelf()
	if err := l.screen.Resume(); err != nil {
		l.left = true
		return
	}
	l.repaint = true
	l.update(session.Resumed{At: l.now()})
}
