package board

import (
	"slices"
	"strings"

	"github.com/rivo/uniseg"
)

// Legend is what to write on a key.
type Legend struct {
	// Tap is what the key gives when it is pressed, Hold what it does when
	// held; either may be empty. Both are safe to show.
	Tap, Hold string
	// Shift is what the key gives with Shift on a standard board, where it
	// is a character and not the upper case of Tap.
	Shift string
	// Through marks a key that falls through to a layer below; Tap and Hold
	// are then what it has there.
	Through bool
	// Unseen marks a key that does something no program sees; Never one that
	// is not to be pressed in vain.
	Unseen, Never bool
	// Dead marks a dead key; Tap is then the mark on a dotted circle.
	Dead bool
}

// Empty reports whether the key does nothing.
func (l Legend) Empty() bool { return l.Tap == "" && l.Hold == "" }

// Short returns the legend in at most four cells: the tap, or else the hold.
func (l Legend) Short() string {
	if l.Tap != "" {
		return shorten(l.Tap)
	}
	return shorten(l.Hold)
}

// ShortHold returns the hold in at most four cells.
func (l Legend) ShortHold() string { return shorten(l.Hold) }

// shorten cuts a name down to four cells: a usual short form where there is
// one, else its first letters.
func shorten(s string) string {
	if mods, key, ok := Symbol(s).Chord(); ok {
		var short strings.Builder
		for _, m := range mods {
			short.WriteString(map[Symbol]string{Control: "C-", Alt: "A-", Shift: "S-", Meta: "M-", AltGraph: "G-"}[m])
		}
		return cut(short.String()+shorten(string(key)), 4)
	}
	if short := shortForm(s); short != "" {
		return short
	}
	if name, n, ok := strings.Cut(s, "-"); ok && len(n) == 1 && uniseg.StringWidth(s) > 4 {
		return cut(name, 3) + n // <pair-1> is not <pair-2>
	}
	return cut(s, 4)
}

// shortForm is the usual short form of a key's name, or "".
func shortForm(name string) string {
	switch name {
	case "Space":
		return "spc"
	case "Enter":
		return "ent"
	case "Tab":
		return "tab"
	case "Escape":
		return "esc"
	case "Backspace":
		return "bsp"
	case "Delete":
		return "del"
	case "Insert":
		return "ins"
	case "ArrowLeft":
		return "←"
	case "ArrowDown":
		return "↓"
	case "ArrowUp":
		return "↑"
	case "ArrowRight":
		return "→"
	case "Home":
		return "home"
	case "End":
		return "end"
	case "PageUp":
		return "pgup"
	case "PageDown":
		return "pgdn"
	case "Control":
		return "ctl"
	case "Alt":
		return "alt"
	case "Shift":
		return "shft"
	case "Meta":
		return "meta"
	case "AltGraph":
		return "altg"
	case "CapsLock":
		return "caps"
	case "ContextMenu":
		return "menu"
	case "PrintScreen":
		return "prt"
	case "ScrollLock":
		return "scrl"
	case "NumLock":
		return "num"
	case "AudioVolumeUp":
		return "vol+"
	case "AudioVolumeDown":
		return "vol-"
	case "AudioVolumeMute":
		return "mute"
	case "MediaPlayPause":
		return "play"
	case "MediaTrackNext":
		return "next"
	case "MediaTrackPrevious":
		return "prev"
	case "BrightnessUp":
		return "bri+"
	case "BrightnessDown":
		return "bri-"
	}
	return ""
}

// cut returns as many characters of s as fit the cells.
func cut(s string, cells int) string {
	if uniseg.StringWidth(s) <= cells {
		return s
	}
	out, width := "", 0
	for g := uniseg.NewGraphemes(s); g.Next(); {
		if width += g.Width(); width > cells {
			break
		}
		out += g.Str()
	}
	return out
}

// view notes which layers lie under each one when its legends are shown: as in
// the shortest way to it.
func (b *Board) view() {
	b.stacks = make([][]int, len(b.layers))
	b.enters = make([]int, len(b.layers))
	for i, s := range b.states {
		if top := s.stack[0]; b.stacks[top] == nil {
			b.stacks[top], b.enters[top] = s.stack, i
		}
	}
	for l := range b.layers {
		if b.stacks[l] == nil {
			b.stacks[l] = slices.Compact([]int{l, 0})
		}
	}
}

