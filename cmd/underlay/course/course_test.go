package course

import (
	"math"
	"testing"

	"underlay/corpus"
	"underlay/drills/board"
	"underlay/scheduler"
)

// embedded returns a course of embedded boards on the embedded tables.
func embedded(t testing.TB, change func(*Config)) *Course {
	t.Helper()
	c := Config{Seed: 1}
	for _, name := range []string{"split-38", "ansi-61"} {
		b, err := board.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		c.Boards = append(c.Boards, b)
	}
	code, err := corpus.Load("go")
	if err != nil {
		t.Fatal(err)
	}
	if c.Keys, err = corpus.Load("keys"); err != nil {
		t.Fatal(err)
	}
	c.Mix = []corpus.Part{{Table: code, Weight: 1}}
	if change != nil {
		change(&c)
	}
	k, err := New(c)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func TestSharesOfEachBoardSumToOne(t *testing.T) {
	c := embedded(t, nil)
	sum := map[int]float64{}
	for id, f := range c.strokes.features {
		sum[f.Board] += f.Freq
		if f.Switch < 0 || f.Switch > 1 || math.IsNaN(f.Switch) {
			t.Errorf("%s: switch share %v", c.strokes.all[id].Symbol, f.Switch)
		}
	}
	for b := range 2 {
		if math.Abs(sum[b]-1) > 1e-9 {
			t.Errorf("board %d: shares sum to %v", b, sum[b])
		}
	}
}

// The stroke of a symbol on one board leads to that of the same symbol on the
// other, and back.
func TestOtherBoardLeadsBack(t *testing.T) {
	c := embedded(t, nil)
	for id, f := range c.strokes.features {
		if f.Other < 0 {
			continue
		}
		if c.strokes.all[f.Other].Symbol != c.strokes.all[id].Symbol || c.strokes.features[f.Other].Other != id {
			t.Errorf("%s leads to %+v", c.strokes.all[id].Symbol, c.strokes.all[f.Other])
		}
	}
	if id, ok := c.ID(0, "("); !ok || c.strokes.features[id].Other < 0 {
		t.Error("( has no other board")
	}
}

// A bracket on a layer follows letters of the base layer nearly always, and a
// letter seldom follows a bracket.
func TestSwitchSharesComeFromPairs(t *testing.T) {
	c := embedded(t, nil)
	bracket, _ := c.ID(0, "(")
	letter, _ := c.ID(0, "e")
	if got := c.strokes.features[bracket].Switch; got < .8 {
		t.Errorf("( switches in %v", got)
	}
	if got := c.strokes.features[letter].Switch; got > .3 {
		t.Errorf("e switches in %v", got)
	}
}

// Every printable ASCII character, Escape and the arrows are asked for; keys
// that are kept, and what a terminal cannot receive, are not.
func TestWhatIsAskedFor(t *testing.T) {
	c := embedded(t, func(c *Config) { c.Keeps = []board.Symbol{"F11"} })
	for r := '!'; r <= '~'; r++ {
		if _, ok := c.ID(0, board.SymbolOf(r)); !ok {
			t.Errorf("%q is not asked for", r)
		}
	}
	for _, s := range []board.Symbol{board.Escape, board.ArrowLeft, board.Space, board.Tab, "F5"} {
		if _, ok := c.ID(0, s); !ok {
			t.Errorf("%s is not asked for", s)
		}
	}
	for _, s := range []board.Symbol{"F11", "AudioVolumeUp", "Shift"} {
		if _, ok := c.ID(0, s); ok {
			t.Errorf("%s is asked for", s)
		}
	}
}

// What an exercise names is what its drill asks for.
func TestDrillAsksForTheExercise(t *testing.T) {
	c := embedded(t, nil)
	for _, text := range []string{"({[", "a=b", "e"} {
		e := scheduler.Exercise{Line: -1}
		for _, r := range text {
			id, ok := c.ID(0, board.SymbolOf(r))
			if !ok {
				t.Fatalf("no stroke for %q", r)
			}
			e.Items = append(e.Items, id)
		}
		got := ""
		for _, k := range c.Drill(e).Keys {
			got += string(k.Symbol)
		}
		if got != text {
			t.Errorf("asked for %q, drilled %q", text, got)
		}
	}
}
