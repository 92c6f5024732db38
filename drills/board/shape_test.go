package board_test

import (
	"fmt"
	"strings"
	"testing"

	"underlay/drills/board"
)

// shaped reads a board of one layer.
func shaped(t *testing.T, shape, keys string) *board.Board {
	t.Helper()
	b, found := board.Read("shaped.toml", []byte("name = \"shaped\"\n[shape]\n"+shape+"\n[[layer]]\nname = \"base\"\nkeys = '''\n"+keys+"\n'''\n"))
	if b == nil {
		t.Fatal(found.Err())
	}
	return b
}

// placesOf writes each key's corner and width.
func placesOf(b *board.Board) string {
	var out []string
	for _, k := range b.Keys() {
		at := fmt.Sprintf("%s %.4g,%.4g", k.Position, k.X, k.Y)
		if k.W != 1 {
			at += fmt.Sprintf(" w%g", k.W)
		}
		out = append(out, at)
	}
	return strings.Join(out, "; ")
}

// handsOf writes each key's hand, finger, reach and row.
func handsOf(b *board.Board) string {
	var out []string
	for _, k := range b.Keys() {
		out = append(out, fmt.Sprintf("%c%c%+d%c", k.Hand.String()[0], k.Finger.String()[0], k.Reach, k.Row.String()[0]))
	}
	return strings.Join(out, " ")
}

func TestShapes(t *testing.T) {
	for _, c := range []struct{ name, shape, keys, places, hands string }{
		{
			"split: the thumb keys end one key beyond the inner column, below its stagger",
			"kind = \"split\"\ncolumn-stagger = [0.5, 0.1]", "a b || c d\ne || f",
			"r1c1 0,0.4; r1c2 1,0; r1c3 4.5,0; r1c4 5.5,0.4; r2c1 2,1.6; r2c2 3.5,1.6",
			"lm+0h li+0h ri+0h rm+0h lt+0t rt+0t",
		},
		{
			"split: offsets move a row of both halves outwards",
			"kind = \"split\"\noffsets = [0, 0.25, 0]", "a b || c d\ne f || g h\ni || j",
			"r1c1 0.25,0; r1c2 1.25,0; r1c3 4.75,0; r1c4 5.75,0; r2c1 0,1; r2c2 1,1; r2c3 5,1; r2c4 6,1; r3c1 2.25,2.2; r3c2 3.75,2.2",
			"lm+0h li+0h ri+0h rm+0h lm+0b li+0b ri+0b rm+0b lt+0t rt+0t",
		},
		{
			"split: halves of different width align at the middle",
			"kind = \"split\"\ncolumn-stagger = [0.5, 0.25, 0]", "a b || c d e",
			"r1c1 0,0.25; r1c2 1,0; r1c3 4.5,0; r1c4 5.5,0.25; r1c5 6.5,0.5",
			"lm+0h li+0h ri+0h rm+0h rr+0h",
		},
		{
			"split: named fingers, outer to inner",
			"kind = \"split\"\nfingers = [\"ring\", \"middle\", \"index\", \"index\"]", "a b c d || e f g h",
			"r1c1 0,0; r1c2 1,0; r1c3 2,0; r1c4 3,0; r1c5 6.5,0; r1c6 7.5,0; r1c7 8.5,0; r1c8 9.5,0",
			"lr+0h lm+0h li+0h li+1h ri+1h ri+0h rm+0h rr+0h",
		},
		{
			"split: thumbs says how many lines are thumb rows",
			"kind = \"split\"\nthumbs = 1", "a b || c d\ne f || g h",
			"r1c1 0,0; r1c2 1,0; r1c3 4.5,0; r1c4 5.5,0; r2c1 1,1.2; r2c2 2,1.2; r2c3 3.5,1.2; r2c4 4.5,1.2",
			"lm+0h li+0h ri+0h rm+0h lt+0t lt+0t rt+0t rt+0t",
		},
		{
			"ortholinear: halves without a gap, the outer keys of the thumb row belong to the fingers above",
			"kind = \"ortholinear\"\nthumbs = 1", "a b c d e f g h\ni j k l m n o p",
			"r1c1 0,0; r1c2 1,0; r1c3 2,0; r1c4 3,0; r1c5 4,0; r1c6 5,0; r1c7 6,0; r1c8 7,0; r2c1 0,1; r2c2 1,1; r2c3 2,1; r2c4 3,1; r2c5 4,1; r2c6 5,1; r2c7 6,1; r2c8 7,1",
			"ll+0h lr+0h lm+0h li+0h ri+0h rm+0h rr+0h rl+0h ll+0t lt+0t lt+0t lt+0t rt+0t rt+0t rt+0t rl+0t",
		},
		{
			"row-staggered: widths add up, offsets move a row to the right, hands by the key's middle on the lowest row",
			"kind = \"row-staggered\"\noffsets = [0, 0.5, 0]\nwidths = { r2c1 = 1.5, r3c1 = 2.25 }", "a b c\nd e\nSpace f",
			"r1c1 0,0; r1c2 1,0; r1c3 2,0; r2c1 0.5,1 w1.5; r2c2 2,1; r3c1 0,2 w2.25; r3c2 2.25,2",
			"ll-1h ll+0h lr+0h ll-1b ll+0b lt+0t rt+0t",
		},
	} {
		b := shaped(t, c.shape, c.keys)
		if got := placesOf(b); got != c.places {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.places)
		}
		if got := handsOf(b); got != c.hands {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.hands)
		}
	}
}

