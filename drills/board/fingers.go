package board

import (
	"fmt"
	"strings"
)

// assignFingers gives each key its finger and, on a row-staggered board, its
// hand: from the shape table where it says, else by the defaults.
func (r *reader) assignFingers(s *shape, keys []Key) {
	if s.kind == RowStaggered {
		r.fingersByRow(s, keys)
		return
	}
	columns := make([]Finger, s.columns())
	for i := range columns {
		columns[i] = defaultFinger(len(columns)-1-i, len(columns))
	}
	if s.fingers != nil {
		if len(s.fingers) != len(columns) {
			r.fault(r.places["shape.fingers"].value, "fingers", fmt.Sprintf("fingers has %d names; it takes %d, one for each column of a half, outer to inner", len(s.fingers), len(columns)), "")
			return
		}
		for i, name := range s.fingers {
			columns[i], _ = r.finger(name, place(r.places[fmt.Sprintf("shape.fingers.%d", i)].value))
		}
	}
	for i := range keys {
		keys[i].Finger = s.fingerOf(keys[i], columns)
	}
}

// defaultFinger is the finger of the column that is so many from the inner
// one: two for the index finger, one each for middle and ring, the rest for
// the little finger. A half of less than five columns has one for the index.
func defaultFinger(fromInner, columns int) Finger {
	if columns < 5 {
		fromInner++
	}
	switch fromInner {
	case 0, 1:
		return Index
	case 2:
		return Middle
	case 3:
		return Ring
	}
	return Little
}

// fingerOf gives thumb keys to the thumb; of a board in one piece only the
// three next to the middle, the rest of that row to the finger above.
func (s *shape) fingerOf(k Key, columns []Finger) Finger {
	line := k.Position.Row - 1
	fromInner := s.left[line] - k.Position.Col
	if k.Hand == Right {
		fromInner = k.Position.Col - s.left[line] - 1
	}
	if k.Row == ThumbRow && (s.kind == Split || fromInner < 3) {
		return Thumb
	}
	return columns[max(len(columns)-1-fromInner, 0)]
}

func (r *reader) finger(name string, at place) (Finger, bool) {
	names := []string{"little", "ring", "middle", "index", "thumb"}
	for i, n := range names {
		if n == name || n[:1] == name {
			return Finger(i), true
		}
	}
	hint := "the fingers are " + strings.Join(names, ", ")
	if near := nearest(name, names); near != "" {
		hint = "did you mean " + near + "?"
	}
	r.fault(at, name, fmt.Sprintf("%q is no finger", name), hint)
	return Index, false
}

// fingersByRow is touch typing by column, as on the standard keyboard (common
// practice): the columns of 1 and 2 belong to little and ring finger, and so
// on; thumbs on the lowest row, by the half the key's middle is in.
func (r *reader) fingersByRow(s *shape, keys []Key) {
	width := 0.0
	for _, k := range keys {
		width = max(width, k.X+k.W)
	}
	columns := strings.Fields("little little ring middle index index index index middle ring little")
	for i := range keys {
		k := &keys[i]
		if k.Row == ThumbRow {
			k.Finger, k.Hand = Thumb, Left
			if k.X+k.W/2 > width/2 {
				k.Hand = Right
			}
			continue
		}
		col := min(k.Position.Col, len(columns)) - 1
		k.Finger, _ = r.finger(columns[col], place{})
		k.Hand = Left
		if col > 5 {
			k.Hand = Right
		}
	}
	if s.fingers != nil {
		r.givenByRow(s, keys)
	}
}

// givenByRow reads fingers = ["l l r m i i || i i m r l", …], a text a row.
func (r *reader) givenByRow(s *shape, keys []Key) {
	at := r.places["shape.fingers"].value
	if len(s.fingers) != len(s.rows) {
		r.fault(at, "fingers", fmt.Sprintf("fingers has %d rows; it takes %d, one for each row of the picture", len(s.fingers), len(s.rows)), "")
		return
	}
	first := 0
	for i, text := range s.fingers {
		at := r.places[fmt.Sprintf("shape.fingers.%d", i)].value
		left, right, parted := strings.Cut(text, "||")
		names := strings.Fields(left + " " + right)
		want := len(s.rows[i].words)
		if !parted || len(names) != want {
			r.fault(at, text, fmt.Sprintf("row %d of fingers has to name a finger for each of its %s, with || between the hands", i+1, keyCount(want)),
				"little, ring, middle, index and thumb, or their first letters")
			first += want
			continue
		}
		for j, name := range names {
			k := &keys[first+j]
			k.Finger, _ = r.finger(name, at)
			k.Hand = Left
			if j >= len(strings.Fields(left)) {
				k.Hand = Right
			}
		}
		first += want
	}
}

// numberThumbs counts the thumb keys of each half from left to right, row by row.
func numberThumbs(keys []Key) {
	var count [2]int
	for i := range keys {
		if k := &keys[i]; k.Finger == Thumb {
			count[k.Hand]++
			k.Thumb = count[k.Hand]
		}
	}
}

// measureReach says how far each key is from its finger's home column. Of
// several columns of one finger that is the inner one for the little finger,
// the outer one for the others.
func measureReach(keys []Key) {
	for i := range keys {
		k := &keys[i]
		if k.Finger == Thumb {
			continue
		}
		inward := 1 // step towards the middle of the board
		if k.Hand == Right {
			inward = -1
		}
		away := -inward
		if k.Finger == Little {
			away = inward
		}
		n := 0
		for j := i + away; j >= 0 && j < len(keys) && sameFinger(keys[j], *k); j += away {
			n++
		}
		if k.Finger == Little {
			n = -n
		}
		k.Reach = n
	}
}

func sameFinger(a, b Key) bool {
	return a.Position.Row == b.Position.Row && a.Hand == b.Hand && a.Finger == b.Finger
}
