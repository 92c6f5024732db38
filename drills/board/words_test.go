package board_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"underlay/drills/board"
)

func TestWords(t *testing.T) {
	for _, c := range []struct{ board, symbol, want string }{
		{"split-38", "=", "hold left thumb 3 · right index finger, home row"},
		{"split-38", "^", "hold left thumb 3 · left ring finger, top row"},
		{"split-38", "h", "right index finger, home row, inner column"},
		{"split-38", "Space", "left thumb 3"},
		{"split-38", "A", "hold Shift, right thumb 4 · left little finger, home row"},
		{"split-38", "F1", "hold left thumb 3 · hold right thumb 2 · left index finger, home row"},
		{"split-34", "Enter", "together right index finger, home row + right middle finger, home row"},
		{"split-42", "'", "right little finger, home row, outer column"},
		{"split-56", "F3", "lock right thumb 4 · left middle finger, number row"},
		{"grid-48", "F6", "latch left thumb 1 · left index finger, home row, inner column"},
		{"ansi-61", "!", "hold right Shift · left little finger, number row"},
		{"ansi-61", "Space", "space bar"},
		{"ansi-61", "Escape", "hold fn · left little finger, number row, outer column"},
		{"ansi-61", "Control+c", "hold right Control · left middle finger, bottom row"},
		{"ansi-61", "Backspace", "right little finger, number row, 3 columns out"},
	} {
		b, err := board.Load(c.board)
		if err != nil {
			t.Fatal(err)
		}
		s, _ := b.Drilled(board.Symbol(c.symbol))
		if got := b.Words(s); got != c.want {
			t.Errorf("%s on %s: %q, want %q", c.symbol, c.board, got, c.want)
		}
	}
}

func TestWordsOfADeadKey(t *testing.T) {
	b := standard(t, "iso-62", "de")
	s, _ := b.Drilled("^")
	if got := b.Words(s); got != "left little finger, number row, outer column · space bar" {
		t.Errorf("^ is %q", got)
	}
	e, _ := b.Drilled("â")
	if e.String() != "r1c1 r3c2" {
		t.Errorf("â is %q", e)
	}
	k, _ := b.Drilled("{")
	if got := b.Words(k); got != "hold AltGraph · right index finger, number row" || k.Level != 2 {
		t.Errorf("{ is %q, level %d", got, k.Level)
	}
}

func TestEntriesAsJSON(t *testing.T) {
	b, _ := board.Load("split-38")
	for _, e := range b.Entries() {
		if e.Symbol != "=" {
			continue
		}
		got, err := json.Marshal(e)
		want := `{"symbol":"=","strokes":[{"keys":[{"position":"r4c3","as":"hold"},{"position":"r2c7","as":"press"}],"layer":"marks","level":0,"effort":`
		if err != nil || !strings.HasPrefix(string(got), want) || !strings.HasSuffix(string(got), `}],"drilled":0}`) {
			t.Errorf("%s, %v", got, err)
		}
		return
	}
	t.Error("no entry for =")
}

func TestStandardKeysAsJSON(t *testing.T) {
	s, _ := standard(t, "ansi-61", "us").Drilled("!")
	got, _ := json.Marshal(s.Keys)
	if want := `[{"position":"r4c12","as":"hold","symbol":"Shift","code":"ShiftRight"},{"position":"r1c2","as":"press","code":"Digit1","grid":"E01"}]`; string(got) != want {
		t.Errorf("%s\nwant %s", got, want)
	}
}

func TestFind(t *testing.T) {
	b, _ := board.Load("split-38")
	for query, want := range map[string]string{
		"amp": "&", "curly": "{ }", "home": "Home", "pipe": "|", "(": "(", "paren": "( )", "esc": "Escape", "F5": "F5", "f5": "F5",
		"x": "x", "X": "X", "ctrl+c": "Control+c", "star": "*", "space": "Space", "at sign": "@", "pair-2": "<pair-2>", "bslash": "\\", "qqqq": "",
	} {
		var got []string
		for _, s := range board.Find(query, b.Symbols()) {
			got = append(got, string(s))
		}
		if joined := strings.Join(got, " "); !strings.HasPrefix(joined, want) || want == "" && joined != "" {
			t.Errorf("%q finds %q, want %q first", query, joined, want)
		}
	}
	if len(board.Find("", b.Symbols())) > 0 {
		t.Error("an empty query finds something")
	}
}

