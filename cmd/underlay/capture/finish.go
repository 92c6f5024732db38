package capture

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"underlay/drills/board"
)

// Source writes the board file as far as it is known.
func (c *Capture) Source() []byte {
	var out strings.Builder
	fmt.Fprintf(&out, "name      = %q\nos-layout = %q\n\n%s", c.Name, c.Layout, c.Frame.Table)
	for _, l := range c.Layers {
		fmt.Fprintf(&out, "\n[[layer]]\nname = %q\n", l.Name)
		if len(l.When) > 0 {
			quoted := make([]string, len(l.When))
			for i, w := range l.When {
				quoted[i] = fmt.Sprintf("%q", w)
			}
			fmt.Fprintf(&out, "when = [%s]\n", strings.Join(quoted, ", "))
		}
		entries := make([]string, len(l.Entries))
		for i, e := range l.Entries {
			if entries[i] = e; e == "" {
				entries[i] = "--"
			}
		}
		fmt.Fprintf(&out, "keys = '''\n%s'''\n", c.Frame.picture(entries))
	}
	return []byte(out.String())
}

// scrolls moves the review up and down, and tells whether s is a key for that.
func (c *Capture) scrolls(s board.Symbol) bool {
	step, ok := map[board.Symbol]int{board.ArrowDown: 1, board.ArrowUp: -1, board.PageDown: 10, board.PageUp: -10}[s]
	if ok {
		last := strings.Count(string(c.Source()), "\n") - 1
		c.scroll = min(max(c.scroll+step, 0), last)
	}
	return ok
}

// reviewed takes Enter for saving, and a layer's name for pressing that layer
// again.
func (c *Capture) reviewed(text string) []Effect {
	text = strings.TrimSpace(text)
	if text == "" {
		return []Effect{c.keep(), Save{Name: c.Name, Source: c.Source()}}
	}
	if n := c.layerNamed(text); n >= 0 {
		clear(c.Layers[n].Entries)
		c.Stage, c.Layer, c.At = Pressing, n, 0
		c.skipHeld()
		return []Effect{c.keep()}
	}
	c.wrong = fmt.Sprintf("press Enter to save, or type a layer to press it again: %s", strings.Join(c.layerNames(), ", "))
	return nil
}

// over takes yes for writing over a file, or another name.
func (c *Capture) over(text string) []Effect {
	switch text = strings.TrimSpace(text); text {
	case "":
		c.wrong = "type yes to write over it, or another name"
		return nil
	case "yes":
		c.Stage = Review
		return []Effect{Save{Name: c.Name, Source: c.Source(), Over: true}}
	}
	c.named(text)
	if c.wrong != "" {
		return nil
	}
	c.Stage = Review
	return []Effect{c.keep(), Save{Name: c.Name, Source: c.Source()}}
}

func (c *Capture) saved(err error) []Effect {
	if err != nil {
		c.Stage, c.wrong = Review, "not saved: "+err.Error()
		return nil
	}
	c.Stage, c.note = Finished, ""
	return []Effect{Keep{}}
}

// keep stores how far the capture is.
func (c *Capture) keep() Keep {
	data, _ := json.Marshal(c.state) // texts and numbers alone: it cannot fail
	return Keep{data}
}

// ErrKept says that a stored state cannot be gone on with.
var ErrKept = errors.New("the capture that was begun cannot be gone on with")

// Resume goes on from a state that was kept.
func Resume(kept []byte) (*Capture, error) {
	c := New()
	if err := json.Unmarshal(kept, &c.state); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrKept, err)
	}
	if c.Version != 1 || !c.sound() {
		return nil, ErrKept
	}
	if c.Frame.count() > 0 {
		if err := c.use(c.Frame); err != nil {
			return nil, fmt.Errorf("%w: %w", ErrKept, err)
		}
		c.note = "this goes on where it was left; Backspace takes steps back"
	}
	return c, nil
}

// sound reports whether the numbers of a state agree.
func (c *Capture) sound() bool {
	if c.Stage == Shape || c.Stage == "" {
		c.Stage = Shape
		return true
	}
	n := c.Frame.count()
	if n == 0 || n > 400 || len(c.Layers) == 0 || c.Layer < 0 || c.Layer >= len(c.Layers) || c.At < 0 || c.At > n || c.Stage == Pressing && c.At == n {
		return false
	}
	for _, l := range c.Layers {
		if len(l.Entries) != n || l.Name == "" {
			return false
		}
		for _, e := range l.Entries {
			if e != "" && board.CheckEntry(e) != nil {
				return false
			}
		}
	}
	return slices.Contains([]Stage{Naming, Setting, Pressing, Holding, Joining, Review, Over, Finished}, c.Stage)
}
