package session

import (
	"time"

	"underlay/drills/board"
	"underlay/scheduler"
)

// View is what there is to show, as plain values: enough for a picture and for
// words alone. Exactly one of the pointers is set. It shares memory with the
// Model and holds until its next Update.
type View struct {
	Title string // where we are
	Aside string // to the right of the title: the board, the time left

	Today *TodayView
	Drill *DrillView
	Rest  *RestView
	Map   *MapView
	Find  *FindView
	List  *ListView
	Page  *PageView

	Notice Notice // one line that wants to be read
	Keys   []Hint // what keys do here
	Places []Hint // keys that lead to another place, told on a line of their own
	Early  bool   // keys are not taken yet, so they are not told, but their lines stay free
}

// Notice is a line told besides what is shown. The zero Notice says nothing.
type Notice struct {
	Text   string
	Urgent bool
}

// Hint says what a key does.
type Hint struct{ Key, Does string }

// TodayView is the plan.
type TodayView struct {
	Board   *board.Board
	Other   *board.Board // or nil
	Plan    Plan
	Past    Past
	Caution []string // the usual cautions at the first start; that it was enough for a day
}

// DrillView is a drill under way, paused or waited for.
type DrillView struct {
	Block  scheduler.BlockKind
	Left   time.Duration
	Prompt []Cell
	Typed  []Cell
	Cursor int // index in Prompt of what is asked for; len(Prompt) at the end
	Target Target
	Layer  string // the layer that the picture shows
	Keys   []Cap  // the picture, in the order of Board.Keys; nil where none is shown
	Board  *board.Board
	Note   string   // what a motion does
	Slip   string   // what went wrong last
	Over   []string // what lies over the drill: a pause, a question; or nil
}

// Cell is one symbol of a prompt or of what was typed.
type Cell struct {
	Text  string // as it is to be drawn; a blank is an open box
	Named bool   // a key or chord by its name, to be set apart
	Gap   bool   // a gap for the eye before it
	Break bool   // a new line begins with it
	Wrong bool
	Blank bool // stands for white space
}

// Target is the stroke that is asked for.
type Target struct {
	Symbol board.Symbol
	Label  string // the symbol as a person reads it: "=", "space", "l (letter)"
	Words  string // the stroke in words, or "" where it is not told yet
}

// Cap is what to draw on one key.
type Cap struct {
	Text string // short form of the legend, "" for nothing
	Mark Mark
	Bar  string // Map: a figure or sign below the legend
}

// Mark says how a key stands out.
type Mark int8

// The marks of a key.
const (
	Dim    Mark = iota // a legend of the layer
	Off                // the legend is left off
	Lit                // a legend to be seen: not met before
	Here               // the key to press
	Hold               // a key to hold
	Never              // a key not to press in vain
	Unseen             // does something no computer sees
)

// RestView is the account of a sitting.
type RestView struct {
	Board   *board.Board
	Length  time.Duration
	Between bool     // a rest between two blocks
	Next    []string // what comes next, between blocks
	Gains   Gains
	Strokes int
	Slips   []SlipCount // most frequent first
	Today   time.Duration
	Week    time.Duration
	Unsaved int
	Care    []string
}

// SlipCount says how often a kind of slip came.
type SlipCount struct {
	Kind    string
	N       int
	Symbols []board.Symbol // that it happened with most, at most three
}

// MapView is one layer of a board with the states of its strokes.
type MapView struct {
	Board  *board.Board
	Layers []string
	Layer  int
	Keys   []Cap
	Counts []Count
}

// FindView says where a symbol is.
type FindView struct {
	Query string
	Found []Found
	At    int
	Board *board.Board
	Layer string
	Keys  []Cap
}

// Found is a symbol and where it is on one board.
type Found struct {
	Symbol board.Symbol
	Label  string
	Board  string
	Words  string
}

// ListView is a list to choose from: the picker, Boards, Settings.
type ListView struct {
	Query string // what was typed to narrow the list
	Typed bool   // a query can be typed
	Items []Item
	At    int
	Foot  []string
}

// Item is one line of a list.
type Item struct {
	Name, Value, About string
	Marked             bool
}

// PageView is text.
type PageView struct {
	Lines []string
	Top   int // first line to show
}
