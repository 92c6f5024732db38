package report

import (
	"bytes"
	"encoding/base64"
	"flag"
	"fmt"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var updateSheet = flag.Bool("update-sheet", false, "write the stored picture of the sheet anew")

// measured is what a browser says of an element of the sheet, in millimetres.
type measured struct {
	Tag, Text  string
	X, Y, W, H float64
}

// boxes asks for the boxes of all texts and keys as they are really drawn.
const boxes = `JSON.parse(JSON.stringify([...document.querySelectorAll("text,rect")].map(e => {
	const b = e.getBBox();
	return {Tag: e.tagName, Text: e.textContent, X: b.x, Y: b.y, W: b.width, H: b.height};
})))`

// TestSheetInBrowser looks at the sheets with real letters: everything is on
// the page, no text lies over another, and legends stay on their keys.
func TestSheetInBrowser(t *testing.T) {
	w := startBrowser(t)
	for _, b := range sheetBoards(t) {
		file := filepath.Join(t.TempDir(), "sheet.svg")
		var out bytes.Buffer
		if err := Sheet(&out, b, nil); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, out.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		w.open(file, 1200)
		var all []measured
		w.eval(boxes, &all)
		d := readDrawing(t, out.Bytes())
		if len(all) != len(d.keys)+len(d.texts) {
			t.Errorf("%s: %d of %d elements are drawn", b.Name, len(all), len(d.keys)+len(d.texts))
		}
		for _, p := range untidy(all, d.page) {
			t.Errorf("%s: %s", b.Name, p)
		}
		for _, line := range w.log {
			t.Errorf("%s: the browser says %s", b.Name, line)
		}
	}
}

// untidy says what leaves the page, overlaps or crosses the edge of a key. The
// box of a text is as high as a line; letters take its middle.
func untidy(all []measured, page box) []string {
	var texts, keys []box
	for _, m := range all {
		b := box{m.X, m.Y, m.X + m.W, m.Y + m.H, m.Text}
		if m.Tag == "rect" {
			keys = append(keys, b)
			continue
		}
		b.top, b.bottom = b.top+0.2*m.H, b.bottom-0.2*m.H
		texts = append(texts, b)
	}
	var out []string
	for i, a := range texts {
		if a.left < 5 || a.top < 5 || a.right > page.right-5 || a.bottom > page.bottom-5 {
			out = append(out, fmt.Sprintf("%q leaves the page: %v", a.what, a))
		}
		for _, b := range texts[:i] {
			if a.meets(b) {
				out = append(out, fmt.Sprintf("%q lies over %q", a.what, b.what))
			}
		}
		for _, k := range keys {
			if a.meets(k) && (a.left < k.left || a.right > k.right || a.top < k.top || a.bottom > k.bottom) {
				out = append(out, fmt.Sprintf("%q crosses the edge of its key: %v %v", a.what, a, k))
			}
		}
	}
	return out
}

// TestSheetFollowsLightAndDark: the reader's choice holds on the screen, and
// print is black on white.
func TestSheetFollowsLightAndDark(t *testing.T) {
	w := startBrowser(t)
	openSheet(t, w)
	for _, c := range []struct {
		media, scheme string
		dark          bool
	}{{"", "light", false}, {"", "dark", true}, {"print", "dark", false}} {
		w.call("Emulation.setEmulatedMedia", map[string]any{"media": c.media,
			"features": []map[string]string{{"name": "prefers-color-scheme", "value": c.scheme}}}, nil)
		var colour [2]string
		w.eval(`[getComputedStyle(document.documentElement).backgroundColor, getComputedStyle(document.querySelector("text")).fill]`, &colour)
		ground, ink := brightness(t, colour[0]), brightness(t, colour[1])
		if (ground < ink) != c.dark || math.Abs(ground-ink) < 150 {
			t.Errorf("%s %s: %s on %s", c.media, c.scheme, colour[1], colour[0])
		}
	}
}

func openSheet(t *testing.T, w *browser) {
	file := filepath.Join(t.TempDir(), "sheet.svg")
	var out bytes.Buffer
	for _, b := range sheetBoards(t) {
		if b.Name != "split-42" {
			continue
		}
		if err := Sheet(&out, b, nil); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(file, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	w.open(file, 1200)
}

func brightness(t *testing.T, rgb string) float64 {
	var r, g, b float64
	if _, err := fmt.Sscanf(rgb, "rgb(%g, %g, %g)", &r, &g, &b); err != nil {
		t.Fatalf("%q: %v", rgb, err)
	}
	return (r + g + b) / 3
}

// TestSheetLooksAsStored compares how much ink is where, in squares of the
// page, with a stored picture. Typefaces differ, so a square may differ some.
func TestSheetLooksAsStored(t *testing.T) {
	w := startBrowser(t)
	openSheet(t, w)
	got := ink(t, w)
	file := filepath.Join("..", "..", "..", "testdata", "screens", "sheet-split-42.txt")
	if *updateSheet {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	off := 0
	for i := range got {
		if i < len(want) && math.Abs(float64(got[i])-float64(want[i])) > 2 {
			off++
		}
	}
	if len(got) != len(want) || off > len(got)/50 {
		t.Errorf("%d squares differ; the sheet now:\n%s", off, got)
	}
}

// ink maps the ink on the page: a digit for each square of 5 mm, 0 none to 9
// a sixth of it or more.
func ink(t *testing.T, w *browser) string {
	side := 5.0
	var shot struct{ Data string }
	w.call("Page.captureScreenshot", map[string]any{"clip": map[string]any{"x": 0, "y": 0, "width": 210 * 96 / 25.4, "height": 297 * 96 / 25.4, "scale": 1}, "captureBeyondViewport": true}, &shot)
	raw, err := base64.StdEncoding.DecodeString(shot.Data)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	mm := float64(img.Bounds().Dx()) / 210
	var out strings.Builder
	for row := range int(297 / side) {
		for col := range int(210 / side) {
			dark, n := 0.0, 0.0
			for y := int(float64(row) * side * mm); y < int(float64(row+1)*side*mm); y++ {
				for x := int(float64(col) * side * mm); x < int(float64(col+1)*side*mm); x++ {
					r, _, _, _ := img.At(x, y).RGBA()
					dark, n = dark+1-float64(r)/0xffff, n+1
				}
			}
			fmt.Fprintf(&out, "%d", int(min(9, dark/n*54)))
		}
		out.WriteByte('\n')
	}
	return out.String()
}
