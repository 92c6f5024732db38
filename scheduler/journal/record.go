package journal

import "time"

// Record is one line of a journal: a Header, Board, Drill, Strike or Other.
type Record interface {
	// When tells the record's time; zero where it has none.
	When() time.Time
}

// Header says how the lines after it are to be read. It is the first line of
// every file.
type Header struct {
	At      time.Time
	Version int    // of the format, see Version
	Machine string // who writes this file, see Machine
}

// Board keeps a board file, the first time that a file of the journal meets
// its hash, so that history can be read after the board has changed.
type Board struct {
	At     time.Time
	Name   string // as in the board file
	Hash   string // of the board's content, as the drills name it
	Source string // the board file, UTF-8
}

// Drill is one thing that was typed.
type Drill struct {
	At        time.Time // when its first key could be pressed, with the zone of the place
	Session   string    // the same for all drills of one sitting, and for no others
	Board     string    // name of the board
	Hash      string    // its content
	Kind      string    // of drill
	Block     string    // of the session that it stood in; may be empty
	Language  string    // of code; may be empty
	Treatment string    // of wrong keys
	// Unordered says that Keys are sorted and do not stand in the order in
	// which they were typed, so that the text cannot be put together again.
	Unordered bool
	Keys      []Key
}

// Key is one stroke that was asked for, and what came.
type Key struct {
	Symbol string  // what was asked for
	Stroke string  // how it is typed: the board's stroke as text
	Got    string  // the wrong symbol that came, "Unidentified" if it has none; empty: the right one
	Slip   string  // kind of the slip; empty: none
	MS     float64 // latency of the first try in ms; written to 0.1 ms
	Lost   float64 // ms until the next key was asked for that are no latency: repair, pauses
	Flags  Flags
}

// Wrong tells whether another symbol came than the one asked for.
func (k Key) Wrong() bool { return k.Got != "" }

// Flags tell what a key's latency depends on, apart from skill.
type Flags uint16

// The bits are part of the format.
const (
	First       Flags = 1 << iota // the first of a line
	AfterSlip                     // the key before it was wrong
	Helped                        // the underlay showed it
	Paused                        // somebody looked away: its latency says nothing
	Switch                        // the key before it was on another layer
	SameFinger                    // the finger before it was the same, on another key
	Repair                        // it repaired what was wrong before it
	BoardSwitch                   // the first since another board was typed on
)

// Has tells whether all of the given flags are set.
func (f Flags) Has(g Flags) bool { return f&g == g }

// Strike takes a session out of the history, because somebody else typed it
// or it was no practice, or puts it back.
type Strike struct {
	At      time.Time
	Session string
	Undo    bool // the session counts again
}

// Other is a record of a kind that this version does not know. It stays in the
// file and means nothing here.
type Other struct {
	Kind string
	JSON string
}

func (h Header) When() time.Time { return h.At }
func (b Board) When() time.Time  { return b.At }
func (d Drill) When() time.Time  { return d.At }
func (s Strike) When() time.Time { return s.At }
func (Other) When() time.Time    { return time.Time{} }

// End tells when key i was pressed, repair not included. It is not meant for
// an unordered drill.
func (d Drill) End(i int) time.Time {
	var ms float64
	for _, k := range d.Keys[:i] {
		ms += k.MS + k.Lost
	}
	ms += d.Keys[i].MS
	return d.At.Add(time.Duration(ms * float64(time.Millisecond)))
}