// TestKeysDoNotOverlap: whatever the shape, keys lie beside each other.
// A board of one half is a split one with nothing on the other side of ||.
func TestOneHalf(t *testing.T) {
	left := shaped(t, `kind = "split"`, "q w e r t ||\na s d f g ||\nz x c v b ||\nShift Space ||")
	right := shaped(t, `kind = "split"`, "|| y u i o p\n|| h j k l ;\n|| n m , . /\n|| Space Shift")
	for _, c := range []struct {
		b    *board.Board
		s    board.Symbol
		want string
	}{
		{left, "a", "left little finger, home row"}, {left, "g", "left index finger, home row, inner column"},
		{left, "F", "hold Shift, left thumb 1 · left index finger, home row"},
		{right, "h", "right index finger, home row, inner column"}, {right, ";", "right little finger, home row"},
		{right, "J", "hold Shift, right thumb 2 · right index finger, home row"},
	} {
		st, ok := c.b.Drilled(c.s)
		if got := c.b.Words(st); !ok || got != c.want {
			t.Errorf("%s: %q, want %q", c.s, got, c.want)
		}
	}
}

func TestKeysDoNotOverlap(t *testing.T) {
	for _, name := range board.Embedded() {
		keys := standard(t, name, "us").Keys()
		for i, a := range keys {
			for _, b := range keys[:i] {
				const touch = 1e-9
				if a.X < b.X+b.W-touch && b.X < a.X+a.W-touch && a.Y < b.Y+1-touch && b.Y < a.Y+1-touch {
					t.Errorf("%s: %s lies over %s", name, a.Position, b.Position)
				}
			}
		}
	}
}

func TestRowsFromTheHandUpwards(t *testing.T) {
	b := shaped(t, "kind = \"split\"", "a b || c d\ne f || g h\ni j || k l\nm n || o p\nq r || s t\nu || v")
	want := []board.Row{board.FunctionRow, board.NumberRow, board.TopRow, board.HomeRow, board.BottomRow, board.ThumbRow}
	for _, k := range b.Keys() {
		if k.Row != want[k.Position.Row-1] {
			t.Errorf("%s is in the %s", k.Position, k.Row)
		}
	}
}

func TestLegends(t *testing.T) {
	b, _ := board.Load("split-38")
	at := func(layer, position string) board.Legend {
		p, err := board.ParsePosition(position)
		if err != nil {
			t.Fatal(err)
		}
		return b.Legend(layer, p)
	}
	for _, c := range []struct {
		layer, position string
		want            board.Legend
		short           string
	}{
		{"base", "r1c1", board.Legend{Tap: "q"}, "q"},
		{"base", "r4c3", board.Legend{Tap: "Space", Hold: "marks"}, "spc"},
		{"base", "r4c1", board.Legend{Hold: "Control"}, "ctl"},
		{"marks", "r4c4", board.Legend{Tap: "Escape", Through: true}, "esc"},
		{"marks", "r3c5", board.Legend{}, ""},
		{"cursor", "r1c6", board.Legend{Tap: "pair-1", Unseen: true}, "pai1"},
		{"cursor", "r1c10", board.Legend{Tap: "forget!", Unseen: true, Never: true}, "forg"},
		{"cursor", "r2c7", board.Legend{Tap: "AudioVolumeDown", Unseen: true}, "vol-"},
		{"nosuch", "r1c1", board.Legend{}, ""},
	} {
		got := at(c.layer, c.position)
		if got != c.want || got.Short() != c.short {
			t.Errorf("%s %s: %+v %q", c.layer, c.position, got, got.Short())
		}
	}
	s := standard(t, "iso-62", "de")
	k, _ := board.ParsePosition("r1c1")
	if l := s.Legend("base", k); !l.Dead || l.Tap != "◌\u0302" || l.Shift != "°" {
		t.Errorf("%+v", l)
	}
	if sym, ok := s.Gives("base", k); ok {
		t.Errorf("a dead key gives %q by itself", sym)
	}
}

func TestChordsOfSeveralModifiers(t *testing.T) {
	b, _ := board.Load("ansi-61")
	for s, want := range map[board.Symbol]int{"Control+Alt+Delete": 3, "Control+Shift+Tab": 3, "Meta+l": 2, "Control+A": 3} {
		all := b.Strokes(s)
		if len(all) == 0 || len(all[0].Keys) < want {
			t.Errorf("%s: %v", s, all)
		}
	}
	for _, s := range []board.Symbol{"Shift+Control+Tab", "Control+", "+", "Control+Nosuch", "", "Nosuch"} {
		if all := b.Strokes(s); len(all) > 0 && s != "+" {
			t.Errorf("%s: %v", s, all)
		}
	}
}
