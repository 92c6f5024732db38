package board

import (
	"fmt"
	"slices"
	"strings"
)

// gap is how far the halves of a split board stand apart, in key units.
const gap = 2.5

// shape is the arrangement of the keys as the file gives it.
type shape struct {
	kind    Kind
	rows    picture
	thumbs  int       // how many of the last lines are thumb rows
	left    []int     // per line: how many keys are on the left half
	stagger []float64 // per column of a half, outer to inner
	fingers []string
	offsets []float64 // per line
	widths  map[Position]float64
}

// arrange makes the keys from the first layer's picture and the shape table.
func (r *reader) arrange(p picture) {
	before := len(r.found)
	s := r.shape(p)
	r.board.Kind = s.kind
	if len(r.found) > before {
		return
	}
	keys := s.keys()
	s.place(keys)
	r.assignFingers(s, keys)
	numberThumbs(keys)
	measureReach(keys)
	r.board.keys = keys
	for i, k := range keys {
		if k.Position.Col == 1 {
			r.board.rows = append(r.board.rows, i)
		}
	}
	r.oneHand(s)
}

func (r *reader) shape(p picture) *shape {
	table := r.shapeTable()
	r.known(table, "shape", "kind", "column-stagger", "fingers", "thumbs", "offsets", "widths")
	s := &shape{kind: r.kind(table), rows: p}
	s.thumbs = r.thumbs(table, s.kind, p)
	if s.kind != RowStaggered {
		r.sameRows(p, len(p)-s.thumbs)
	}
	r.halves(s)
	s.stagger = r.numbers(table, "shape", "column-stagger", -4, 4)
	s.offsets = r.numbers(table, "shape", "offsets", -16, 16)
	s.fingers = r.texts(table, "shape", "fingers")
	r.fits("column-stagger", s.columns(), len(s.stagger), "column of a half")
	r.fits("offsets", len(p), len(s.offsets), "row of the picture")
	if s.stagger != nil && s.kind == RowStaggered {
		r.fault(r.places["shape.column-stagger"].key, "column-stagger", "a row-staggered board has offsets, not a column-stagger", "")
	}
	s.widths = r.widths(table, s.kind, p)
	return s
}

func (r *reader) shapeTable() map[string]any {
	value, there := r.doc["shape"]
	if !there {
		r.fault(place{1, 1}, "", "the board has no [shape]", `write [shape] and kind = "split", "ortholinear" or "row-staggered" under it`)
		return nil
	}
	table, ok := value.(map[string]any)
	if !ok {
		r.fault(r.places["shape"].key, "shape", "shape has to be a table", "write [shape], and kind under it")
	}
	return table
}

func (r *reader) kind(table map[string]any) Kind {
	kinds := []string{string(Split), string(Ortholinear), string(RowStaggered)}
	name := r.text(table, "shape", "kind")
	for _, k := range kinds {
		if k == name {
			return Kind(k)
		}
	}
	hint := "there are " + strings.Join(kinds, ", ")
	if near := nearest(name, kinds); near != "" {
		hint = "did you mean " + near + "?"
	}
	switch {
	case name != "":
		r.fault(r.places["shape.kind"].value, name, fmt.Sprintf("%q is no kind of board", name), hint)
	case table != nil && table["kind"] == nil:
		r.fault(r.places["shape"].key, "", "the shape has no kind", hint)
	}
	return Split
}

// thumbs returns how many of the last lines are thumb rows.
func (r *reader) thumbs(table map[string]any, kind Kind, p picture) int {
	if value, there := table["thumbs"]; there {
		n := r.number(value, "shape.thumbs", 0, float64(len(p)-1))
		if n != float64(int(n)) {
			r.fault(r.places["shape.thumbs"].value, "thumbs", "thumbs counts rows and has to be a whole number", "")
		}
		return int(n)
	}
	if kind == RowStaggered {
		return min(1, len(p)-1)
	}
	full := 0
	for i, d := range p {
		if len(d.words) >= len(p[0].words) {
			full = i + 1
		}
	}
	return len(p) - full
}

// sameRows faults rows that do not have as many keys as the first.
func (r *reader) sameRows(p picture, rows int) {
	for i, d := range p[:rows] {
		if len(d.words) != len(p[0].words) {
			r.fault(d.place, "", fmt.Sprintf("row %d has %s, row 1 has %d", i+1, keyCount(len(d.words)), len(p[0].words)),
				"only the thumb rows, which come last, may be shorter")
		}
	}
}

// halves counts the keys left of || in each line, or halves the line where
// there is none.
func (r *reader) halves(s *shape) {
	for i, d := range s.rows {
		left := d.parts
		switch {
		case left < 0 && s.kind == Split:
			r.fault(d.place, "", fmt.Sprintf("row %d has no ||; it parts the halves of a split board", i+1),
				"on a board of one half it stands at the side of the other hand: first or last in every row")
		case left < 0:
			left = len(d.words) / 2
		case i > 0 && i < len(s.rows)-s.thumbs && s.kind != RowStaggered && left != s.left[0]:
			r.fault(d.place, "||", fmt.Sprintf("row %d has %s left of ||, row 1 has %d", i+1, keyCount(left), s.left[0]), "")
		}
		s.left = append(s.left, max(left, 0))
	}
}

// narrow is how many columns make a board in one piece look like one for one hand.
const narrow = 7

// oneHand warns of a narrow board that does not say whether it is for one hand.
func (r *reader) oneHand(s *shape) {
	parted := func(d drawn) bool { return d.parts >= 0 }
	columns := len(s.rows[0].words)
	if s.kind != Ortholinear || columns > narrow || slices.ContainsFunc(s.rows, parted) {
		return
	}
	r.add(Warning, s.rows[0].place, "", fmt.Sprintf("of the %s in a row the first %d are taken for the left hand, the rest for the right", keyCount(columns), s.left[0]),
		"on a board for one hand || stands last in every row, or first for the right hand; between the hands it stands where they part")
}

// columns is how many columns the wider half has.
func (s *shape) columns() int {
	return max(s.left[0], len(s.rows[0].words)-s.left[0])
}

func (r *reader) fits(key string, want, got int, of string) {
	if got != 0 && got != want {
		r.fault(r.places["shape."+key].value, key, fmt.Sprintf("%s has %d numbers; it takes %d, one for each %s", key, got, want, of), "")
	}
}

func (r *reader) widths(table map[string]any, kind Kind, p picture) map[Position]float64 {
	value, there := table["widths"]
	if !there {
		return nil
	}
	list, ok := value.(map[string]any)
	if !ok {
		r.wrongType("shape.widths", "a table such as { r1c14 = 2.0 }")
		return nil
	}
	if kind != RowStaggered {
		r.fault(r.places["shape.widths"].key, "widths", "only a row-staggered board has keys of several widths", "")
		return nil
	}
	out := map[Position]float64{}
	for name, v := range list {
		path := join("shape.widths", name)
		at, err := ParsePosition(name)
		if err == nil && (at.Row > len(p) || at.Col > len(p[at.Row-1].words)) {
			err = fmt.Errorf("the board has no key at %s", name)
		}
		if err != nil {
			r.fault(r.places[path].key, name, err.Error(), "")
			continue
		}
		out[at] = r.number(v, path, 0.25, 10)
	}
	return out
}
