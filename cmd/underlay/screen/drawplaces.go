package screen

import (
	"fmt"
	"slices"
	"strings"

	"underlay/cmd/underlay/session"
	"underlay/drills/board"
)

// mapped draws a layer with the states of its strokes.
func (p *page) mapped(v *session.MapView) {
	y := p.bottom
	var parts []string
	for _, c := range v.Counts {
		parts = append(parts, fmt.Sprintf("%s %d %s", session.StateSign(c.State), c.N, c.State))
	}
	if slices.ContainsFunc(v.Keys, func(c session.Cap) bool { return cells(c.Bar) > 1 }) {
		parts = append(parts, "figures: ms")
	}
	if len(parts) > 0 {
		p.put(p.margin, y-1, strings.Join(parts, "   "), plain)
	}
	p.put(p.margin, 1, strings.Join(safeAll(v.Layers), "  "), faint)
	if !p.picture(v.Board, v.Keys, 2, y-2) {
		p.capList(v.Keys, 3, y-2)
	}
}

// capList lists the keys of a layer where the picture does not fit.
func (p *page) capList(caps []session.Cap, y, bottom int) {
	const column = 14
	x := p.margin
	for i := range caps {
		c := &caps[i]
		if c.Text == "" {
			continue
		}
		if x+column > p.w {
			x, y = p.margin, y+1
		}
		if y >= bottom {
			p.put(p.margin, y, p.more, plain)
			return
		}
		at := p.putWithin(x, y, x+6, c.Text, plain)
		p.putWithin(max(at+1, x+5), y, x+column-1, c.Bar, plain)
		x += column
	}
}

func safeAll(names []string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = board.Safe(n)
	}
	return out
}

// find draws what was looked for and where it is.
func (p *page) find(v *session.FindView) {
	p.query(v.Query, 2)
	y, rows := 4, 4
	first := max(0, v.At-rows+1)
	for i := first; i < min(len(v.Found), first+rows); i++ {
		f := &v.Found[i]
		l := plain
		mark := "  "
		if i == v.At {
			l, mark = strong, "> "
		}
		x := p.put(p.margin, y, mark+f.Label, l)
		x = p.put(max(x+2, p.margin+14), y, board.Safe(f.Board), l)
		p.putCut(max(x+2, p.margin+26), y, p.w-1, f.Words, l)
		y++
	}
	if v.At < len(v.Found) {
		y++
		y += p.wrapped(p.margin, y, p.w-2*p.margin, v.Found[v.At].Words, plain, true)
	}
	if len(v.Found) == 0 && v.Query != "" {
		p.put(p.margin, y, "No board of this sitting has that.", plain)
	}
	p.picture(v.Board, v.Keys, y+1, p.bottom)
}

// query draws a line of text that is being typed.
func (p *page) query(text string, y int) {
	x := p.put(p.margin, y, "> ", faint)
	x = p.put(x, y, board.Safe(text), strong)
	p.cursor(x, y)
}

// list draws a list to choose from.
func (p *page) list(v *session.ListView) {
	y := 2
	if v.Typed {
		p.query(v.Query, y)
		y += 2
	}
	bottom := p.bottom - 2*len(v.Foot) - 3
	name, value := 0, 0
	for i := range v.Items {
		name, value = max(name, cells(v.Items[i].Name)), max(value, cells(v.Items[i].Value))
	}
	name, value = min(name, 24), min(value, 20)
	first := max(0, v.At-(bottom-y)+1)
	for i := first; i < len(v.Items) && y < bottom; i++ {
		p.item(&v.Items[i], i == v.At, y, name, value)
		y++
	}
	if len(v.Items) == 0 {
		p.put(p.margin, y, "Nothing of that name.", plain)
	}
	y++
	if v.At < len(v.Items) && !p.aboutFits(v, name, value) {
		y += p.wrapped(p.margin, y, p.w-2*p.margin, v.Items[v.At].About, plain, true) + 1
	}
	for _, l := range v.Foot {
		y += p.wrapped(p.margin, y, p.w-2*p.margin, l, faint, true)
	}
}

func (p *page) item(it *session.Item, here bool, y, name, value int) {
	l, mark := plain, "  "
	if here {
		l, mark = chosen, "> "
	}
	x := p.margin
	p.put(x, y, mark, l)
	x += 2
	p.putWithin(x, y, x+name, it.Name, l)
	x += name + 2
	if value > 0 {
		p.putWithin(x, y, x+value, it.Value, strong)
		x += value + 2
	}
	p.putCut(x, y, p.w-1, it.About, plain)
}

// aboutFits tells whether what is said of the chosen item stands in its line.
func (p *page) aboutFits(v *session.ListView, name, value int) bool {
	x := p.margin + 2 + name + 2
	if value > 0 {
		x += value + 2
	}
	return x+cells(v.Items[v.At].About) <= p.w-1
}

// text draws lines of text. What is too long goes on below its last column.
func (p *page) text(v *session.PageView) {
	y := 2
	for _, l := range v.Lines[min(v.Top, len(v.Lines)):] {
		if y >= p.bottom {
			return
		}
		first, rest := cut(l, p.w-2)
		p.put(1, y, first, plain)
		y++
		if hang := hanging(l); rest != "" {
			y += p.wrapped(1+hang, y, p.w-2-hang, rest, plain, true)
		}
	}
}

// hanging is where the last column of a line begins: after its first blanks,
// or after the first gap of two or more behind them. It is at most 30.
func hanging(line string) int {
	text := strings.TrimLeft(line, " ")
	indent := len(line) - len(text)
	if indent == 0 {
		return 0
	}
	if i := strings.Index(text, "  "); i >= 0 {
		indent += i + len(text[i:]) - len(strings.TrimLeft(text[i:], " "))
	}
	return min(indent, 30)
}
