package drills

import (
	"slices"
	"testing"

	"underlay/corpus"
	"underlay/drills/board"
)

func load(t testing.TB, name string) *board.Board {
	t.Helper()
	b, err := board.Load(name)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func table(t testing.TB, name string) *corpus.Table {
	t.Helper()
	table, err := corpus.Load(name)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func generator(t testing.TB, boardName string, tables ...string) *Generator {
	t.Helper()
	var mix []corpus.Part
	for _, name := range tables {
		mix = append(mix, corpus.Part{Table: table(t, name), Weight: 1})
	}
	return NewGenerator(load(t, boardName), mix, Options{})
}

// Replaying the strokes that a drill asks for gives its symbols: what is
// drilled is what the board drills, and the prompt shows each of them.
func TestDrillsCanBeTyped(t *testing.T) {
	for _, name := range board.Embedded() {
		g := generator(t, name, "go", "keys")
		for _, k := range drillKinds() {
			for seed := range uint64(50) {
				d, err := g.Generate(k, nil, seed)
				if err != nil {
					t.Fatalf("%s %s: %v", name, k, err)
				}
				typeable(t, g, d)
			}
		}
	}
}

func typeable(t *testing.T, g *Generator, d Drill) {
	t.Helper()
	if len(d.Prompt) != len(d.Keys) {
		t.Fatalf("%v: %d cells for %d keys", d, len(d.Prompt), len(d.Keys))
	}
	for i, k := range d.Keys {
		stroke, ok := g.board.Drilled(k.Symbol)
		if d.Kind == Unseen {
			given, _ := g.board.Gives(g.board.Layers()[0], k.Stroke.Final().Position)
			if given != k.Arrives() {
				t.Errorf("%v: %s is answered by %s, want %s", d, k.Symbol, k.Arrives(), given)
			}
		}
		if !ok || !stroke.Equal(k.Stroke) {
			t.Errorf("%v: stroke %v for %s is not what the board drills", d, k.Stroke, k.Symbol)
		}
		if d.Prompt[i].Text == "" {
			t.Errorf("%v: nothing shown for %s", d, k.Symbol)
		}
	}
}

// drillKinds lists the kinds that a Generator makes.
func drillKinds() []Kind {
	return slices.DeleteFunc(Kinds(), func(k Kind) bool { return k == OwnLine })
}
