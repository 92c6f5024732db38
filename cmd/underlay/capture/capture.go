// Package capture describes a board by pressing its keys. A Capture is a state
// machine without terminal, clock or files: events go in, effects come out, and
// View says what to show.
//
// The keys are lit one after the other, layer by layer, and what the terminal
// receives is written down. A key that sends nothing, such as one that is held
// for a layer, is told by typing: after a moment without a key a line opens for
// it. That works on any board, since nothing but typing is needed, and nothing
// runs on while the person looks away. The words of that line:
//
//	Shift, marks:hold, <pair-1> …   what the key does, as a board file has it
//	(nothing)                       the key does nothing
//	back                            the key before once more; so does Backspace
//	rest                            all other keys of the layer do nothing of their own
//	leave                           stop here, to go on another time
package capture

import (
	"slices"
	"time"

	"underlay/drills/board"
)

// Moment is how long nothing has to arrive before the line opens in which a
// silent key is told; Reading is that for the first key of a layer, since the
// person looks at the screen then.
const (
	Moment  = 3 * time.Second
	Reading = 10 * time.Second
)

// Patience is how long a line with a sensible answer has to rest before it is
// taken without Enter, for boards on which Enter is not found yet.
const Patience = 8 * time.Second

// Surprise is for how long after the line has opened a key is still the lit
// one's: it was on its way.
const Surprise = 600 * time.Millisecond

// Event is something that happens to a Capture: Key, Tick, Saved or Exists.
type Event interface{ event() }

// Key says that the terminal received a symbol.
type Key struct {
	Symbol board.Symbol
	At     time.Time
}

// Tick says that time has passed; one is wanted at [Capture.Wake].
type Tick struct{ At time.Time }

// Saved answers a Save; Err is nil when the file is there.
type Saved struct{ Err error }

// Exists answers a Save that would have written over a file.
type Exists struct{}

func (Key) event()    {}
func (Tick) event()   {}
func (Saved) event()  {}
func (Exists) event() {}

// Effect is something to be done outside.
type Effect interface{ effect() }

// Keep asks for the state to be stored, so that Resume can go on from it. It is
// nil when there is nothing left to go on with.
type Keep struct{ State []byte }

// Save asks for a board file to be written. Without Over it is not written over
// one that is there, but answered with Exists.
type Save struct {
	Name   string
	Source []byte
	Over   bool
}

// Leave ends the capture.
type Leave struct{}

func (Keep) effect()  {}
func (Save) effect()  {}
func (Leave) effect() {}

// Stage is how far a capture is.
type Stage string

const (
	Shape    Stage = "shape"    // which keys there are
	Naming   Stage = "name"     // what the board is called
	Setting  Stage = "layout"   // what the computer is set to
	Pressing Stage = "pressing" // each lit key is pressed
	Holding  Stage = "holding"  // keys that do something else when held
	Joining  Stage = "joining"  // layers reached while others are held
	Review   Stage = "review"   // the file is shown
	Over     Stage = "over"     // there is a file of that name
	Finished Stage = "finished" // it is saved
)

// Capture is a board being described. Make one with New or Resume.
type Capture struct {
	state
	blank  *board.Board // the shape, once it is known
	keys   []board.Key  // of blank
	line   line
	open   bool      // the line is open while keys are pressed
	last   time.Time // when the last key came
	opened time.Time // when the line opened by itself
	note   string
	wrong  string // what is wrong with the line that was entered
	choice int    // the shape pointed at
	hold   int    // the key whose held meaning is being told; -1 for none
	scroll int    // lines of the review that are passed
	left   bool
	titles map[string]string // of the embedded boards, once they are shown
}

// state is what is kept between sittings.
type state struct {
	Version int
	Stage   Stage
	Name    string
	Layout  string
	Frame   frame
	Layers  []layer
	Layer   int // which one is being pressed
	At      int // the key that is lit
}

// layer has an entry for each key; "" is not pressed yet.
type layer struct {
	Name    string
	When    []string `json:",omitempty"`
	Entries []string
}

// New begins a capture.
func New() *Capture {
	return &Capture{state: state{Version: 1, Stage: Shape, Layout: "us"}, hold: -1}
}

