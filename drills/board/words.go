package board

import (
	"fmt"
	"strings"
)

// Words says a stroke in words: "hold left thumb 3 · right index finger, home
// row". Thumb keys count from left to right within a half.
func (b *Board) Words(s Stroke) string {
	var parts []string
	for i := 0; i < len(s.Keys); i++ {
		p := s.Keys[i]
		if p.As == AsCombo {
			var names []string
			for ; i < len(s.Keys) && s.Keys[i].As == AsCombo; i++ {
				names = append(names, b.KeyWords(s.Keys[i].Position))
			}
			i--
			parts = append(parts, "together "+strings.Join(names, " + "))
			continue
		}
		parts = append(parts, b.pressWords(p, i == len(s.Keys)-1))
	}
	return strings.Join(parts, " · ")
}

// EnterWords says how a layer is reached: "hold left thumb 3". It is empty for
// the base layer.
func (b *Board) EnterWords(layer string) string {
	s, _ := b.Enters(layer)
	var parts []string
	for _, p := range s.Keys {
		parts = append(parts, b.pressWords(p, false))
	}
	return strings.Join(parts, " · ")
}

func (b *Board) pressWords(p Press, last bool) string {
	name := b.KeyWords(p.Position)
	switch p.As {
	case AsHold:
		if last {
			return "press long " + name
		}
		return "hold " + b.holdWords(p, name)
	case AsLatch, AsLock:
		return string(p.As) + " " + name
	case AsStay:
		return "go by " + name
	}
	return name
}

// holdWords names a held key: on a standard board by its legend, on others by
// its place.
func (b *Board) holdWords(p Press, name string) string {
	n := b.index(p.Position)
	switch {
	case b.Kind != RowStaggered && p.Symbol == "" || n < 0:
		return name
	case b.Kind != RowStaggered:
		return string(p.Symbol) + ", " + name
	case p.Symbol == AltGraph:
		return string(p.Symbol)
	case p.Symbol == "":
		return b.Legend(b.layers[0].name, p.Position).Hold
	}
	return b.keys[n].Hand.String() + " " + string(p.Symbol)
}

// KeyWords names a key by hand, finger and row: "left thumb 3", "right index
// finger, home row, inner column". It is "" for a position that is no key.
func (b *Board) KeyWords(p Position) string {
	n := b.index(p)
	if n < 0 {
		return ""
	}
	k := &b.keys[n]
	switch {
	case k.Finger == Thumb && k.W >= 3:
		return "space bar"
	case k.Finger == Thumb:
		return fmt.Sprintf("%s thumb %d", k.Hand, k.Thumb)
	}
	row := k.Row.String()
	if k.Row == ThumbRow {
		row = "lowest row"
	}
	words := fmt.Sprintf("%s %s finger, %s", k.Hand, k.Finger, row)
	if k.Reach != 0 {
		words += ", " + reachWords(k.Reach)
	}
	return words
}

func reachWords(reach int) string {
	side, n := "inner", reach
	if reach < 0 {
		side, n = "outer", -reach
	}
	if n == 1 {
		return side + " column"
	}
	return fmt.Sprintf("%d columns %s", n, map[string]string{"inner": "in", "outer": "out"}[side])
}
