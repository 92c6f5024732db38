package session

import (
	"underlay/drills/board"
	"underlay/scheduler/journal"
)

// Effect is something to be done outside.
type Effect interface{ effect() }

// Record asks for a drill to be put on the journal. It is answered with
// [Saved]; one is under way at a time.
type Record struct {
	Drill journal.Drill
	Board *board.Board // that it was typed on; the sitting may be on others by now
}

// Report asks how far the person is, in lines of at most Width cells. It is
// answered with [Reported].
type Report struct{ Width int }

// Configure asks for settings to be written and used. It is answered with
// [Configured].
type Configure struct {
	Settings Settings
	First    bool   // the boards were chosen at a first start: they are written in any case
	Layout   string // what the computer is set to, where that was asked then
}

// Suspend asks for the program to be stopped, as job control does. It is
// answered with [Resumed].
type Suspend struct{}

// Redraw asks for all of the screen to be drawn anew.
type Redraw struct{}

// Leave ends the sitting. All that was recorded has been saved, or the person
// was told that it was not.
type Leave struct{}

func (Record) effect()    {}
func (Report) effect()    {}
func (Configure) effect() {}
func (Suspend) effect()   {}
func (Redraw) effect()    {}
func (Leave) effect()     {}

// Settings are what a person can change from within a sitting.
type Settings struct {
	Minutes int      // length of a sitting, 1 to 120
	Boards  []string // the one being learned, and perhaps the other
	Mix     []Weight // what the work is made of
	Aim     string   // speed, coverage
	Colours string   // auto, dark, light, none
	Wrong   string   // wait, as-at-work, auto
	Keeps   []string // keys that never arrive

	// What there is to choose from; not written.
	AllBoards []Choice `json:"-"`
	AllTables []string `json:"-"`
}

// Weight is the share of a table in the mix.
type Weight struct {
	Table string
	Share float64
}

// Choice is a board to choose, by name, with its title.
type Choice struct {
	Name, Title string
	Shape       string // "38 keys", where that is asked for
	Set         bool   // it says what the computer is set to
}
