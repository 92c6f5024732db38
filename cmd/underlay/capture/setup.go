package capture

import (
	"fmt"
	"slices"
	"strings"

	"underlay/drills/board"
)

// matching are the embedded boards whose arrangement what is typed may mean, by
// their names.
func matching(text string) []string {
	text = strings.ToLower(strings.TrimSpace(text))
	return slices.DeleteFunc(board.Embedded(), func(name string) bool { return !strings.Contains(name, text) })
}

func (c *Capture) point(s board.Symbol) {
	n := len(matching(c.line.text))
	if n == 0 {
		return
	}
	step := 1
	if s == board.ArrowUp {
		step = n - 1
	}
	c.choice = (c.choice + step) % n
}

// choose takes a shape: the one pointed at, or one told by its measures.
func (c *Capture) choose(text string) {
	var f frame
	var err error
	if fit := matching(text); len(fit) > 0 {
		f, err = template(fit[min(c.choice, len(fit)-1)])
	} else {
		f, err = plainFrame(text)
	}
	if err == nil {
		err = c.use(f)
	}
	if err != nil {
		c.wrong = err.Error()
		return
	}
	c.Stage = Naming
	c.Layers = []layer{{Name: "base", Entries: make([]string, f.count())}}
}

// use takes a frame into use.
func (c *Capture) use(f frame) error {
	b, err := f.blank()
	if err != nil {
		return err
	}
	c.Frame, c.blank, c.keys = f, b, b.Keys()
	return nil
}

// defaultName is what a board is called if Enter is just pressed.
const defaultName = "my-board"

func (c *Capture) named(text string) {
	if text = strings.TrimSpace(text); text == "" {
		text = defaultName
	}
	if len(text) > 40 || strings.ContainsFunc(text, func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_')
	}) {
		c.wrong = "a name has letters, digits, - and _ alone"
		return
	}
	c.Name = text
	if c.Stage == Naming {
		c.Stage = Setting
	}
}

func (c *Capture) set(text string) {
	if text = strings.TrimSpace(text); text == "" {
		text = "us"
	}
	if !slices.Contains(board.OSLayouts(), text) {
		c.wrong = fmt.Sprintf("%q is none of %s", text, strings.Join(board.OSLayouts(), ", "))
		return
	}
	c.Layout, c.Stage, c.Layer, c.At = text, Pressing, 0, 0
}