// Legend returns what to write on the key at p while layer is active.
func (b *Board) Legend(layer string, p Position) Legend {
	l, key := b.layerIndex(layer), b.index(p)
	if l < 0 || key < 0 {
		return Legend{}
	}
	e, at := b.find(b.stacks[l], key)
	legend := Legend{Through: at != l, Tap: b.legendOf(e.tap, 0), Hold: b.legendOf(e.hold, 0)}
	if legend.Tap != "" && (e.tap.verb == opens && e.tap.as == AsHold || e.tap.verb == modifies) {
		legend.Tap, legend.Hold = "", legend.Tap
	}
	if e.tap.verb == physKey {
		levels := b.layout.keys[e.tap.code]
		legend.Dead = levels[0].dead != 0
		if up := b.legendOf(e.tap, 1); up != strings.ToUpper(legend.Tap) {
			legend.Shift = up
		}
	}
	legend.Unseen = e.tap.verb == unseen || e.tap.verb == gives && e.tap.symbol.Unseen()
	legend.Never = e.tap.never || e.hold.never
	return legend
}

// LegendAt is Legend with the modifiers of a level held: what the key gives
// with Shift (1), AltGraph (2) or both (3).
func (b *Board) LegendAt(layer string, level int, p Position) Legend {
	l := b.Legend(layer, p)
	n, key := b.layerIndex(layer), b.index(p)
	if level == 0 || n < 0 || key < 0 {
		return l
	}
	e, _ := b.find(b.stacks[n], key)
	switch e.tap.verb {
	case physKey:
		l.Tap, l.Dead, l.Shift = b.legendOf(e.tap, level), b.layout.keys[e.tap.code][level].dead != 0, ""
	case gives:
		if c, ok := b.layout.above(e.tap.symbol, level); ok {
			l.Tap, l.Shift = Safe(string(c)), ""
		}
	}
	return l
}

func (b *Board) legendOf(m meaning, level int) string {
	switch m.verb {
	case gives, modifies:
		return Safe(string(m.symbol))
	case unseen:
		name := strings.Trim(string(m.symbol), "<>")
		if m.never {
			name += "!"
		}
		return Safe(name)
	case opens:
		if m.as == AsHold {
			return m.target
		}
		return m.target + " " + string(m.as)
	case physKey:
		g := b.layout.keys[m.code][level&3]
		if g.dead != 0 {
			return Safe(string(g.dead))
		}
		return Safe(string(g.char))
	}
	return ""
}

// Enters returns the keys that open a layer in the shortest way, held, latched,
// locked or gone to for good: a stroke without its last key. It is empty for
// the base layer, and false for a layer that is not there.
func (b *Board) Enters(layer string) (Stroke, bool) {
	l := b.layerIndex(layer)
	if l < 0 {
		return Stroke{}, false
	}
	s := Stroke{Layer: layer}
	for _, a := range b.states[b.enters[l]].path {
		s.Keys = append(s.Keys, b.press(step{a.key, a.as, ""}))
	}
	return s, true
}

// Combo is keys that give something of their own when pressed together.
type Combo struct {
	Keys  []Position
	Gives string // safe to show
	Layer string // the one it works on; empty for any
}

// Combos returns the combos in the order of the file.
func (b *Board) Combos() []Combo {
	var out []Combo
	for _, c := range b.combos {
		shown := Combo{Gives: b.legendOf(c.gives, 0)}
		for _, k := range c.keys {
			shown.Keys = append(shown.Keys, b.keys[k].Position)
		}
		if c.layer >= 0 {
			shown.Layer = b.layers[c.layer].name
		}
		out = append(out, shown)
	}
	return out
}

// Gives returns the symbol of a tap at p while layer is active; what falls
// through is followed. It is false where the key gives no symbol by itself.
func (b *Board) Gives(layer string, p Position) (Symbol, bool) {
	l, key := b.layerIndex(layer), b.index(p)
	if l < 0 || key < 0 {
		return "", false
	}
	e, _ := b.find(b.stacks[l], key)
	switch e.tap.verb {
	case gives, unseen:
		return e.tap.symbol, true
	case physKey:
		c := b.layout.keys[e.tap.code][0].char
		return c, c != ""
	}
	return "", false
}
