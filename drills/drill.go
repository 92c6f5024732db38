package drills

import (
	"strings"

	"underlay/drills/board"
)

// Kind says what a drill is made of.
type Kind string

// The kinds of drill.
const (
	Position   Kind = "position"   // single strokes, kept apart
	Pair       Kind = "pair"       // two strokes that follow each other in the code
	Token      Kind = "token"      // operators, brackets, runs of marks
	Line       Kind = "line"       // a code-like line of one language
	Number     Kind = "number"     // literals, dates, addresses, versions
	Shell      Kind = "shell"      // pipes, redirections, expansions, flags, paths
	Motion     Kind = "motion"     // editor commands as POSIX vi has them
	Chord      Kind = "chord"      // Control and Alt with a key
	Navigation Kind = "navigation" // arrows, Home, End, paging, F-keys
	Switch     Kind = "switch"     // in and out of layers in quick alternation
	Unseen     Kind = "unseen"     // keys that no computer sees
	OwnLine    Kind = "own"        // a line of the user's own files
	Probe      Kind = "probe"      // an unaided line, for measuring
)

// Kinds lists all kinds in a fixed order.
func Kinds() []Kind {
	return []Kind{Position, Pair, Token, Line, Number, Shell, Motion, Chord, Navigation, Switch, Unseen, OwnLine, Probe}
}

// Ask is one stroke that a drill asks for: a symbol and the stroke that is
// meant to produce it.
type Ask struct {
	Symbol board.Symbol
	Stroke board.Stroke
	// Answer is what has to arrive where Symbol is one that no program sees:
	// the symbol of the same position on the base layer. Else it is empty.
	Answer board.Symbol
}

// Arrives returns the symbol that answers the Ask.
func (a Ask) Arrives() board.Symbol {
	if a.Answer != "" {
		return a.Answer
	}
	return a.Symbol
}

// Cell shows one Ask. Text holds either one character, as it would stand in
// a text, or the name of a key or a chord; Named tells them apart, so that a
// screen can draw the name as one thing and nobody types its letters.
type Cell struct {
	Text  string
	Named bool
	Gap   bool // a gap for the eye stands before the cell; it is not typed
	Break bool // a new line of the text begins with the cell
}

// Drill is one thing to type. Prompt[i] shows Keys[i].
type Drill struct {
	Kind     Kind
	Language string // the language of a line, "" where there is none
	Prompt   []Cell
	Keys     []Ask
	Notes    []string // what each command of a motion does, in order, or what the drill is for
	Also     []Form   // other strokes that do the same as a part of Keys
}

// Form is another way to do what the Keys from At on, Len of them, do: "d$"
// for "D". A Grader takes it as right when it is typed whole.
type Form struct {
	At, Len int
	Prompt  []Cell
	Keys    []Ask
}

// Groups returns where the parts begin that gaps keep apart, such as the
// commands of a motion drill: indices of Keys, the first 0.
func (d Drill) Groups() []int {
	var at []int
	for i, c := range d.Prompt {
		if i == 0 || c.Gap {
			at = append(at, i)
		}
	}
	return at
}

// Symbols returns the symbols that the drill asks for, in order.
func (d Drill) Symbols() []board.Symbol {
	out := make([]board.Symbol, len(d.Keys))
	for i, k := range d.Keys {
		out[i] = k.Symbol
	}
	return out
}

// String returns the prompt as one line of text. Named keys stand between
// angle quotation marks (‹Tab›), gaps as two spaces. It is meant for tests
// and for output that cannot set a name apart by its looks.
func (d Drill) String() string {
	var b strings.Builder
	for i, c := range d.Prompt {
		if c.Gap && i > 0 {
			b.WriteString("  ")
		}
		if c.Named {
			b.WriteString("‹" + c.Text + "›")
		} else {
			b.WriteString(c.Text)
		}
	}
	return b.String()
}
