package board

import (
	"math"
	"strings"

	"github.com/rivo/uniseg"
)

// Text draws a layer with characters: every key where it is, up to five
// cells wide, as wide as fits the width, and two lines high where columns are
// staggered. Keys that do nothing are a
// dot, those that fall through blank. With a stroke, its last key is set in
// square brackets and the keys it holds in angle marks. Lines have no trailing
// blanks. Where the board does not fit with three cells a key, the lines are
// longer than width.
func (b *Board) Text(layer string, width int, with Stroke) []string {
	return b.text(layer, 0, width, with, marksOf(with, false))
}

// TextEntered draws a layer like Text, at a level: 0 plain, 1 with Shift, 2
// with AltGraph, 3 with both. The keys that open the layer are in angle marks.
func (b *Board) TextEntered(layer string, level, width int) []string {
	enters, _ := b.Enters(layer)
	return b.text(layer, level, width, Stroke{}, marksOf(enters, true))
}

func (b *Board) text(layer string, level, width int, with Stroke, marks map[Position]string) []string {
	right, height := 0.0, 1.0
	for _, k := range b.keys {
		right = max(right, k.X+k.W)
		if k.Row != ThumbRow && k.Y != math.Trunc(k.Y) {
			height = 2 // half a line for half a key of stagger
		}
	}
	cell := 3
	for c := 5; c > 3; c-- {
		if int(math.Ceil(right*float64(c))) <= width {
			cell = c
			break
		}
	}
	c := &canvas{cell: cell, height: height}
	for _, k := range b.keys {
		at := level
		if marks[k.Position] == "[]" {
			at = with.Level
		}
		c.put(k, b.textOf(layer, at, k, marks, cell))
	}
	return c.lines()
}

// marksOf says how the keys of a stroke are set off. enters is a stroke without
// its last key.
func marksOf(s Stroke, enters bool) map[Position]string {
	marks := map[Position]string{}
	for i, p := range s.Keys {
		if (enters || i < len(s.Keys)-1) && p.As != AsCombo && p.As != AsPress && p.As != AsTap {
			marks[p.Position] = "<>"
		} else {
			marks[p.Position] = "[]"
		}
	}
	return marks
}

func (b *Board) textOf(layer string, level int, k Key, marks map[Position]string, cell int) string {
	mark, marked := marks[k.Position]
	l := b.LegendAt(layer, level, k.Position)
	room := min(4, cell-1)
	if marked {
		room = max(cell-2, 1)
	}
	text := cut(l.Short(), room)
	switch {
	case mark == "<>" && (l.Empty() || l.Through):
		text = cut(b.Legend(b.layers[0].name, k.Position).Short(), room)
	case l.Through && !marked:
		return ""
	case text == "" && !marked:
		return "·"
	}
	if marked {
		return mark[:1] + text + mark[1:]
	}
	return text
}

// canvas is a grid of graphemes that grows as needed.
type canvas struct {
	cell   int     // cells a key unit
	height float64 // lines a key unit
	rows   [][]string
}

// put centres a text on a key. Wide characters take two places, the second
// empty.
func (c *canvas) put(k Key, text string) {
	row := int(math.Round(k.Y * c.height))
	left, right := k.X*float64(c.cell), (k.X+k.W)*float64(c.cell)
	col := int(math.Round((left + right - float64(uniseg.StringWidth(text))) / 2))
	for g := uniseg.NewGraphemes(text); g.Next(); {
		c.set(row, col, g.Str())
		if g.Width() == 2 {
			c.set(row, col+1, "\x00")
		}
		col += max(g.Width(), 1)
	}
}

func (c *canvas) set(row, col int, s string) {
	if col < 0 {
		return
	}
	for len(c.rows) <= row {
		c.rows = append(c.rows, nil)
	}
	for len(c.rows[row]) <= col {
		c.rows[row] = append(c.rows[row], " ")
	}
	c.rows[row][col] = s
}

func (c *canvas) lines() []string {
	var out []string
	for _, row := range c.rows {
		line := strings.ReplaceAll(strings.Join(row, ""), "\x00", "")
		out = append(out, strings.TrimRight(line, " "))
	}
	for len(out) > 0 && out[len(out)-1] == "" {
		out = out[:len(out)-1]
	}
	return out
}
