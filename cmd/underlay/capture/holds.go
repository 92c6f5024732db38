package capture

import (
	"fmt"
	"slices"
	"strings"

	"underlay/drills/board"
)

// held takes, in turn, a key that does something else when held and what that
// is; or both as a board file has them, "Space/marks:hold". Nothing ends the
// question.
func (c *Capture) held(text string) {
	if text != "" && strings.TrimSpace(text) == "" {
		text = string(board.Space)
	}
	text = strings.TrimSpace(text)
	switch tap, hold := parts(text); {
	case c.hold >= 0:
		c.setHold(text)
	case text == "":
		c.advance()
	case c.pointHold(text):
	case hold != "" && c.pointHold(tap):
		c.setHold(hold)
	default:
		c.wrong = fmt.Sprintf("no key of the first layer sends %s; the keys are called as in a board file, such as Enter", board.Safe(text))
	}
}

// pointHold chooses the key that sends a symbol.
func (c *Capture) pointHold(symbol string) bool {
	c.hold = -1
	for k, e := range c.Layers[0].Entries {
		if tapOf(e) != symbol {
			continue
		}
		if c.hold >= 0 {
			c.note = fmt.Sprintf("%s is on several keys; the first is meant", board.Safe(symbol))
			break
		}
		c.hold = k
	}
	return c.hold >= 0
}

// setHold says what the chosen key does when held.
func (c *Capture) setHold(hold string) {
	entry := tapOf(c.Layers[0].Entries[c.hold])
	if hold != "" {
		entry += "/" + hold
	}
	if err := board.CheckEntry(entry); err != nil {
		c.wrong = err.Error()
		return
	}
	c.Layers[0].Entries[c.hold] = entry
	c.addLayer(entry)
	c.hold = -1
}

// joined takes a layer that is reached while two or more are held: "functions =
// marks + cursor". Nothing ends the question.
func (c *Capture) joined(text string) {
	if strings.TrimSpace(text) == "" {
		c.Stage = Review
		return
	}
	name, of, found := strings.Cut(text, "=")
	name = strings.TrimSpace(name)
	var when []string
	for w := range strings.SplitSeq(of, "+") {
		when = append(when, strings.TrimSpace(w))
	}
	at := c.layerNamed(name)
	switch {
	case !found || name == "" || len(when) < 2:
		c.wrong = "write a name, = and the layers with + between them, such as functions = marks + cursor"
		return
	case at == 0:
		c.wrong = "the first layer is always active"
		return
	case slices.ContainsFunc(when, func(w string) bool { return c.layerNamed(w) <= 0 || w == name }):
		c.wrong = fmt.Sprintf("the layers are %s", strings.Join(c.layerNames()[1:], ", "))
		return
	case board.CheckEntry(name+":hold") != nil || strings.ContainsAny(name, " /:"):
		c.wrong = fmt.Sprintf("%q is no name for a layer", name)
		return
	}
	if at < 0 {
		at = len(c.Layers)
		c.Layers = append(c.Layers, layer{Name: name, Entries: make([]string, c.Frame.count())})
	}
	c.Layers[at].When = when
	c.advance()
}

func (c *Capture) layerNames() []string {
	var out []string
	for _, l := range c.Layers {
		out = append(out, l.Name)
	}
	return out
}
