package drills

import (
	"testing"

	"underlay/drills/board"
)

// What stands together in code stands together; named keys stand alone.
func TestRenderGroups(t *testing.T) {
	g := generator(t, "split-38", "go", "keys")
	tests := []struct {
		kind    Kind
		symbols []board.Symbol
		want    string
	}{
		{Token, []board.Symbol{")", "Space", "{", "x", ".", "X"}, ")‹␣›{  x.X"},
		{Token, []board.Symbol{"(", ")", "Escape", "=", "="}, "()  ‹Esc›  =="},
		{Token, []board.Symbol{"~", "{", "^"}, "~  {  ^"},
		{Navigation, []board.Symbol{"ArrowLeft", "Control+ArrowLeft", "PageUp"}, "‹←›  ‹Ctrl+←›  ‹PgUp›"},
		{Chord, []board.Symbol{"Control+w", "Alt+x", "Shift+Tab"}, "‹Ctrl+w›  ‹Alt+x›  ‹Shift+Tab›"},
		{Unseen, []board.Symbol{"<pair-1>", "AudioVolumeUp"}, "‹pair-1›  ‹AudioVolumeUp›"},
		{Line, []board.Symbol{"x", "Space", "=", "Space", "1", "Enter"}, "x = 1‹⏎›"},
		{Token, []board.Symbol{"ä", "<forget>", "Control+i", "("}, "("}, // the others may not be asked for
		{Token, nil, ""},
	}
	for _, c := range tests {
		d := g.Render(c.kind, c.symbols)
		if got := d.String(); got != c.want || d.Kind != c.kind {
			t.Errorf("%v: %s %q, want %s %q", c.symbols, d.Kind, got, c.kind, c.want)
		}
	}
}

func TestRenderAsksAsTheBoardDrills(t *testing.T) {
	g := generator(t, "split-38", "go", "keys")
	typeable(t, g, g.Render(Token, []board.Symbol{"(", "<pair-1>", "Escape", "a", "Space"}))
}

func TestKeyName(t *testing.T) {
	for s, want := range map[board.Symbol]string{
		"(": "(", "<": "<", "Space": "␣", "Enter": "⏎", "Tab": "Tab", "Escape": "Esc", "F5": "F5",
		"Control+w": "Ctrl+w", "Control+<": "Ctrl+<", "Control+Shift+F1": "Ctrl+Shift+F1", "<pair-1>": "pair-1", "AltGraph": "AltGr",
	} {
		if got := KeyName(s); got != want {
			t.Errorf("KeyName(%s) = %q, want %q", s, got, want)
		}
	}
}