func TestFindByTradeNames(t *testing.T) {
	// POSIX names of the marks (XBD 6.1, portable character set, from memory).
	posix := map[board.Symbol]string{
		"!": "exclamation mark", "#": "number sign", "$": "dollar sign", "%": "percent sign", "&": "ampersand", "'": "apostrophe",
		"(": "left parenthesis", ")": "right parenthesis", "*": "asterisk", "+": "plus sign", ",": "comma", "-": "hyphen", ".": "full stop", "/": "slash",
		":": "colon", ";": "semicolon", "<": "less than", "=": "equals sign", ">": "greater than", "?": "question mark", "@": "commercial at",
		"[": "left square bracket", "\\": "backslash", "]": "right square bracket", "^": "circumflex", "_": "underscore", "`": "grave accent",
		"{": "left curly bracket", "|": "vertical line", "}": "right curly bracket", "~": "tilde",
	}
	b, _ := board.Load("ansi-61")
	for s, name := range posix {
		if got := board.Find(name, b.Symbols()); len(got) == 0 || got[0] != s {
			t.Errorf("%q finds %v, want %s", name, got, s)
		}
	}
}

func TestCompareTwoStatesOfAFile(t *testing.T) {
	a, _ := board.Load("split-38")
	src := strings.Replace(string(a.Source()), "`    @    ?    ;    --", "`    ?    @    ;    --", 1)
	src = strings.Replace(src, "Insert  --         --", "λ       --         --", 1)
	b, found := board.Read("after.toml", []byte(src))
	if b == nil {
		t.Fatal(found.Err())
	}
	c := board.Compare(a, b)
	if got := named(c.Moved); got != "? @" || !c.SameShape {
		t.Errorf("moved: %s, same shape %v", got, c.SameShape)
	}
	if got := named(c.New); got != "λ" {
		t.Errorf("new: %s", got)
	}
	if got := named(c.Gone); got != "Insert" {
		t.Errorf("gone: %s", got)
	}
	if c := board.Compare(a, a); len(c.Moved)+len(c.New)+len(c.Gone) > 0 {
		t.Errorf("the same board differs from itself: %v", c)
	}
}

func TestCompareTwoShapes(t *testing.T) {
	a, _ := board.Load("split-38")
	b, _ := board.Load("split-42")
	c := board.Compare(a, b)
	moved := strings.Fields(named(c.Moved))
	if c.SameShape || slices.Contains(moved, "f") || !slices.Contains(moved, "{") {
		t.Errorf("same shape %v, moved %v", c.SameShape, moved)
	}
}

func named(moves []board.Move) string {
	var out []string
	for _, m := range moves {
		out = append(out, string(m.Symbol))
	}
	return strings.Join(out, " ")
}

func TestText(t *testing.T) {
	b, _ := board.Load("split-38")
	s, _ := b.Drilled("=")
	want := `
       ^    #    $                           _    {    }
  ~                   %                 &                   |
       >    '    :                          [=]   (    )
  <                   !                 -                   "
       @    ?    ;                           *    [    ]
  ` + "`" + `                   ·                 +                   \

                    <spc>
`
	if got := "\n" + strings.Join(b.Text("marks", 80, s), "\n") + "\n"; got != want {
		t.Errorf("got%s\nwant%s", got, want)
	}
	for _, name := range board.Embedded() {
		b, _ := board.Load(name)
		for _, layer := range b.Layers() {
			for _, width := range []int{200, 80, 60} {
				for _, line := range b.Text(layer, width, board.Stroke{}) {
					if n := len([]rune(line)); n > width {
						t.Errorf("%s %s: a line of %d cells in %d", name, layer, n, width)
					}
				}
			}
		}
	}
}

func TestEnters(t *testing.T) {
	b, _ := board.Load("split-38")
	for layer, want := range map[string]string{"base": "", "marks": "r4c3:hold", "functions": "r4c3:hold r4c6:hold"} {
		if s, ok := b.Enters(layer); !ok || s.String() != want {
			t.Errorf("%s: %q", layer, s)
		}
	}
	if _, ok := b.Enters("nosuch"); ok {
		t.Error("a layer that is not there is entered")
	}
}
