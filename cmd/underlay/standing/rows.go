package standing

import (
	"cmp"
	"iter"
	"slices"

	"underlay/scheduler/journal"
)

// Row is one stroke on one day, as it was typed.
type Row struct {
	Date     string
	Board    string
	Symbol   string
	Stroke   string  // as the journal names it
	Tries    int     // repairs are not among them
	Slips    int     //
	Timed    int     // right, unaided tries, not the first of a line
	MedianMS float64 // of these; 0 without any
	FirstMS  float64 // of the day's first try, where it was right and unaided; else 0
	Minutes  float64 // repair included
}

// Rows collects what was typed by stroke and day, whatever the board. It takes
// drills in any order of days. Five years fit into some tens of megabytes.
type Rows struct {
	cells   []rowCell
	places  map[rowPlace]int32 // index in cells
	strokes []strokeName
	numbers map[strokeName]int32 // index in strokes
}

type strokeName struct{ board, symbol, stroke string }

type rowPlace struct {
	date   date
	stroke int32
}

type rowCell struct {
	rowPlace
	tries, slips int32
	first        float32
	worked       float64
	ms           []float32
}

// Add counts a drill.
func (r *Rows) Add(d journal.Drill) {
	on := dateOf(d.At)
	for i, k := range d.Keys {
		if !k.Flags.Has(journal.Repair) {
			r.cell(on, strokeName{d.Board, k.Symbol, k.Stroke}).add(k, d.Unordered && again(d.Keys, i))
		}
	}
}

// cell finds or makes the cell of a stroke and day.
func (r *Rows) cell(on date, name strokeName) *rowCell {
	if r.places == nil {
		r.places, r.numbers = map[rowPlace]int32{}, map[strokeName]int32{}
	}
	n, ok := r.numbers[name]
	if !ok {
		n = int32(len(r.strokes))
		r.strokes, r.numbers[name] = append(r.strokes, name), n
	}
	at := rowPlace{on, n}
	i, ok := r.places[at]
	if !ok {
		i = int32(len(r.cells))
		r.cells, r.places[at] = append(r.cells, rowCell{rowPlace: at}), i
	}
	return &r.cells[i]
}

func (c *rowCell) add(k journal.Key, unclear bool) {
	if c.tries == 0 && !unclear && hasTime(k) {
		c.first = float32(k.MS)
	}
	c.tries++
	c.worked += worked(k)
	if k.Wrong() {
		c.slips++
	} else if timed(k) {
		c.ms = append(c.ms, float32(k.MS))
	}
}

// All yields the rows by day, board, symbol and stroke. Nothing can be added
// meanwhile.
func (r *Rows) All() iter.Seq[Row] {
	return func(yield func(Row) bool) {
		order := make([]int32, len(r.cells))
		for i := range order {
			order[i] = int32(i)
		}
		slices.SortFunc(order, func(i, j int32) int {
			a, b := r.cells[i], r.cells[j]
			n, m := r.strokes[a.stroke], r.strokes[b.stroke]
			return cmp.Or(cmp.Compare(a.date, b.date), cmp.Compare(n.board, m.board), cmp.Compare(n.symbol, m.symbol), cmp.Compare(n.stroke, m.stroke))
		})
		for _, i := range order {
			if !yield(r.row(r.cells[i])) {
				return
			}
		}
	}
}

func (r *Rows) row(c rowCell) Row {
	name := r.strokes[c.stroke]
	return Row{Date: c.date.String(), Board: name.board, Symbol: name.symbol, Stroke: name.stroke, Tries: int(c.tries), Slips: int(c.slips),
		Timed: len(c.ms), MedianMS: median(c.ms), FirstMS: float64(c.first), Minutes: c.worked / 60000}
}
