package drills

import (
	"errors"
	"slices"
	"sync"
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

// The same seed gives the same drill, from another generator and from several
// goroutines too; other seeds give others.
func TestSeedsReproduce(t *testing.T) {
	wanted := []map[board.Symbol]float64{nil, plans()["marks"], plans()["weak"], {"<pair-1>": 1, "ArrowUp": 2, "F5": 1, "Control+w": 1}}
	one := generator(t, "split-38", "go", "shell", "sql", "keys")
	two := generator(t, "split-38", "go", "shell", "sql", "keys")
	for _, k := range drillKinds() {
		seen := map[string]bool{}
		for seed := range uint64(40) {
			w := wanted[seed%4]
			a, _ := one.Generate(k, w, seed)
			var b, c Drill
			var wait sync.WaitGroup
			wait.Go(func() { b, _ = two.Generate(k, w, seed) })
			wait.Go(func() { c, _ = two.Generate(k, w, seed) })
			wait.Wait()
			if a.String() != b.String() || b.String() != c.String() || !slices.Equal(a.Notes, b.Notes) {
				t.Fatalf("%s, seed %d: %v, %v and %v", k, seed, a, b, c)
			}
			seen[a.String()] = true
		}
		if len(seen) < 8 {
			t.Errorf("%s: %d drills from 40 seeds", k, len(seen))
		}
	}
}

// Never what the board lacks, the terminal does not pass on, or something
// keeps; never a key that is not to be pressed in vain.
func TestNeverAsked(t *testing.T) {
	b := load(t, "split-38")
	kept := []board.Symbol{"F11", "(", "Control+w", "<pair-2>"}
	mix := []corpus.Part{{Table: table(t, "go"), Weight: 1}, {Table: table(t, "keys"), Weight: 1}}
	g := NewGenerator(b, mix, Options{Keeps: kept})
	wanted := map[board.Symbol]float64{"(": 5, ")": 1, "F11": 5, "F5": 1, "Control+w": 5, "Control+a": 1, "Control+i": 5, "Meta+a": 5,
		"<pair-2>": 5, "<pair-1>": 1, "<forget>": 5, "ä": 5, "Escape": 1}
	for _, k := range drillKinds() {
		for seed := range uint64(60) {
			w := wanted
			if seed%2 == 0 {
				w = nil
			}
			d, err := g.Generate(k, w, seed)
			if err != nil && !errors.Is(err, ErrNothing) {
				t.Fatal(err)
			}
			for _, key := range d.Keys {
				s := key.Symbol
				if slices.Contains(kept, s) || !Received(key.Arrives()) || inVain(b, key.Stroke) {
					t.Errorf("%s asks for %s: %v", k, s, d)
				}
			}
		}
	}
	forget, ok := b.Drilled("<forget>")
	if !ok || !inVain(b, forget) {
		t.Fatal("split-38 has no key that is not to be pressed in vain")
	}
	if _, ok := g.Ask("<forget>"); ok {
		t.Error("a key that is not to be pressed in vain may be asked for")
	}
}

// inVain tells whether a stroke ends on a key that is written with a !.
func inVain(b *board.Board, s board.Stroke) bool {
	return b.Legend(s.Layer, s.Final().Position).Never
}

func TestNothingToDrill(t *testing.T) {
	g := generator(t, "split-38", "go", "keys")
	for _, c := range []struct {
		kind   Kind
		wanted map[board.Symbol]float64
	}{
		{OwnLine, nil},
		{Chord, map[board.Symbol]float64{"(": 1}},
		{Number, map[board.Symbol]float64{"Escape": 1}},
		{Unseen, map[board.Symbol]float64{"(": 1}},
		{Position, map[board.Symbol]float64{"ä": 1}},
		{"dance", nil},
	} {
		if d, err := g.Generate(c.kind, c.wanted, 1); !errors.Is(err, ErrNothing) || len(d.Keys) > 0 {
			t.Errorf("%s of %v: %v, %v; want nothing to drill", c.kind, c.wanted, d, err)
		}
	}
	none := NewGenerator(load(t, "split-38"), nil, Options{})
	if _, err := none.Generate(Line, nil, 1); !errors.Is(err, ErrNothing) {
		t.Errorf("lines of no table: %v", err)
	}
}

// Switch drills change the layer with every stroke, position drills keep equal
// strokes apart.
func TestSwitchAndPositionKeepTheirWord(t *testing.T) {
	g := generator(t, "split-38", "go", "keys")
	for name, wanted := range plans() {
		for seed := range uint64(50) {
			d, err := g.Generate(Switch, wanted, seed)
			if err != nil {
				t.Fatal(err)
			}
			for i := 1; i < len(d.Keys); i++ {
				if d.Keys[i].Stroke.Layer == d.Keys[i-1].Stroke.Layer {
					t.Errorf("%s: %v stays on %s", name, d, d.Keys[i].Stroke.Layer)
				}
			}
			p, err := g.Generate(Position, wanted, seed)
			if err != nil {
				t.Fatal(err)
			}
			for i := 1; i < len(p.Keys) && name != "uneven"; i++ { // there = is three of four
				if p.Keys[i].Symbol == p.Keys[i-1].Symbol {
					t.Errorf("%s: %v has %s twice in a row", name, p, p.Keys[i].Symbol)
				}
			}
		}
	}
}

// The weights of a mix are shares of strokes.
func TestPool(t *testing.T) {
	g := generator(t, "split-38", "go", "python", "keys")
	strokes := map[string]int{}
	for _, d := range g.Pool(1000, 1) {
		typeable(t, g, d)
		strokes[d.Language] += len(d.Keys)
	}
	share := float64(strokes["go"]) / float64(strokes["go"]+strokes["python"])
	if len(strokes) != 2 || share < .45 || share > .55 {
		t.Errorf("strokes of lines in two languages of one weight: %v", strokes)
	}
}
