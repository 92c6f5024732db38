package board

// keys makes the keys in order, with half and row.
func (s *shape) keys() []Key {
	var keys []Key
	for i, d := range s.rows {
		for j := range d.words {
			k := Key{Position: Position{i + 1, j + 1}, Row: s.rowOf(i), W: 1}
			if j >= s.left[i] {
				k.Hand = Right
			}
			if w, ok := s.widths[k.Position]; ok {
				k.W = w
			}
			keys = append(keys, k)
		}
	}
	return keys
}

// rowOf says which row a line is. The line above the bottom one is the home row;
// so is the only one of a board with a single row.
func (s *shape) rowOf(line int) Row {
	main := len(s.rows) - s.thumbs
	if line >= main {
		return ThumbRow
	}
	return min(BottomRow+Row(main-1-line)+Row(btoi(main == 1)), FunctionRow)
}

// place gives the keys their coordinates, the upper left of all at 0, 0.
func (s *shape) place(keys []Key) {
	if s.kind == RowStaggered {
		s.placeRows(keys)
	} else {
		s.placeColumns(keys)
	}
	x, y := keys[0].X, keys[0].Y
	for _, k := range keys {
		x, y = min(x, k.X), min(y, k.Y)
	}
	for i := range keys {
		keys[i].X -= x
		keys[i].Y -= y
	}
}

func (s *shape) offset(line int) float64 {
	if line < len(s.offsets) {
		return s.offsets[line]
	}
	return 0
}

func (s *shape) placeRows(keys []Key) {
	row, x := 0, 0.0
	for i := range keys {
		k := &keys[i]
		if k.Position.Row != row {
			row, x = k.Position.Row, s.offset(k.Position.Row-1)
		}
		k.X, k.Y = x, float64(row-1)
		x += k.W
	}
}

// placeColumns puts rows in columns. The thumb keys of a half end one key
// beyond its inner column on a split board, and lie under it on another.
func (s *shape) placeColumns(keys []Key) {
	left, right := s.left[0], len(s.rows[0].words)-s.left[0]
	apart, beyond := 0.0, 0
	if s.kind == Split {
		apart, beyond = gap, 1
	}
	middle := float64(left) + apart
	for i := range keys {
		k := &keys[i]
		line, half := k.Position.Row-1, s.left[k.Position.Row-1]
		col := k.Position.Col - 1 // column of the half, from its left edge
		if k.Hand == Right {
			col -= half
		}
		k.Y = float64(line)
		if k.Row == ThumbRow {
			if k.Hand == Left {
				col += left - half + beyond
			} else {
				col -= beyond
			}
			k.Y += s.lowest(right)
		} else {
			k.Y += s.staggerAt(k.Hand, col, right)
		}
		k.X = float64(col) - s.offset(line)
		if k.Hand == Right {
			k.X = middle + float64(col) + s.offset(line)
		}
	}
}

// staggerAt is how far a column is shifted down; right is how many columns the
// right half has.
func (s *shape) staggerAt(h Hand, col, right int) float64 {
	outer := col
	if h == Right {
		outer = right - 1 - col
	} else {
		outer += s.columns() - s.left[0]
	}
	if h == Right {
		outer += s.columns() - right
	}
	if outer >= 0 && outer < len(s.stagger) {
		return s.stagger[outer]
	}
	return 0
}

// lowest is how far the inner columns, which the thumb keys lie under, reach
// below the unshifted rows.
func (s *shape) lowest(right int) float64 {
	low := 0.0
	for i := max(len(s.stagger)-3, 0); i < len(s.stagger); i++ {
		low = max(low, s.stagger[i])
	}
	if s.kind == Split {
		low += 0.2
	}
	return low
}
