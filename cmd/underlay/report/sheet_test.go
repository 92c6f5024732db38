package report

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/rivo/uniseg"

	"underlay/drills/board"
)

// box is the space that something takes on the page, in millimetres.
type box struct {
	left, top, right, bottom float64
	what                     string
}

func (a box) meets(b box) bool {
	const touch = 0.01
	return a.left < b.right-touch && b.left < a.right-touch && a.top < b.bottom-touch && b.top < a.bottom-touch
}

// drawing is an SVG file read back: its page, its keys, and its texts with the
// space that letters of 0.6 of their size need, as in the usual sans-serif
// faces.
type drawing struct {
	page        box
	keys, texts []box
	all         []box
}

func readDrawing(t *testing.T, src []byte) drawing {
	t.Helper()
	var d drawing
	dec := xml.NewDecoder(bytes.NewReader(src))
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return d
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		if e, ok := tok.(xml.StartElement); ok {
			d.add(t, dec, e)
		}
	}
}

func (d *drawing) add(t *testing.T, dec *xml.Decoder, e xml.StartElement) {
	at := map[string]string{}
	for _, a := range e.Attr {
		at[a.Name.Local] = a.Value
	}
	n := func(name string) float64 {
		v, err := strconv.ParseFloat(at[name], 64)
		if err != nil {
			t.Fatalf("<%s> %s=%q", e.Name.Local, name, at[name])
		}
		return v
	}
	switch e.Name.Local {
	case "svg":
		var w, h float64
		fmt.Sscanf(at["viewBox"], "0 0 %g %g", &w, &h)
		d.page = box{0, 0, w, h, "page"}
	case "rect":
		d.keys = append(d.keys, box{n("x"), n("y"), n("x") + n("width"), n("y") + n("height"), "key"})
		d.all = append(d.all, d.keys[len(d.keys)-1])
	case "ellipse":
		d.all = append(d.all, box{n("cx") - n("rx"), n("cy") - n("ry"), n("cx") + n("rx"), n("cy") + n("ry"), "ring"})
	case "line":
		d.all = append(d.all, box{min(n("x1"), n("x2")), min(n("y1"), n("y2")), max(n("x1"), n("x2")), max(n("y1"), n("y2")), "line"})
	case "text":
		tok, _ := dec.Token()
		body, _ := tok.(xml.CharData)
		size := n("font-size")
		wide := float64(uniseg.StringWidth(string(body))) * size * 0.6
		left := n("x")
		if at["text-anchor"] == "middle" {
			left -= wide / 2
		}
		d.texts = append(d.texts, box{left, n("y") - 0.75*size, left + wide, n("y") + 0.22*size, string(body)})
		d.all = append(d.all, d.texts[len(d.texts)-1])
	}
}

// sheetBoards are all embedded boards, a standard one under layouts with
// AltGraph, and one with hostile legends.
func sheetBoards(t *testing.T) []*board.Board {
	t.Helper()
	var out []*board.Board
	for _, name := range board.Embedded() {
		b, err := board.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, b)
		if name == "iso-62" {
			for _, l := range []string{"de", "fr"} {
				o, err := b.WithOSLayout(l)
				if err != nil {
					t.Fatal(err)
				}
				out = append(out, o)
			}
		}
	}
	hostile := "name = \"<script>\"\ntitle = \"\\u202e&\\\"'\"\n[shape]\nkind = \"split\"\n[[layer]]\nname = \"base\"\nkeys = '''\n" +
		"< > & || \" ' 漢\na/one:hold <a-long-name-12!> AudioVolumeMute || x/Control \u0301 ]\nSpace/one:hold || Shift\n'''\n" +
		"[[layer]]\nname = \"one\"\nkeys = '''\n1 2 3 || 4 5 6\n.. .. .. || .. .. ..\n.. || ..\n'''\n[[combo]]\nkeys = [\"r1c1\", \"r1c2\"]\ngives = \"<pair-1>\"\n"
	b, found := board.Read("hostile.toml", []byte(hostile))
	if b == nil {
		t.Fatal(found.Err())
	}
	return append(out, b)
}

func TestSheetKeepsToThePageAndOverlapsNothing(t *testing.T) {
	for _, b := range sheetBoards(t) {
		for _, layers := range [][]string{nil, b.Layers()[:1]} {
			var out bytes.Buffer
			if err := Sheet(&out, b, layers); err != nil {
				t.Fatal(err)
			}
			d := readDrawing(t, out.Bytes())
			if w, h := min(d.page.right, d.page.bottom), max(d.page.right, d.page.bottom); w != 210 || h != 297 {
				t.Errorf("%s: the page is %g by %g", b.Name, w, h)
			}
			for _, x := range d.all {
				if x.left < 5 || x.top < 5 || x.right > d.page.right-5 || x.bottom > d.page.bottom-5 {
					t.Errorf("%s: %s leaves the page: %v", b.Name, x.what, x)
				}
			}
			disjoint(t, b.Name, d.keys)
			disjoint(t, b.Name, d.texts)
			for _, x := range d.texts {
				for _, k := range d.keys {
					if x.meets(k) && (x.left < k.left || x.right > k.right || x.top < k.top || x.bottom > k.bottom) {
						t.Errorf("%s: %q crosses the edge of a key", b.Name, x.what)
					}
				}
			}
			if len(layers) == 0 && len(d.keys) < len(b.Keys())*len(b.Layers()) {
				t.Errorf("%s: %d keys drawn", b.Name, len(d.keys))
			}
		}
	}
}

func disjoint(t *testing.T, name string, boxes []box) {
	t.Helper()
	for i, a := range boxes {
		for _, b := range boxes[:i] {
			if a.meets(b) {
				t.Errorf("%s: %q lies over %q: %v %v", name, a.what, b.what, a, b)
			}
		}
	}
}

func TestSheetRingsTheKeyToHold(t *testing.T) {
	b, _ := board.Load("split-42")
	var out bytes.Buffer
	if err := Sheet(&out, b, []string{"marks"}); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(out.String(), "<ellipse"); n != 1 {
		t.Errorf("%d rings", n)
	}
	if !strings.Contains(out.String(), "marks   hold right thumb 1") {
		t.Error("the hold is not told in words")
	}
	if strings.Contains(out.String(), ">q<") {
		t.Error("a key that falls through has a legend")
	}
}

func TestSheetText(t *testing.T) {
	b, _ := board.Load("split-34")
	var out bytes.Buffer
	if err := SheetText(&out, b, []string{"base"}); err != nil {
		t.Fatal(err)
	}
	want := `split-34   Split, three rows of five, two thumb keys a side

base

         w    e    r                           u    i    o
    q                   t                 y                   p
         s    d    f                           j    k    l
    a                   g                 h                   '
         x    c    v                           m    ,    .
    z                   b                 n                   /

                       esc  spc     bsp shft

  row 3   z held: Control   x held: Alt   . held: Alt   / held: Control
  row 4   left thumb 1 held: cursor   left thumb 2 held: marks   right thumb 1 held: digits

together right index finger, home row + right middle finger, home row: Enter (base)
together left middle finger, home row + left index finger, home row: Tab (base)
`
	if got := out.String(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}
