package corpus

// indents counts how lines are indented. What one level is shows at the end of
// a file.
type indents struct {
	widths []uint16 // of the file's lines, in characters
	tabs   int      // lines with a tab
	units  [9]uint64
	depths [13]uint64
	steps  [9]uint64 // from -4 to 4 levels
}

// unitTab is the place in units of a level that is one tab; the others are
// numbers of spaces.
const unitTab = 0

func (in *indents) line(indent []byte) {
	in.widths = append(in.widths, uint16(min(len(indent), 1000)))
	if len(indent) > 0 && indent[0] == '\t' {
		in.tabs++
	}
}

func (in *indents) endFile() {
	unit, step := in.unit()
	if unit >= 0 {
		in.units[unit]++
		before := 0
		for _, w := range in.widths {
			depth := int(w) / step
			in.depths[min(depth, len(in.depths)-1)]++
			in.steps[min(max(depth-before, -4), 4)+4]++
			before = depth
		}
	}
	in.widths, in.tabs = in.widths[:0], 0
}

// unit returns the place in units, or -1 where nothing is indented, and the
// width of a level: the commonest widening from one line to the next.
func (in *indents) unit() (place, step int) {
	var wider [9]int
	indented := 0
	before := 0
	for _, w := range in.widths {
		if more := int(w) - before; 0 < more && more < len(wider) {
			wider[more]++
		}
		if w > 0 {
			indented++
		}
		before = int(w)
	}
	if indented == 0 {
		return -1, 1
	}
	if in.tabs > indented/2 {
		return unitTab, 1
	}
	best := 4
	for n := 2; n < len(wider); n++ {
		if wider[n] > wider[best] {
			best = n
		}
	}
	return best, best
}

func (in *indents) merge(o *indents) {
	sum(in.units[:], o.units[:])
	sum(in.depths[:], o.depths[:])
	sum(in.steps[:], o.steps[:])
}
