package board_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underlay/drills/board"
)

// randomBoard draws a board file. Most are sound; the rest have to be refused
// with findings.
func randomBoard(t *rapid.T) []byte {
	columns := rapid.IntRange(2, 5).Draw(t, "columns")
	rows := rapid.IntRange(1, 3).Draw(t, "rows")
	thumbs := rapid.IntRange(1, columns-1).Draw(t, "thumbs")
	layers := []string{"base", "one", "two", "three", "four"}[:rapid.IntRange(1, 5).Draw(t, "layers")]
	lines := slices.Repeat([]int{columns}, rows)
	lines = append(lines, thumbs)

	var out strings.Builder
	kind := rapid.SampledFrom([]string{"split", "ortholinear"}).Draw(t, "kind")
	layout := rapid.SampledFrom([]string{"us", "gb", "de", "fr"}).Draw(t, "layout")
	fmt.Fprintf(&out, "name = \"random\"\nos-layout = %q\n[shape]\nkind = %q\n", layout, kind)
	when := rapid.IntRange(0, 4).Draw(t, "when")
	for i, name := range layers {
		fmt.Fprintf(&out, "[[layer]]\nname = %q\n", name)
		if i > 2 && i == when {
			fmt.Fprintf(&out, "when = [%q, %q]\n", layers[1], layers[2])
		}
		out.WriteString("keys = '''\n")
		for _, n := range lines {
			for k := range 2 * n {
				if k == n {
					out.WriteString(" ||")
				}
				out.WriteString(" " + randomEntry(t, i, layers))
			}
			out.WriteString("\n")
		}
		out.WriteString("'''\n")
	}
	for range rapid.IntRange(0, 2).Draw(t, "combos") {
		a, b := rapid.IntRange(1, columns).Draw(t, "a"), rapid.IntRange(columns+1, 2*columns).Draw(t, "b")
		fmt.Fprintf(&out, "[[combo]]\nkeys = [\"r1c%d\", \"r1c%d\"]\ngives = %q\n", a, b, rapid.SampledFrom([]string{"Escape", "q", "Control+s", "<pair-1>"}).Draw(t, "gives"))
		if rapid.Bool().Draw(t, "bound") {
			fmt.Fprintf(&out, "layer = %q\n", rapid.SampledFrom(layers).Draw(t, "layer"))
		}
	}
	return []byte(out.String())
}

func randomEntry(t *rapid.T, layer int, layers []string) string {
	if layer > 0 && rapid.IntRange(0, 2).Draw(t, "see-through") > 0 {
		return rapid.SampledFrom([]string{"..", "--"}).Draw(t, "none")
	}
	symbol := func() string {
		return rapid.SampledFrom(strings.Fields("a b e 1 4 / < ( [ ; - + A ! KeyQ Digit3 Minus Escape Tab Space ArrowLeft F5 Control+w Shift+Tab <pair-1> AudioVolumeUp")).Draw(t, "symbol")
	}
	way := func(ways ...string) string {
		if len(layers) == 1 {
			return "--"
		}
		return rapid.SampledFrom(layers[1:]).Draw(t, "target") + ":" + rapid.SampledFrom(ways).Draw(t, "way")
	}
	mod := func() string {
		return rapid.SampledFrom([]string{"Shift", "Control", "Alt", "AltGraph"}).Draw(t, "mod")
	}
	switch rapid.IntRange(0, 11).Draw(t, "entry") {
	case 0:
		return "--"
	case 1, 2:
		return way("hold", "hold", "latch", "lock", "stay")
	case 3:
		return mod()
	case 4:
		if w := way("hold"); w != "--" {
			return symbol() + "/" + w
		}
	case 5:
		return symbol() + "/" + mod()
	case 6:
		return symbol() + "/" + symbol()
	case 7:
		return "base:stay"
	}
	return symbol()
}

// TestRandomBoards: strokes of boards drawn at random give their symbols, and
// whatever one key, or one held and one pressed, gives is found.
func TestRandomBoards(t *testing.T) {
	type table struct {
		glyphs keysyms
		codes  map[string]string
	}
	tables := map[string]table{}
	for _, l := range []string{"us", "gb", "de", "fr"} {
		g, c := published(t, l)
		tables[l] = table{g, c}
	}
	sound := 0
	rapid.Check(t, func(t *rapid.T) {
		src := randomBoard(t)
		b, found := board.Read("random.toml", src)
		if b == nil {
			if found.Err() == nil {
				t.Fatalf("no board and no fault:\n%s", src)
			}
			return
		}
		sound++
		p := tables[b.OSLayout]
		roundTrip(t, b, p.glyphs, p.codes)
		nothingMissed(t, b, simulate(t, src, p.glyphs, p.codes))
	})
	if sound == 0 {
		t.Error("no board was sound")
	}
}

// nothingMissed tries single keys, and pairs of one held and one pressed.
func nothingMissed(t *rapid.T, b *board.Board, s *simulation) {
	dos := []board.As{board.AsPress, board.AsTap, board.AsHold}
	for _, k := range b.Keys() {
		for _, as := range dos {
			alone := board.Stroke{Keys: []board.Press{{Position: k.Position, As: as}}}
			got, err := s.play(alone)
			if err == nil && len(got) == 1 {
				mustList(t, b, board.Symbol(got[0]), alone)
			}
			for _, h := range b.Keys() {
				pair := board.Stroke{Keys: []board.Press{{Position: h.Position, As: board.AsHold}, alone.Keys[0]}}
				with, errWith := s.play(pair)
				if errWith == nil && len(with) == 1 && !(err == nil && slices.Equal(got, with)) {
					mustList(t, b, board.Symbol(with[0]), pair)
				}
			}
		}
	}
}

func mustList(t *rapid.T, b *board.Board, s board.Symbol, stroke board.Stroke) {
	if mods, key, _ := s.Chord(); !ascii(string(key)) || len(mods) > 1 {
		return // a modifier held with a key that is a chord itself is not looked for
	}
	for _, known := range b.Strokes(s) {
		if known.Equal(stroke) {
			return
		}
	}
	t.Errorf("%s by %s is not found:\n%s", s, stroke, b.Source())
}
