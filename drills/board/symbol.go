package board

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Symbol is what the computer receives from one stroke: a character ("("), a
// key by its W3C UI Events name ("Escape", and "Space"), a chord
// ("Control+w"), or "<name>" for a key that does something no computer sees.
type Symbol string

// The named symbols that have a part of their own in typing code.
const (
	Space      Symbol = "Space"
	Enter      Symbol = "Enter"
	Tab        Symbol = "Tab"
	Escape     Symbol = "Escape"
	Backspace  Symbol = "Backspace"
	Delete     Symbol = "Delete"
	Insert     Symbol = "Insert"
	Home       Symbol = "Home"
	End        Symbol = "End"
	PageUp     Symbol = "PageUp"
	PageDown   Symbol = "PageDown"
	ArrowLeft  Symbol = "ArrowLeft"
	ArrowDown  Symbol = "ArrowDown"
	ArrowUp    Symbol = "ArrowUp"
	ArrowRight Symbol = "ArrowRight"
)

// The modifiers, in the order in which a chord names them.
const (
	Control  Symbol = "Control"
	Alt      Symbol = "Alt"
	Shift    Symbol = "Shift"
	Meta     Symbol = "Meta"
	AltGraph Symbol = "AltGraph"
)

// SymbolOf returns the symbol that adds r to a text.
func SymbolOf(r rune) Symbol {
	switch r {
	case ' ':
		return Space
	case '\n':
		return Enter
	case '\t':
		return Tab
	}
	return Symbol(r)
}

// Rune returns what s adds to a text: the character itself, or a blank, a
// line end or a tab for Space, Enter and Tab. It is false for all others.
func (s Symbol) Rune() (rune, bool) {
	switch s {
	case Space:
		return ' ', true
	case Enter:
		return '\n', true
	case Tab:
		return '\t', true
	}
	r, n := utf8.DecodeRuneInString(string(s))
	return r, n > 0 && n == len(s) && r != utf8.RuneError
}

// IsCharacter reports whether s is one character, Space not among them.
func (s Symbol) IsCharacter() bool {
	r, n := utf8.DecodeRuneInString(string(s))
	return n > 0 && n == len(s) && r != utf8.RuneError
}

// Chord takes a chord apart: "Control+w" into Control and w. It is false for
// a symbol that is no chord.
func (s Symbol) Chord() (mods []Symbol, key Symbol, ok bool) {
	rest := string(s)
	for {
		head, tail, found := strings.Cut(rest, "+")
		if !found || tail == "" || !Symbol(head).IsModifier() {
			break
		}
		mods, rest = append(mods, Symbol(head)), tail
	}
	return mods, Symbol(rest), len(mods) > 0
}

// ChordOf joins modifiers and a key in the one spelling that symbols have:
// Control, Alt, Shift, Meta, then the key. Shift with a character is left out,
// since the character says it ("Control+Shift+a" is "Control+A").
func ChordOf(key Symbol, mods ...Symbol) Symbol {
	var b strings.Builder
	b.Grow(len("Control+") + len(key))
	for _, m := range []Symbol{Control, Alt, Shift, Meta, AltGraph} {
		if !slices.Contains(mods, m) {
			continue
		}
		if m == Shift && key.IsCharacter() {
			key = Symbol(strings.ToUpper(string(key)))
			continue
		}
		b.WriteString(string(m))
		b.WriteByte('+')
	}
	b.WriteString(string(key))
	return Symbol(b.String())
}

// IsModifier reports whether s is Control, Alt, Shift, Meta or AltGraph.
func (s Symbol) IsModifier() bool {
	return s == Control || s == Alt || s == Shift || s == Meta || s == AltGraph
}
