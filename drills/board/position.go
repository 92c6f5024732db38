package board

import "fmt"

// Position names a key by its place in the picture of a layer: "r2c3" is the
// third key from the left, over both halves, in the second row. Both count
// from 1; the zero Position is no key.
type Position struct{ Row, Col int }

func (p Position) String() string { return fmt.Sprintf("r%dc%d", p.Row, p.Col) }

// ParsePosition reads what String writes.
func ParsePosition(s string) (Position, error) {
	var p Position
	n, err := fmt.Sscanf(s, "r%dc%d", &p.Row, &p.Col)
	if n != 2 || err != nil || p.String() != s || p.Row < 1 || p.Col < 1 {
		return Position{}, fmt.Errorf("%q is no position: a position is written like r2c3", s)
	}
	return p, nil
}

// Hand is the hand that strikes a key.
type Hand int8

const (
	Left Hand = iota
	Right
)

func (h Hand) String() string { return [...]string{"left", "right"}[h] }

// Finger is the finger that strikes a key.
type Finger int8

const (
	Little Finger = iota
	Ring
	Middle
	Index
	Thumb
)

func (f Finger) String() string {
	return [...]string{"little", "ring", "middle", "index", "thumb"}[f]
}

// Row is a row by its place from the hand: rows A to E and K of ISO/IEC 9995-1.
type Row int8

const (
	ThumbRow Row = iota
	BottomRow
	HomeRow
	TopRow
	NumberRow
	FunctionRow
)

func (r Row) String() string {
	return [...]string{"thumb row", "bottom row", "home row", "top row", "number row", "function row"}[r]
}

// Key is one physical key.
type Key struct {
	Position Position
	Hand     Hand
	Finger   Finger
	Row      Row
	// X and Y are the upper left corner and W the width, in key units from
	// the upper left of the board; every key is one unit high.
	X, Y, W float64
	// Thumb counts the thumb keys of a half from left to right, from 1; 0 for others.
	Thumb int
	// Reach is how many columns the key lies from the home column of its
	// finger: positive towards the middle of the board.
	Reach int
	// Code is the W3C UI Events code and Grid the ISO/IEC 9995-1 name, on
	// standard boards.
	Code, Grid string
}

// MarshalText writes p as String does, so that JSON has it as text.
func (p Position) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (p *Position) UnmarshalText(text []byte) error {
	q, err := ParsePosition(string(text))
	if err == nil {
		*p = q
	}
	return err
}
