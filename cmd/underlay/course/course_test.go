package course

import (
	"math"
	"slices"
	"strings"
	"testing"

	"underlay/corpus"
	"underlay/drills"
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

// Every printable ASCII character, Escape, the arrows, and keys that no program
// sees, by their position, are asked for; keys that are kept or not to be pressed
// in vain, and modifiers, are not.
func TestWhatIsAskedFor(t *testing.T) {
	c := embedded(t, func(c *Config) { c.Keeps = []board.Symbol{"F11"} })
	for r := '!'; r <= '~'; r++ {
		if _, ok := c.ID(0, board.SymbolOf(r)); !ok {
			t.Errorf("%q is not asked for", r)
		}
	}
	for _, s := range []board.Symbol{board.Escape, board.ArrowLeft, board.Space, board.Tab, "F5", "AudioVolumeUp", "<pair-1>"} {
		if _, ok := c.ID(0, s); !ok {
			t.Errorf("%s is not asked for", s)
		}
	}
	for _, s := range []board.Symbol{"F11", "<forget>", "Shift"} {
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
		var got strings.Builder
		for _, k := range c.Drill(e).Keys {
			got.WriteString(string(k.Symbol))
		}
		if got.String() != text {
			t.Errorf("asked for %q, drilled %q", text, got.String())
		}
	}
}

// A line that was typed for measuring on the other board is asked for on the
// one being learned, so that the two can be compared.
func TestProbesAreEqualOnBothBoards(t *testing.T) {
	c := embedded(t, nil)
	lines := c.lines()
	n := 0
	for len(lines[n]) == 0 {
		n++
	}
	other := c.Drill(scheduler.Exercise{Block: scheduler.Upkeep, Board: 1, Line: n})
	same := c.Drill(scheduler.Exercise{Block: scheduler.Probe, Line: n + 1})
	next := c.Drill(scheduler.Exercise{Block: scheduler.Probe, Line: n + 1})
	if other.Kind != drills.Probe || same.Kind != drills.Probe {
		t.Errorf("kinds %s and %s", other.Kind, same.Kind)
	}
	if !slices.Equal(other.Symbols(), same.Symbols()) || len(same.Keys) == 0 {
		t.Errorf("%v on one board, %v on the other", other, same)
	}
	if slices.Equal(same.Symbols(), next.Symbols()) {
		t.Error("the same line again")
	}
	if st, _ := c.Boards()[1].Drilled(other.Keys[0].Symbol); !other.Keys[0].Stroke.Equal(st) {
		t.Error("the strokes are those of the wrong board")
	}
}

// The user's own lines are never a probe: their text would be in the journal.
func TestOwnLinesAreNoProbe(t *testing.T) {
	secret := drills.Drill{Kind: drills.OwnLine}
	c := embedded(t, func(c *Config) {
		for range 50 {
			st, _ := c.Boards[0].Drilled("e")
			secret.Keys = []drills.Ask{{Symbol: "e", Stroke: st, Answer: "e"}, {Symbol: "e", Stroke: st, Answer: "e"}}
			secret.Prompt = []drills.Cell{{Text: "e"}, {Text: "e"}}
			c.Own = append(c.Own, secret)
		}
	})
	for n, d := range c.pool {
		if d.Kind != drills.OwnLine {
			continue
		}
		for _, e := range []scheduler.Exercise{{Block: scheduler.Probe, Line: n}, {Block: scheduler.Upkeep, Board: 1, Line: n}} {
			if got := c.Drill(e); slices.Equal(got.Symbols(), d.Symbols()) {
				t.Fatalf("an own line as %s", e.Block)
			}
		}
	}
}
