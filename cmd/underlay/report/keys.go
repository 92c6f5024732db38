package report

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
)

// picture is one layer of the board being learned.
type picture struct {
	Layer string
	Hold  string          // how it is reached, in words
	Parts []template.HTML // the halves of a split board, or the whole
	Wide  bool            // one piece: wider than a phone
}

// caps is what is written on the keys of a layer.
type caps struct {
	board *board.Board
	layer string
	keys  map[board.Position]keycap
	most  float64 // ms per 1,000 characters that fill a bar
}

// keycap is what is written on one key: the costs of all that is pressed there
// on the layer, and the state of its plain stroke.
type keycap struct {
	cost  float64
	state string
	tries int // with a time
	plain bool
	held  bool
}

// pictures draws every layer on which something is drilled.
func pictures(s standing.Standing, b *board.Board) []picture {
	var out []picture
	for _, c := range allCaps(s, b) {
		out = append(out, c.picture())
	}
	return out
}

// allCaps are the layers on which something is drilled, with bars of one scale.
func allCaps(s standing.Standing, b *board.Board) []caps {
	most := 0.0
	var all []caps
	for _, layer := range b.Layers() {
		c := newCaps(s.Boards[0], b, layer)
		for _, k := range c.keys {
			most = max(most, k.cost)
		}
		if len(c.keys) > 0 {
			all = append(all, c)
		}
	}
	for i := range all {
		all[i].most = most
	}
	return all
}

func newCaps(side standing.Side, b *board.Board, layer string) caps {
	c := caps{board: b, layer: layer, keys: map[board.Position]keycap{}}
	for _, st := range side.Strokes {
		if st.Layer != layer || st.PerMille == 0 && st.Tries == 0 {
			continue
		}
		k := c.keys[st.Position]
		k.cost += st.CostMS.Value
		k.tries += st.Timed
		if st.Level == 0 && !k.plain || k.state == "" {
			k.state, k.plain = st.State, st.Level == 0
		}
		c.keys[st.Position] = k
		for _, h := range layerHolds(b, st) {
			held := c.keys[h]
			held.held = true
			c.keys[h] = held
		}
	}
	return c
}

// layerHolds are the keys that a stroke holds for its layer.
func layerHolds(b *board.Board, st standing.InHand) []board.Position {
	var out []board.Position
	keys, ok := b.Drilled(st.Symbol)
	if !ok {
		return nil
	}
	for _, p := range keys.Holds() {
		if p.Symbol == "" {
			out = append(out, p.Position)
		}
	}
	return out
}

func (c caps) picture() picture {
	p := picture{Layer: board.Safe(c.layer), Wide: c.board.Kind != board.Split}
	names := []string{"left half", "right half"}
	if p.Wide {
		names = []string{""}
	}
	for i, keys := range c.parts() {
		p.Parts = append(p.Parts, c.draw(keys, names[i]))
	}
	return p
}

// parts are the keys of each half of a split board, left first, or all keys.
func (c caps) parts() [][]board.Key {
	if c.board.Kind != board.Split {
		return [][]board.Key{c.board.Keys()}
	}
	var out [2][]board.Key
	for _, k := range c.board.Keys() {
		out[k.Hand] = append(out[k.Hand], k)
	}
	return out[:]
}

const unit = 100.0 // of the picture, a key

// draw draws some keys.
func (c caps) draw(keys []board.Key, part string) template.HTML {
	if len(keys) == 0 {
		return ""
	}
	drawn, width, height := c.drawn(keys)
	title := strings.TrimSpace(fmt.Sprintf("%s layer, %s", board.Safe(c.layer), part))
	title = strings.TrimSuffix(title, ",")
	return template.HTML(fmt.Sprintf(`<svg class="keys" role="img" aria-label="%s: %s" viewBox="0 0 %.0f %.0f">%s</svg>`,
		html.EscapeString(title), html.EscapeString(c.says(keys)), width, height, drawn))
}

