package drills

import (
	"errors"
	"testing"
	"time"

	"underlay/corpus"
	"underlay/drills/board"
)

// FuzzGenerate makes drills for any board that can be read and any strokes
// that are wanted, and types them: nothing panics, and each drill can be typed
// by the strokes that it asks for.
func FuzzGenerate(f *testing.F) {
	f.Add([]byte(plank), "(){}", uint64(1))
	for _, name := range board.Embedded() {
		f.Add(load(f, name).Source(), "=~\"\\aZ0", uint64(2))
	}
	f.Add([]byte("name = \"tiny\"\nos-layout = \"us\"\n[shape]\nkind = \"ortholinear\"\n[[layer]]\nname = \"base\"\nkeys = '''\n( ) a\n'''\n"), "((", uint64(3))
	f.Add([]byte("name = \"void\"\nos-layout = \"us\"\n[shape]\nkind = \"ortholinear\"\n[[layer]]\nname = \"base\"\nkeys = '''\n-- --\n'''\n"), "x", uint64(4))
	var mix []corpus.Part
	for _, name := range []string{"go", "shell", "keys"} {
		mix = append(mix, corpus.Part{Table: table(f, name), Weight: 1})
	}
	f.Fuzz(func(t *testing.T, src []byte, wanted string, seed uint64) {
		b, _ := board.Read("fuzz.toml", src)
		if b == nil {
			return
		}
		g := NewGenerator(b, mix, Options{Keeps: []board.Symbol{"F11"}})
		weights := map[board.Symbol]float64{}
		for _, r := range wanted {
			weights[board.SymbolOf(r)]++
		}
		for _, k := range Kinds() {
			for _, w := range []map[board.Symbol]float64{nil, weights} {
				d, err := g.Generate(k, w, seed)
				if err != nil && !errors.Is(err, ErrNothing) {
					t.Fatalf("%s: %v", k, err)
				}
				typeable(t, g, d)
				replay(t, d, b)
			}
		}
	})
}

// replay types a drill by its own symbols, under both treatments.
func replay(t *testing.T, d Drill, b *board.Board) {
	t.Helper()
	for _, how := range []Treatment{Wait, AsAtWork} {
		g := NewGrader(d, GraderOptions{Treatment: how, Board: b, Shown: noon})
		for i, k := range d.Keys {
			g.Key(k.Arrives(), noon.Add(time.Duration(i+1)*200*time.Millisecond))
		}
		if f := g.Figures(); !g.Done() || f.IF+f.INF+f.F != 0 || len(g.Tries()) != len(d.Keys) {
			t.Fatalf("%v typed as asked, %v: done %v, %+v", d, how, g.Done(), f)
		}
	}
}

// FuzzGrader sends any keys at any times: nothing panics, and the tries and
// counts stay consistent.
func FuzzGrader(f *testing.F) {
	f.Add("if err != nil {\n", []byte("if err!= nil <<{\n"), false)
	f.Add("a==b", []byte("aaaa==<<<b"), true)
	b := load(f, "split-38")
	g := &Generator{board: b, asks: asks(b, Options{})}
	f.Fuzz(func(t *testing.T, text string, typed []byte, atWork bool) {
		d := g.drill(Line, symbolsOf(text), true)
		o := GraderOptions{Board: b, Shown: noon}
		if atWork {
			o.Treatment = AsAtWork
		}
		grader, now := NewGrader(d, o), noon
		for _, c := range typed {
			now = now.Add(time.Duration(c) * 7 * time.Millisecond)
			s := board.SymbolOf(rune(c))
			switch {
			case c == '<':
				s = board.Backspace
			case c > 0xf0:
				s = board.Escape
			case c == 0xf0:
				grader.Interrupt()
			}
			grader.Key(s, now)
		}
		checkGrader(t, grader, d)
	})
}

func checkGrader(t *testing.T, g *Grader, d Drill) {
	t.Helper()
	firsts := map[int]bool{}
	for _, try := range g.Tries() {
		if try.MS < 0 || try.Lost < 0 || try.Paused && try.MS != 0 || try.Wrong == (try.Slip.Kind == "") {
			t.Fatalf("%+v", try)
		}
		if try.Index >= 0 {
			if firsts[try.Index] {
				t.Fatalf("two first attempts at %d", try.Index)
			}
			firsts[try.Index] = true
		}
	}
	f := g.Figures()
	if f.C < 0 || f.INF < 0 || f.IF < 0 || f.F < 0 || f.Seconds < 0 {
		t.Fatalf("%+v", f)
	}
	if g.At() > len(d.Keys) || g.o.Treatment == Wait && f.INF != 0 {
		t.Fatalf("at %d of %d, %+v", g.At(), len(d.Keys), f)
	}
}
