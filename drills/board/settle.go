package board

// settle gives standard keys their meaning under the OS layout, and the keys
// of the first layer their code and grid name.
func (r *reader) settle() {
	for i := range r.board.layers {
		cells := r.board.layers[i].cells
		for k := range cells {
			row := BottomRow
			if k < len(r.board.keys) {
				row = r.board.keys[k].Row
			}
			if m := cells[k].tap; i == 0 && k < len(r.board.keys) && r.standard(m) {
				r.board.keys[k].Code = cells[k].text
				r.board.keys[k].Grid = r.vocab.gridAt(cells[k].text, row)
			}
			cells[k].tap = r.settled(cells[k].tap, row)
			cells[k].hold = r.settled(cells[k].hold, row)
		}
	}
}

// standard reports whether a meaning names a key of the standard keyboard. On
// a row-staggered board every key has a code; some are spelt like what they give.
func (r *reader) standard(m meaning) bool {
	return m.verb == physKey || r.board.Kind == RowStaggered && m.verb == gives && len(m.symbol) > 1 && !m.symbol.IsCharacter()
}

func (r *reader) settled(m meaning, row Row) meaning {
	if m.verb != physKey {
		return m
	}
	if m.code == "AltRight" && r.board.layout != nil && r.board.layout.altGraph {
		return meaning{verb: modifies, symbol: AltGraph}
	}
	fixed := r.vocab.codes[m.code].fixed
	switch {
	case fixed == "":
		return m
	case fixed.IsModifier():
		return meaning{verb: modifies, symbol: fixed}
	}
	return meaning{verb: gives, symbol: fixed}
}
