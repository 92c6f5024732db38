package capture

import (
	"fmt"
	"strings"

	"underlay/drills/board"
)

// View is what to show. All texts are safe for a terminal.
type View struct {
	Stage   Stage
	Title   string   // what this step is about
	Ask     string   // what to do now
	Keys    []Cap    // the board, once its shape is known
	Words   string   // which key is lit: left index finger, home row
	Done    int      // keys of the layer that have been pressed
	Total   int      // keys of the layer
	Open    bool     // a line is being typed
	Line    string   // what it has so far
	Choices []string // what there is to choose from
	Choice  int      // the one pointed at
	Note    string   // about the last key
	Wrong   string   // what is wrong with the last answer
	Source  []string // the board file, for review, from the line scrolled to
	Found   board.Findings
	Hints   []Hint // keys and words that do something here
}

// Cap is a key and what is on it so far.
type Cap struct {
	board.Key
	Text string // at most four cells
	Lit  bool   // to be pressed now
	Held bool   // to be held for this layer
}

// Hint is a key, or a word to type, and what it does.
type Hint struct{ Key, Does string }

// View returns what to show now.
func (c *Capture) View() View {
	v := View{Stage: c.Stage, Note: board.Safe(c.note), Wrong: board.Safe(c.wrong), Line: board.Safe(c.line.text), Open: c.open || c.Stage != Pressing && c.Stage != Finished}
	switch c.Stage {
	case Shape:
		v.Title, v.Ask = "which keys are there?", "choose a shape, or write one: split 3x6+3, left 3x5+2 for one hand, ortholinear 4x12"
		v.Choices, v.Choice = c.titled(matching(c.line.text)), c.choice
		if v.Choice >= len(v.Choices) {
			v.Choice = max(len(v.Choices)-1, 0)
		}
	case Naming:
		v.Title, v.Ask = "what is it called?", "a name for the board; Enter is "+defaultName
	case Setting:
		v.Title, v.Ask = "what is the computer set to?", strings.Join(board.OSLayouts(), ", ")+"; Enter is us"
	case Pressing:
		c.viewPressing(&v)
	case Holding:
		c.viewHolding(&v)
	case Joining:
		v.Title = "is there a layer that is reached while two others are held?"
		v.Ask = "write it like functions = marks + cursor; Enter is no"
	case Review:
		c.viewReview(&v)
	case Over:
		v.Title, v.Ask = c.note, "type yes to write over it, or another name"
	case Finished:
		v.Title, v.Ask = c.Name+" is saved", "Enter ends"
	}
	v.Hints = c.hints()
	return v
}

// titled adds to the names of boards what they are.
func (c *Capture) titled(names []string) []string {
	if c.titles == nil {
		c.titles = map[string]string{}
		for _, name := range board.Embedded() {
			if b, err := board.Load(name); err == nil {
				c.titles[name] = b.Title
			}
		}
	}
	for i, name := range names {
		names[i] = fmt.Sprintf("%-10s %s", name, c.titles[name])
	}
	return names
}

func (c *Capture) viewPressing(v *View) {
	l := c.Layers[c.Layer]
	v.Title = "layer " + board.Safe(l.Name)
	v.Total = len(l.Entries)
	for _, e := range l.Entries {
		if e != "" {
			v.Done++
		}
	}
	v.Keys = c.caps(c.Layer)
	v.Words = c.blank.KeyWords(c.keys[c.At].Position)
	switch {
	case c.open:
		v.Ask = "nothing came: type what this key does, such as Shift, marks:hold or <pair-1>; Enter is nothing"
	case c.Layer == 0:
		v.Ask = "press the lit key"
	default:
		v.Ask = fmt.Sprintf("with layer %s open, press the lit key", board.Safe(l.Name))
	}
}

func (c *Capture) viewHolding(v *View) {
	v.Title = "does a key do something else when it is held?"
	v.Ask = "press it, or type its name if it is Enter or Backspace; then Enter. Enter alone if there is none left"
	if c.hold >= 0 {
		v.Ask = fmt.Sprintf("what does %s do when held? For example Control or marks:hold; Enter is nothing", board.Safe(tapOf(c.Layers[0].Entries[c.hold])))
	}
	v.Keys = c.caps(0)
	for k := range v.Keys {
		v.Keys[k].Lit = k == c.hold
	}
}

func (c *Capture) viewReview(v *View) {
	src := c.Source()
	for line := range strings.Lines(string(src)) {
		v.Source = append(v.Source, board.Safe(strings.TrimRight(line, "\n")))
	}
	v.Source = v.Source[min(c.scroll, len(v.Source)):]
	_, v.Found = board.Read(c.Name+".toml", src)
	v.Title, v.Ask = "this is the board", "Enter saves it; type a layer's name to press that layer again"
	if v.Found.Err() != nil {
		v.Title = "this is the board; it has faults, which can be mended in the file"
	}
}

// caps are the keys of a layer with what they have so far.
func (c *Capture) caps(n int) []Cap {
	l := c.Layers[n]
	out := make([]Cap, len(c.keys))
	for k := range c.keys {
		out[k] = Cap{Key: c.keys[k], Text: board.ShortEntry(l.Entries[k]), Lit: n == c.Layer && k == c.At}
		if n > 0 && c.opens(k, l.Name) {
			out[k].Held, out[k].Text = true, board.ShortEntry(c.Layers[0].Entries[k])
		}
	}
	return out
}

func (c *Capture) hints() []Hint {
	switch {
	case c.Stage == Shape:
		return []Hint{{"Tab", "next"}, {"Enter", "take it"}, {"Control+c", "leave"}}
	case c.Stage == Pressing && !c.open:
		return []Hint{{"wait", "if it sends nothing, or to take one back"}}
	case c.Stage == Finished:
		return []Hint{{"Enter", "go on"}}
	case c.Stage == Review:
		return []Hint{{"Enter", "save"}, {"ArrowDown", "read on"}, {"Backspace", "back"}, {"Control+c", "leave, to go on another time"}}
	case c.Stage == Pressing:
		return []Hint{{"Enter", "take it"}, {"Backspace", "the key before"}, {"rest", "nothing on the other keys"}, {"leave", "go on another time"}}
	}
	return []Hint{{"Enter", "go on"}, {"Backspace", "back"}, {"Control+c", "leave, to go on another time"}}
}
