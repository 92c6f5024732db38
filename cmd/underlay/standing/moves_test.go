package standing_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"underlay/cmd/underlay/standing"
	"underlay/cmd/underlay/standing/standingtest"
	"underlay/drills/board"
)

// swapped returns the text of a board with two entries of its layers changed
// about.
func swapped(src string, a, b standing.Slot) string {
	ea, eb := entry(src, a), entry(src, b)
	return set(set(src, a, eb), b, ea)
}

// picture finds the lines of a layer's picture in a board's text.
func picture(lines []string, layer string) (from int) {
	named := false
	for i, l := range lines {
		if strings.HasPrefix(l, "name") && strings.Contains(l, fmt.Sprintf("%q", layer)) {
			named = true
		}
		if named && strings.HasPrefix(l, "keys") {
			return i + 1
		}
	}
	return -1
}

func entry(src string, s standing.Slot) string {
	lines := strings.Split(src, "\n")
	return strings.Fields(strings.ReplaceAll(lines[picture(lines, s.Layer)+s.Position.Row-1], "||", " "))[s.Position.Col-1]
}

func set(src string, s standing.Slot, to string) string {
	lines := strings.Split(src, "\n")
	at := picture(lines, s.Layer) + s.Position.Row - 1
	words, col := strings.Fields(lines[at]), 0
	for i, w := range words {
		if w == "||" {
			continue
		}
		if col++; col == s.Position.Col {
			words[i] = to
		}
	}
	lines[at] = "  " + strings.Join(words, " ")
	return strings.Join(lines, "\n")
}

// recount is what a whole board costs, worked out from its text alone: every symbol
// of the work, at the stroke that the board drills, and every pair of them, where the
// second comes from another layer or off the same finger.
type recount struct {
	in      standing.Input
	settled func(effort float64, p board.Position) float64
	own     func(id int) float64
}

func (r recount) cost(t *testing.T, src string) float64 {
	t.Helper()
	b, found := board.Read("board.toml", []byte(src))
	if b == nil {
		t.Fatal(found.Err())
	}
	typed, alone := map[int]board.Stroke{}, map[int]float64{}
	sum := 0.0
	for id, s := range r.in.Strokes {
		if s.Board != 0 {
			continue
		}
		st, ok := b.Drilled(s.Symbol)
		if !ok {
			t.Fatalf("%s is gone", s.Symbol)
		}
		typed[id], alone[id] = st, r.settled(st.Effort, st.Final().Position)
		if st.Layer == b.Layers()[0] && st.Equal(s.Keys) {
			alone[id] = r.own(id)
		}
		sum += 1000 * s.Freq * alone[id]
	}
	otherLayer, sameFinger := r.in.Model.Before(0)
	for _, f := range r.in.Follows {
		first, then := typed[f.First], typed[f.Then]
		x, _ := b.KeyAt(first.Final().Position)
		y, _ := b.KeyAt(then.Final().Position)
		share := 0.0
		if first.Layer != then.Layer || first.Level != then.Level {
			share += otherLayer
		}
		if x.Hand == y.Hand && x.Finger == y.Finger && x.Position != y.Position {
			share += sameFinger
		}
		sum += 1000 * f.Share * share * alone[f.Then]
	}
	return sum
}

// onBadBoard is somebody who practised on split-38 with the opening bracket
// under the thumb that holds the layer, and its good place left free.
func onBadBoard(t *testing.T) (standing.Input, string) {
	t.Helper()
	good, err := board.Load("split-38")
	if err != nil {
		t.Fatal(err)
	}
	st, ok := good.Drilled("(")
	if !ok || st.Layer != "marks" {
		t.Fatalf("( is typed as %v", st)
	}
	src := set(string(good.Source()), standing.Slot{Layer: "marks", Position: st.Final().Position}, "--")
	src = set(src, standing.Slot{Layer: "marks", Position: board.Position{Row: 4, Col: 4}}, "(")
	b, found := board.Read("bad.toml", []byte(src))
	if b == nil {
		t.Fatal(found.Err())
	}
	v, err := standingtest.On(b)
	if err != nil {
		t.Fatal(err)
	}
	v.Steep = 250
	practise(t, v, 0, 30)
	in, err := v.Input(standingtest.Start().AddDate(0, 0, 31))
	if err != nil {
		t.Fatal(err)
	}
	return in, src
}

// What a swap is said to save is what the whole board, read again from its
// text with the swap made, costs less, the pairs of the work included; and a swap
// that is passed over quickly could not save as much as it is said that it could at most.
func TestSavingsAgainstTheWholeBoard(t *testing.T) {
	in, src := onBadBoard(t)
	swaps, whole, settled, own := standing.Swaps(in)
	if len(swaps) < 1000 {
		t.Fatalf("%d swaps", len(swaps))
	}
	r := recount{in, settled, own}
	if got := r.cost(t, src); math.Abs(got-whole) > 1e-6*whole {
		t.Fatalf("the board as it is costs %v, recomputed %v", whole, got)
	}
	random := rand.New(rand.NewPCG(5, 6))
	random.Shuffle(len(swaps), func(i, j int) { swaps[i], swaps[j] = swaps[j], swaps[i] })
	for _, s := range swaps[:150] {
		if want := whole - r.cost(t, swapped(src, s.A, s.B)); math.Abs(s.Saves-want) > 1e-6*whole {
			t.Errorf("%v with %v: saves %v, recomputed %v", s.A, s.B, s.Saves, want)
		}
	}
	for _, s := range swaps {
		if s.Saves > s.Most+1e-6*whole {
			t.Errorf("%v with %v: saves %v, at most %v", s.A, s.B, s.Saves, s.Most)
		}
	}
}

