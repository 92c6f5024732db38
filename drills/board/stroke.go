package board

import (
	"fmt"
	"slices"
	"strings"
)

// As says what a key does in a stroke.
type As string

const (
	// AsHold keeps the key down until the next press: for a layer, a
	// modifier, or the held meaning of a tap-and-hold key.
	AsHold As = "hold"
	// AsPress presses a key that has one meaning.
	AsPress As = "press"
	// AsTap presses a tap-and-hold key shortly.
	AsTap As = "tap"
	// AsLatch taps a key that opens a layer for the next key.
	AsLatch As = "latch"
	// AsLock taps a key that opens a layer until it is pressed again.
	AsLock As = "lock"
	// AsStay taps a key that opens a layer for good.
	AsStay As = "stay"
	// AsCombo presses the key together with its neighbours in the stroke
	// that are also AsCombo.
	AsCombo As = "combo"
)

// Press is one key's part in a stroke.
type Press struct {
	Position Position `json:"position"`
	As       As       `json:"as"`
	// Symbol is the modifier that is held; empty for all other presses.
	Symbol Symbol `json:"symbol,omitempty"`
	// Code and Grid are the W3C code and the ISO/IEC 9995-1 name, on standard boards.
	Code string `json:"code,omitempty"`
	Grid string `json:"grid,omitempty"`
}

// Stroke is one way to produce a symbol. The keys are in order. Keys held are
// let go after the next press, tap or combo.
type Stroke struct {
	Keys []Press `json:"keys"`
	// Layer is the one that gives the last key its meaning.
	Layer string `json:"layer"`
	// Level is 0 plain, 1 with Shift, 2 with AltGraph, 3 with both: the levels
	// of ISO/IEC 9995 less one. It counts only what the hands hold.
	Level int `json:"level"`
	// Effort is at least 1; see effort.go.
	Effort float64 `json:"effort"`
}

// Final returns the last key.
func (s Stroke) Final() Press {
	if len(s.Keys) == 0 {
		return Press{}
	}
	return s.Keys[len(s.Keys)-1]
}

// Holds returns the keys that are held while the last one is pressed.
func (s Stroke) Holds() []Press {
	var holds []Press
	for i, p := range s.Keys {
		switch {
		case i == len(s.Keys)-1:
		case p.As == AsHold:
			holds = append(holds, p)
		case p.As == AsPress || p.As == AsTap:
			holds = nil
		}
	}
	return holds
}

// String writes the keys as the journal names them: "r4c7:hold r2c2". A plain
// press is not marked.
func (s Stroke) String() string {
	var b strings.Builder
	for i, p := range s.Keys {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(p.Position.String())
		if p.As != AsPress {
			b.WriteString(":" + string(p.As))
		}
	}
	return b.String()
}

// Equal reports whether both strokes are the same keys done in the same way.
func (s Stroke) Equal(t Stroke) bool {
	return slices.EqualFunc(s.Keys, t.Keys, func(a, b Press) bool {
		return a.Position == b.Position && a.As == b.As
	})
}

// ParseStroke reads what String writes; layer, level and effort stay empty.
func ParseStroke(text string) (Stroke, error) {
	var s Stroke
	for word := range strings.FieldsSeq(text) {
		name, as, found := strings.Cut(word, ":")
		if !found {
			as = string(AsPress)
		}
		p, err := ParsePosition(name)
		if err != nil {
			return Stroke{}, fmt.Errorf("stroke %q: %w", text, err)
		}
		if !slices.Contains([]As{AsHold, AsPress, AsTap, AsLatch, AsLock, AsStay, AsCombo}, As(as)) {
			return Stroke{}, fmt.Errorf("stroke %q: a key is done as hold, press, tap, latch, lock, stay or combo, not %q", text, as)
		}
		s.Keys = append(s.Keys, Press{Position: p, As: As(as)})
	}
	if len(s.Keys) == 0 {
		return Stroke{}, fmt.Errorf("stroke %q: no key in it", text)
	}
	return s, nil
}
