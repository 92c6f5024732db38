package standing

import (
	"cmp"
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
// drills in any order of days.
type Rows struct {
	cells map[rowKey]*rowCell
	names map[string]string // one copy of each word
}

type rowKey struct {
	date                  date
	board, symbol, stroke string
}

type rowCell struct {
	tries, slips int
	worked       float64
	ms           []float32
	first        float32
}

// Add counts a drill.
func (r *Rows) Add(d journal.Drill) {
	if r.cells == nil {
		r.cells, r.names = map[rowKey]*rowCell{}, map[string]string{}
	}
	on := dateOf(d.At)
	for i, k := range d.Keys {
		if k.Flags.Has(journal.Repair) {
			continue
		}
		key := rowKey{on, r.name(d.Board), r.name(k.Symbol), r.name(k.Stroke)}
		c := r.cells[key]
		if c == nil {
			c = &rowCell{}
			r.cells[key] = c
		}
		c.add(k, d.Unordered && again(d.Keys, i))
	}
}

func (c *rowCell) add(k journal.Key, unclear bool) {
	alone := k
	alone.Flags &^= journal.First
	if c.tries == 0 && !unclear && timed(alone) {
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

func (r *Rows) name(s string) string {
	if n, ok := r.names[s]; ok {
		return n
	}
	r.names[s] = s
	return s
}

// All returns the rows by day, board, symbol and stroke.
func (r *Rows) All() []Row {
	keys := make([]rowKey, 0, len(r.cells))
	for k := range r.cells {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b rowKey) int {
		return cmp.Or(cmp.Compare(a.date, b.date), cmp.Compare(a.board, b.board), cmp.Compare(a.symbol, b.symbol), cmp.Compare(a.stroke, b.stroke))
	})
	out := make([]Row, 0, len(keys))
	for _, k := range keys {
		c := r.cells[k]
		out = append(out, Row{Date: k.date.String(), Board: k.board, Symbol: k.symbol, Stroke: k.stroke, Tries: c.tries, Slips: c.slips,
			Timed: len(c.ms), MedianMS: median(c.ms), FirstMS: float64(c.first), Minutes: c.worked / 60000})
	}
	return out
}