// Update takes an event and returns what is to be done.
func (c *Capture) Update(e Event) []Effect {
	switch e := e.(type) {
	case Tick:
		return c.tick(e.At)
	case Key:
		c.last = e.At
		if c.open && c.line.text == "" && e.At.Sub(c.opened) < Surprise {
			c.open = false
		}
		return c.key(e.Symbol)
	case Saved:
		return c.saved(e.Err)
	case Exists:
		c.Stage, c.line = Over, line{}
		c.note = "there is a board named " + c.Name + " already"
	}
	return nil
}

// Wake is when a Tick is wanted, or the zero time.
func (c *Capture) Wake() time.Time {
	switch {
	case c.last.IsZero() || c.left:
		return time.Time{}
	case c.Stage == Pressing && !c.open && c.fresh():
		return c.last.Add(Reading)
	case c.Stage == Pressing && !c.open:
		return c.last.Add(Moment)
	case c.Stage == Pressing && c.line.text != "":
		return c.last.Add(Patience)
	}
	return time.Time{}
}

// fresh tells whether no key of the layer has been pressed yet.
func (c *Capture) fresh() bool {
	return !slices.ContainsFunc(c.Layers[c.Layer].Entries, func(e string) bool { return e != "" && e != "--" })
}

func (c *Capture) tick(now time.Time) []Effect {
	if c.last.IsZero() {
		c.last = now
		return nil
	}
	wake := c.Wake()
	if wake.IsZero() || now.Before(wake) {
		return nil
	}
	if !c.open {
		c.open, c.opened, c.line, c.wrong = true, now, line{}, ""
		return nil
	}
	if sensible(c.line.text) {
		c.last = now
		return c.enter()
	}
	return nil
}

// key takes a symbol: for the lit key while the line is closed, else for the line.
func (c *Capture) key(s board.Symbol) []Effect {
	if c.Stage == Pressing && !c.open {
		return c.pressed(s)
	}
	if s == "Control+c" {
		return c.leave()
	}
	c.wrong = ""
	switch {
	case s == board.Enter || s == "Control+m":
		return c.enter()
	case s == board.Backspace && c.line.text == "":
		return c.back()
	case c.Stage == Shape && (s == board.ArrowDown || s == board.ArrowUp || s == board.Tab):
		c.point(s)
	case c.Stage == Review && c.scrolls(s):
	case c.Stage == Pressing && c.line.text == "" && !s.IsCharacter() && s != board.Space && s != board.Backspace:
		return c.pressed(s) // slow, but it is the lit key
	case c.Stage == Holding && c.line.text == "" && !s.IsCharacter() && s != board.Space:
		c.line.add(string(s)) // pressed instead of being named
	default:
		c.line.edit(s)
	}
	return nil
}

// enter takes the line.
func (c *Capture) enter() []Effect {
	text := c.line.text
	c.line, c.wrong, c.note = line{}, "", ""
	if text == "leave" {
		return c.leave()
	}
	if text == "back" {
		return c.back()
	}
	switch c.Stage {
	case Shape:
		c.choose(text)
	case Naming:
		c.named(text)
	case Setting:
		c.set(text)
	case Pressing:
		return c.told(text)
	case Holding:
		c.held(text)
	case Joining:
		c.joined(text)
	case Review:
		return c.reviewed(text)
	case Over:
		return c.over(text)
	case Finished:
		return c.leave()
	}
	return []Effect{c.keep()}
}

func (c *Capture) leave() []Effect {
	c.left = true
	if c.Stage == Finished || c.Stage == Shape {
		return []Effect{Keep{}, Leave{}}
	}
	return []Effect{c.keep(), Leave{}}
}

// advance goes on to the layers that have keys to press, then to the questions
// after them.
func (c *Capture) advance() {
	c.open = false
	if c.Layer == 0 && c.Stage == Pressing {
		c.Stage, c.hold, c.line = Holding, -1, line{}
		return
	}
	for i, l := range c.Layers {
		if k := slices.Index(l.Entries, ""); k >= 0 {
			c.Stage, c.Layer, c.At = Pressing, i, k
			c.skipHeld()
			return
		}
	}
	if c.Stage == Pressing || c.Stage == Holding {
		c.Stage = Joining
		if len(c.Layers) < 3 {
			c.Stage = Review
		}
		return
	}
	c.Stage = Review
}
