package session

import (
	"time"

	"underlay/drills/board"
)

// Options are what a Model needs besides its planner.
type Options struct {
	Session  string // names the sitting in the journal
	Settings Settings
	Now      time.Time
	Notice   string // told at the start, or ""
	Offer    *Offer // what a first start lets the person choose from; nil asks nothing
	Reports  bool   // a Report is answered: there is a place that tells progress
	// Lines says that answers come as whole lines: the times of single keys
	// mean nothing, and who reads or types a line is neither away nor stuck.
	Lines bool
}

// Model is one sitting. It is not safe for concurrent use.
type Model struct {
	planner  Planner
	o        Options
	settings Settings

	now    time.Time // of the latest event
	begun  time.Time // of the first
	fits   bool
	width  int       // of the window, in cells; 0: not known
	deaf   time.Time // until when keys are still meant for what was there before
	places []place   // the last one takes the keys
	effect []Effect
	notice Notice
	view   View

	sitting sitting
	saving  saving
	care    care
	steps   steps
	report  *page // that waits for a Reported, or nil

	configuring configuring
	engravings  [2]*engraving
}

// place is where the sitting is. It takes keys and fills its part of the view.
type place interface {
	key(m *Model, k Key)
	show(m *Model, v *View)
}

// timed is a place at which time matters.
type timed interface {
	tick(m *Model)
	wake(m *Model) time.Time
}

// broken is a place that has to know that the person was away.
type broken interface {
	away(m *Model, why string)
}

// New returns a Model at Today.
func New(p Planner, o Options) *Model {
	m := &Model{planner: p, o: o, settings: o.Settings, now: o.Now, begun: o.Now, fits: true}
	m.notice.Text = o.Notice
	m.care = newCare(p.Past(o.Now), o.Now)
	m.toToday()
	if o.Offer != nil {
		m.toFirstStart(*o.Offer)
	}
	return m
}

// Update takes an event and returns what is to be done. The slice holds until
// the next Update.
func (m *Model) Update(e Event) []Effect {
	m.effect = m.effect[:0]
	switch e := e.(type) {
	case Key:
		m.takeKey(e)
	case Tick:
		m.pass(e.At)
	case Paste:
		m.takePaste(e)
	case Focus:
		m.pass(e.At)
		if !e.In {
			m.goneAway("The window lost the focus. The clock stands still.")
		}
	case Fits:
		m.pass(e.At)
		m.fits, m.width = e.OK, e.Width
		if !e.OK {
			m.goneAway("The window was too small. The clock stands still.")
		}
	case Resumed:
		m.pass(e.At)
		m.goneAway("")
	case Pass:
		m.pass(e.At)
		m.passOver()
	case Stop:
		m.now = e.At
		m.stop()
	case Saved:
		m.saved(e)
	case Reported:
		m.reported(e)
	case Configured:
		m.configured(e)
	}
	return m.effect
}

// Wake returns the time at which a Tick is wanted, or the zero Time.
func (m *Model) Wake() time.Time {
	at := m.saving.retry
	if m.now.Before(m.deaf) && (at.IsZero() || m.deaf.Before(at)) {
		at = m.deaf
	}
	if t, ok := m.place().(timed); ok {
		if w := t.wake(m); !w.IsZero() && (at.IsZero() || w.Before(at)) {
			at = w
		}
	}
	return at
}

// View says what to show.
func (m *Model) View() View {
	m.view = View{Notice: m.notice, Keys: m.view.Keys[:0], Places: m.view.Places[:0]}
	m.place().show(m, &m.view)
	m.view.Early = m.now.Before(m.deaf)
	return m.view
}

func (m *Model) takeKey(k Key) {
	if m.pass(k.At) {
		return // the key that ends a night is no answer
	}
	if !m.fits { // nothing is shown that could be answered
		if k.Symbol == "Control+c" {
			m.leave()
		}
		return
	}
	if k.At.Before(m.deaf) && k.Symbol != "Control+c" {
		return
	}
	if m.saving.failed == nil {
		m.notice = Notice{} // it has been read
	}
	m.place().key(m, k)
}

func (m *Model) takePaste(p Paste) {
	m.pass(p.At)
	m.goneAway("That was a paste, not typing: nothing of it counts.")
}

// overnight is the gap after which a sitting is over.
const overnight = 30 * time.Minute

// pass lets time pass and tells whether so much did that the sitting is over.
func (m *Model) pass(at time.Time) bool {
	gap := max(at.Round(0).Sub(m.now.Round(0)), 0)
	m.now = at
	if gap > overnight && m.sitting.running {
		m.endSitting("That was a long break, so the sitting ended where you left it.")
		return true
	}
	m.tryAgain()
	if t, ok := m.place().(timed); ok {
		t.tick(m)
	}
	return false
}

func (m *Model) goneAway(why string) {
	if b, ok := m.place().(broken); ok {
		b.away(m, why)
	}
}

func (m *Model) do(e Effect) { m.effect = append(m.effect, e) }

func (m *Model) place() place { return m.places[len(m.places)-1] }

// push goes to a place from which back returns.
func (m *Model) push(p place) { m.places = append(m.places, p) }

// back returns to where the present place was entered from.
func (m *Model) back() {
	if len(m.places) > 1 {
		m.places = m.places[:len(m.places)-1]
	}
}

// Surprise is for how long keys are not taken after a place came unasked: they
// were on their way to the drill. What keys do there is told after that.
const Surprise = 400 * time.Millisecond

// interrupt says that the present place came unasked.
func (m *Model) interrupt() { m.deaf = m.now.Add(Surprise) }

// home leaves all places for one.
func (m *Model) home(p place) { m.places = append(m.places[:0], p) }

func (m *Model) say(text string)  { m.notice = Notice{Text: text} }
func (m *Model) warn(text string) { m.notice = Notice{Text: text, Urgent: true} }

// boardAt returns a board of the sitting, or nil.
func (m *Model) boardAt(i int) *board.Board {
	if bs := m.planner.Boards(); i >= 0 && i < len(bs) {
		return bs[i]
	}
	return nil
}

// otherThan returns the board of the sitting that is not board i, or nil.
func (m *Model) otherThan(i int) *board.Board { return m.boardAt(1 - i) }