// What comes before and after a symbol counts: without pairs many a swap would
// save another amount.
func TestPairsAreWeighed(t *testing.T) {
	in, _ := onBadBoard(t)
	with, whole, _, _ := standing.Swaps(in)
	in.Follows = nil
	without, alone, _, _ := standing.Swaps(in)
	differ := 0
	for i := range with {
		if math.Abs(with[i].Saves-without[i].Saves) > 1e-3*whole {
			differ++
		}
	}
	if math.Abs(whole-alone) > .2*whole || differ < len(with)/50 {
		t.Errorf("of %d swaps %d save another amount with pairs; all costs %v, without pairs %v", len(with), differ, whole, alone)
	}
}

// The advice holds every swap that saves more than a hundredth and is sure
// enough, best first, with what it costs to relearn; where a frequent symbol is
// in a bad place the best moves that one.
func TestAdviceOnABadBoard(t *testing.T) {
	in, src := onBadBoard(t)
	m := standing.New(in).Moves
	swaps, whole, settled, own := standing.Swaps(in)
	if !m.Known || m.LeaveIt || m.Found == 0 || m.Pairs != len(swaps) {
		t.Fatalf("%+v of %d swaps", m, len(swaps))
	}
	best := 0.0
	for _, s := range swaps {
		best = max(best, s.Saves)
	}
	if first := m.Advice[0]; math.Abs(first.SavesMS.Value-best) > 1e-6*whole || first.Symbol != "(" {
		t.Errorf("the best saves %v; the advice begins with %+v", best, first)
	}
	for i, mv := range m.Advice {
		if i > 0 && mv.SavesMS.Value > m.Advice[i-1].SavesMS.Value {
			t.Errorf("%+v comes after one that saves less", mv)
		}
		from, err := board.ParsePosition(mv.From)
		if err != nil {
			t.Fatal(err)
		}
		to, err := board.ParsePosition(mv.To)
		if err != nil {
			t.Fatal(err)
		}
		want := whole - recount{in, settled, own}.cost(t, swapped(src, standing.Slot{Layer: mv.Layer, Position: from}, standing.Slot{Layer: mv.ToLayer, Position: to}))
		if math.Abs(mv.SavesMS.Value-want) > 1e-6*whole || mv.SavesShare < .01 || mv.SavesMS.Lo <= 0 {
			t.Errorf("%+v: recomputed %v of %v", mv, want, whole)
		}
		if days := mv.RelearnMinutes * 60000 / (mv.SavesMS.Value * float64(m.DailyUse) / 1000); math.Abs(days-mv.PaysAfterDays) > 1e-9 || mv.RelearnMinutes <= 0 {
			t.Errorf("%+v: pays after %v days", mv, days)
		}
	}
}

// On a board whose layers are arranged by use the answer is to leave it.
func TestAdviceToLeaveIt(t *testing.T) {
	v := invent(t, "split-38")
	practise(t, v, 0, 30)
	m := standingOf(t, v, 31).Moves
	if !m.Known || !m.LeaveIt || len(m.Advice) != 0 || m.Pairs < 1000 {
		t.Errorf("%+v", m)
	}
}

// All swaps of a large board are looked at in well under a second.
func BenchmarkMoves(b *testing.B) {
	v := invent(b, "split-38")
	practise(b, v, 0, 10)
	in, err := v.Input(standingtest.Start().AddDate(0, 0, 11))
	if err != nil {
		b.Fatal(err)
	}
	b.ResetTimer()
	for range b.N {
		standing.New(in)
	}
}

// When the board has changed, what was practised on it before stays, counts
// once, and the day of the change is marked.
func TestBoardChanged(t *testing.T) {
	before := invent(t, "split-38")
	practise(t, before, 0, 5)
	src := set(string(before.Boards[0].Source()), standing.Slot{Layer: "marks", Position: board.Position{Row: 1, Col: 1}}, "(")
	src = set(src, standing.Slot{Layer: "marks", Position: board.Position{Row: 2, Col: 9}}, "~")
	changed, found := board.Read("split-38.toml", []byte(src))
	if changed == nil {
		t.Fatal(found.Err())
	}
	after, err := standingtest.On(changed)
	if err != nil {
		t.Fatal(err)
	}
	after.Store = before.Store
	practise(t, after, 5, 8)
	s := standingOf(t, after, 8)
	if len(s.Days) != 8 {
		t.Fatalf("%d days, want 8", len(s.Days))
	}
	typed := 0
	for i, d := range s.Days {
		typed += d.Strokes
		if d.Changed != (i == 5) {
			t.Errorf("day %d: changed is %v", i, d.Changed)
		}
	}
	if typed != s.Boards[0].Tries || typed != 8*14*30 {
		t.Errorf("%d strokes by day, %d in all, typed were %d", typed, s.Boards[0].Tries, 8*14*30)
	}
}