// drawn are some keys as SVG, with the size of the picture.
func (c caps) drawn(keys []board.Key) (svg string, width, height float64) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), 0.0, 0.0
	for _, k := range keys {
		x0, y0 = min(x0, k.X), min(y0, k.Y)
		x1, y1 = max(x1, k.X+k.W), max(y1, k.Y+1)
	}
	var b strings.Builder
	for _, k := range keys {
		c.key(&b, k, (k.X-x0)*unit, (k.Y-y0)*unit)
	}
	return b.String(), (x1 - x0) * unit, (y1 - y0) * unit
}

// says names the keys that cost most, for who does not see the picture.
func (c caps) says(keys []board.Key) string {
	in := slices.DeleteFunc(slices.Clone(keys), func(k board.Key) bool { return c.keys[k.Position].cost <= 0 })
	slices.SortStableFunc(in, func(a, b board.Key) int {
		return int(math.Copysign(1, c.keys[b.Position].cost-c.keys[a.Position].cost))
	})
	if len(in) == 0 {
		return "nothing costs time"
	}
	var out []string
	for _, k := range in[:min(5, len(in))] {
		out = append(out, fmt.Sprintf("%s %s", c.legend(k), whole(c.keys[k.Position].cost)))
	}
	return "most ms per 1,000 characters: " + strings.Join(out, ", ") + "; the tables below have all"
}

func (c caps) legend(k board.Key) string {
	return c.board.Legend(c.layer, k.Position).Short()
}

// key draws a key: its legend, what it costs as a number and as a bar, and a
// mark for the state.
func (c caps) key(b *strings.Builder, k board.Key, x, y float64) {
	w := k.W*unit - 8
	on, used := c.keys[k.Position]
	class := "key"
	if on.held {
		class = "key held"
	}
	fmt.Fprintf(b, `<g transform="translate(%.0f %.0f)"><rect class="%s" width="%.0f" height="92" rx="10"/>`, x+4, y+4, class, w)
	defer b.WriteString(`</g>`)
	if on.held {
		fmt.Fprintf(b, `<text class="small" x="%.0f" y="52" text-anchor="middle">hold</text>`, w/2)
		return
	}
	legend := html.EscapeString(c.legend(k))
	if !used {
		fmt.Fprintf(b, `<text class="dim" x="10" y="36">%s</text>`, legend)
		return
	}
	fmt.Fprintf(b, `<text class="%s" x="10" y="36">%s</text>`, capClass(c.legend(k)), legend)
	fmt.Fprintf(b, `<g transform="translate(%.0f 18)">%s</g>`, w-18, stateMark(on.state))
	if on.tries >= 10 {
		fmt.Fprintf(b, `<text class="cost" x="10" y="70">%s</text>`, whole(on.cost))
	} else {
		fmt.Fprintf(b, `<text class="small" x="10" y="70">%d more</text>`, 10-on.tries)
	}
	if on.cost > 0 && c.most > 0 {
		fmt.Fprintf(b, `<rect class="bar" x="10" y="78" width="%.1f" height="7"/>`, (w-20)*on.cost/c.most)
	}
}

// capClass sets long names smaller, so that the mark has room beside them.
func capClass(legend string) string {
	switch utf8.RuneCountInString(legend) {
	case 0, 1, 2:
		return "cap"
	case 3:
		return "cap name"
	}
	return "cap long"
}

// stateMark is a disc: empty for unmet, half filled for building, full for
// steady, crossed for fading. It does not rest on colour.
func stateMark(state string) string {
	switch state {
	case "building":
		return `<circle class="ring" r="8"/><path class="disc" d="M-8 0A8 8 0 0 0 8 0Z"/>`
	case "steady":
		return `<circle class="disc" r="9"/>`
	case "fading":
		return `<circle class="ring" r="8"/><path class="ring" d="M-8 8L8 -8"/>`
	}
	return `<circle class="ring" r="8"/>`
}

// legendMark is a mark for the key to the pictures.
func legendMark(state string) template.HTML {
	return template.HTML(`<svg class="mark-key" aria-hidden="true" viewBox="-12 -12 24 24">` + stateMark(state) + `</svg>`)
}
