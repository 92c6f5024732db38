package capture

import (
	"fmt"
	"slices"
	"strings"

	"underlay/drills/board"
)

// pressed writes down what the lit key sent.
func (c *Capture) pressed(s board.Symbol) []Effect {
	if s == "Control+c" && c.before() == "Control+c" {
		c.stepBack()
		return c.leave()
	}
	entry := string(s)
	if err := board.CheckEntry(entry); err != nil {
		c.note, c.wrong = "", fmt.Sprintf("what arrived, %s, cannot be written down: %v", board.Safe(entry), err)
		return nil
	}
	if c.Layer > 0 && entry == tapOf(c.Layers[0].Entries[c.At]) {
		entry = ".."
	}
	c.note = told(s)
	return c.write(entry)
}

// before is the entry of the key pressed last on this layer.
func (c *Capture) before() string {
	if c.At == 0 {
		return ""
	}
	return c.Layers[c.Layer].Entries[c.At-1]
}

// told says what a terminal cannot tell apart from a symbol.
func told(s board.Symbol) string {
	twin := map[board.Symbol]string{
		board.Tab: "Control+i", board.Enter: "Control+m", board.Escape: "Control+[", board.Backspace: "Control+h", "Control+Space": "Control+@",
	}[s]
	switch {
	case s == "Control+c":
		return "taken as Control+c; once more leaves"
	case twin != "":
		return fmt.Sprintf("arrived as %s; many terminals cannot tell it from %s", s, twin)
	}
	return ""
}

// told takes what was typed for a silent key.
func (c *Capture) told(text string) []Effect {
	text = strings.TrimSpace(text)
	switch {
	case text == "rest":
		c.fillRest()
		c.advance()
		return []Effect{c.keep()}
	case text == "":
		return c.write("--")
	}
	if err := board.CheckEntry(text); err != nil {
		c.wrong = err.Error()
		return nil
	}
	if text == ".." && c.Layer == 0 {
		c.wrong = "the first layer has nothing under it to fall through to"
		return nil
	}
	c.addLayer(text)
	return c.write(text)
}

// write puts an entry on the lit key and lights the next.
func (c *Capture) write(entry string) []Effect {
	c.open, c.line, c.wrong = false, line{}, ""
	c.Layers[c.Layer].Entries[c.At] = entry
	c.At++
	c.skipHeld()
	return []Effect{c.keep()}
}

// skipHeld passes keys that are held for this layer, and ends the layer.
func (c *Capture) skipHeld() {
	l := &c.Layers[c.Layer]
	for c.At < len(l.Entries) && (c.opens(c.At, l.Name) || l.Entries[c.At] != "") {
		if l.Entries[c.At] == "" {
			l.Entries[c.At] = "--"
		}
		c.At++
	}
	if c.At >= len(l.Entries) {
		c.advance()
	}
}

// opens reports whether the key is held for a layer, on the first one.
func (c *Capture) opens(key int, layer string) bool {
	if c.Layer == 0 {
		return false
	}
	_, hold := parts(c.Layers[0].Entries[key])
	return hold == layer+":hold" || c.Layers[0].Entries[key] == layer+":hold"
}

// fillRest says of all keys not pressed yet that they do nothing of their own.
func (c *Capture) fillRest() {
	l := &c.Layers[c.Layer]
	for k, e := range l.Entries {
		switch {
		case e != "":
		case c.Layer == 0 || c.opens(k, l.Name):
			l.Entries[k] = "--"
		default:
			l.Entries[k] = ".."
		}
	}
}

// addLayer notes a layer that an entry opens and that is not known yet.
func (c *Capture) addLayer(entry string) {
	tap, hold := parts(entry)
	for _, part := range []string{tap, hold} {
		name, way, found := strings.Cut(part, ":")
		if !found || name == "" || way == "" || c.layerNamed(name) >= 0 {
			continue
		}
		c.Layers = append(c.Layers, layer{Name: name, Entries: make([]string, c.Frame.count())})
	}
}

func (c *Capture) layerNamed(name string) int {
	return slices.IndexFunc(c.Layers, func(l layer) bool { return l.Name == name })
}

// back lights the key before once more, or goes back to the question before.
func (c *Capture) back() []Effect {
	c.line, c.wrong, c.note = line{}, "", ""
	switch c.Stage {
	case Pressing:
		c.stepBack()
	case Holding:
		if c.hold >= 0 {
			c.hold = -1
			break
		}
		c.reopen(0)
	case Joining, Review:
		c.reopen(len(c.Layers) - 1)
	case Over:
		c.Stage = Review
	case Naming:
		c.Stage = Shape
	case Setting:
		c.Stage = Naming
	}
	return []Effect{c.keep()}
}

// stepBack forgets the key before, leaving out those that are held.
func (c *Capture) stepBack() {
	c.open = false
	l := &c.Layers[c.Layer]
	for c.At > 0 {
		c.At--
		if !c.opens(c.At, l.Name) {
			l.Entries[c.At] = ""
			return
		}
	}
	if c.Layer > 0 {
		c.reopen(c.Layer - 1)
	} else {
		c.Stage = Setting
	}
}

// reopen lights the last key of a layer once more.
func (c *Capture) reopen(layer int) {
	c.Stage, c.Layer, c.At = Pressing, layer, len(c.Layers[layer].Entries)
	c.stepBack()
}

// parts parts tap and hold as a board file does.
func parts(entry string) (tap, hold string) {
	for i := len(entry) - 2; i > 0; i-- {
		if entry[i] == '/' {
			return entry[:i], entry[i+1:]
		}
	}
	return entry, ""
}

func tapOf(entry string) string {
	tap, _ := parts(entry)
	return tap
}
