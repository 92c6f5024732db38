package report

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"underlay/cmd/underlay/standing"
	"underlay/cmd/underlay/standing/standingtest"
	"underlay/drills/board"
	"underlay/scheduler/journal"
)

// pageOf returns the page.
func pageOf(t *testing.T, s standing.Standing) string {
	t.Helper()
	b, err := board.Load(s.Boards[0].Name)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := Page(&out, s, b); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// pageFile writes the page into a file and returns its name.
func pageFile(t *testing.T, s standing.Standing) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, []byte(pageOf(t, s)), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// standings are pages of all sorts.
func standings(t *testing.T) map[string]standing.Standing {
	t.Helper()
	one := standingtest.For(t, "split-38", "ansi-61").Practised([2]int{0, 1})
	jumping := standingtest.For(t, "split-38", "ansi-61").Practised([2]int{0, 6}, [2]int{400, 404}, [2]int{3, 8})
	wrong := allAlike(t, 30, func(k *journal.Key) { k.Got, k.Slip, k.Lost = "x", "layer", 900 })
	untimed := allAlike(t, 5, func(k *journal.Key) { k.MS, k.Flags = 0, journal.Paused })
	hostile := practised(t, "split-38", "ansi-61")
	hostile.Notes = append(hostile.Notes, `<script src="http://x.example/">&`)
	hostile.Slips.Kinds[0].Kind = `"><link href="//x.example">`
	hostile.Boards[1].Name = `<img src=x onerror="alert(1)">`
	hostile.Days[1].Board = `</table><a href="javascript:1">`
	hostile.HoldsBack.Strokes[0].Name = "\u202e<b>"
	moving := practised(t, "split-38", "ansi-61")
	moving.Moves.LeaveIt, moving.Moves.Found = false, 2
	moving.Moves.Advice = []standing.Move{
		{Symbol: "(", Layer: "marks", From: "r4c4", ToLayer: "marks", To: "r2c8", SavesMS: standing.Range{Value: 9312, Lo: 7120, Hi: 11504}, SavesShare: .031, RelearnStrokes: 40, RelearnMinutes: 4.2, PaysAfterDays: 9.1},
		{Symbol: "ArrowRight", Layer: "cursor", From: "r2c5", With: "Shift+Tab", ToLayer: "cursor", To: "r3c5", SavesMS: standing.Range{Value: 3100, Lo: 900, Hi: 5300}, SavesShare: .0103, RelearnStrokes: 40, RelearnMinutes: 8.4, PaysAfterDays: 55},
	}
	moving.Days[6].Changed, moving.Days[30].Changed = true, true
	return map[string]standing.Standing{
		"moves": moving, "two boards": practised(t, "split-38", "ansi-61"), "one board": practised(t, "split-38"),
		"the standard board": practised(t, "ansi-61", "split-38"),
		"nothing":            standingtest.For(t, "split-38", "ansi-61").On(0), "one session": one.On(1), "hostile": hostile,
		"errors only": wrong.On(30), "line by line": untimed.On(5), "a clock that jumps": jumping.On(9),
	}
}

// allAlike is a history of so many days on which every key went the same way.
func allAlike(t *testing.T, days int, went func(*journal.Key)) standingtest.History {
	t.Helper()
	v := standingtest.For(t, "split-38", "ansi-61")
	for day := range days {
		d, err := v.Plain(0, standingtest.Start().AddDate(0, 0, day), 600, "(", ")", "{", "}", "=", "e", "t", "a")
		if err != nil {
			t.Fatal(err)
		}
		for i := range d.Keys {
			went(&d.Keys[i])
		}
		if err := v.Add(d); err != nil {
			t.Fatal(err)
		}
	}
	return v
}

// The page is valid as far as it can be told here: well-formed, with names that
// are used once and referred to where they are; it asks for nothing from anywhere
// and runs nothing, whatever the names in it are.
func TestPageIsWholeAndAlone(t *testing.T) {
	for name, s := range standings(t) {
		text := pageOf(t, s)
		if !strings.HasPrefix(text, "<!DOCTYPE html>\n<html lang=\"en\">") {
			t.Errorf("%s begins with %.40q", name, text)
		}
		ids, refs := map[string]bool{}, []string{}
		for _, e := range elements(t, name, text) {
			switch e.Name.Local {
			case "script", "link", "img", "iframe", "object", "embed", "a", "base", "image", "use", "form":
				t.Errorf("%s has an element %s", name, e.Name.Local)
			}
			for _, a := range e.Attr {
				switch key := a.Name.Local; {
				case key == "href" || key == "src" || key == "srcset" || strings.HasPrefix(key, "on"):
					t.Errorf("%s has %s=%q", name, key, a.Value)
				case key == "id" && ids[a.Value]:
					t.Errorf("%s has two elements %q", name, a.Value)
				case key == "id":
					ids[a.Value] = true
				case key == "aria-labelledby":
					refs = append(refs, strings.Fields(a.Value)...)
				}
			}
		}
		for _, r := range refs {
			if !ids[r] {
				t.Errorf("%s refers to %q, which is not there", name, r)
			}
		}
		if style := regexp.MustCompile(`(?i)url\(|@import|NaN|\bInf\b`).FindString(text); style != "" {
			t.Errorf("%s has %q", name, style)
		}
	}
}

// elements reads a page strictly and returns the starts of its elements.
func elements(t *testing.T, name, text string) []xml.StartElement {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(text))
	d.Entity = map[string]string{"nbsp": "\u00a0"}
	var out []xml.StartElement
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			line, col := d.InputPos()
			t.Fatalf("%s, line %d, column %d: %v", name, line, col, err)
		}
		if e, ok := token.(xml.StartElement); ok {
			out = append(out, e.Copy())
		}
	}
}

// Every picture has words for who does not see it, every column of a table its
// head, and every row as many cells as there are columns.
func TestPageHasTextAlternatives(t *testing.T) {
	text := pageOf(t, practised(t, "split-38", "ansi-61"))
	for _, e := range elements(t, "page", text) {
		if e.Name.Local != "svg" {
			continue
		}
		says := false
		for _, a := range e.Attr {
			says = says || a.Name.Local == "aria-label" && len(a.Value) > 10 || a.Name.Local == "aria-labelledby" || a.Name.Local == "aria-hidden"
		}
		if !says {
			t.Errorf("a picture without words: %v", e.Attr)
		}
	}
	tables := regexp.MustCompile(`(?s)<table>.*?</table>`).FindAllString(text, -1)
	if len(tables) < 7 {
		t.Errorf("%d tables", len(tables))
	}
	for _, table := range tables {
		heads := strings.Count(table, `<th scope="col"`)
		for _, row := range regexp.MustCompile(`(?s)<tr>(.*?)</tr>`).FindAllString(table, -1)[1:] {
			if cells := strings.Count(row, "<td") + strings.Count(row, `<th scope="row"`); cells != heads {
				t.Errorf("%d cells under %d heads: %s", cells, heads, row)
			}
		}
	}
}

// The page in a browser: nothing is complained of, its parser makes what is
// written and nothing else, nothing sticks out on a phone or on a desk, and the
// tables and pictures are there for who does not see them.
func TestPageInBrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("a browser takes some seconds; not with -short")
	}
	all := standings(t)
	b := startBrowser(t)
	for name, s := range all {
		file := pageFile(t, s)
		written := len(elements(t, name, pageOf(t, s)))
		for _, width := range []int{360, 1280} {
			b.open(file, width)
			var got struct{ Scroll, Client, Elements int }
			b.eval(`({Scroll: document.documentElement.scrollWidth, Client: document.documentElement.clientWidth, Elements: document.querySelectorAll("*").length})`, &got)
			if got.Scroll > got.Client {
				t.Errorf("%s: at %d pixels it is %d wide", name, got.Client, got.Scroll)
			}
			var cut []string
			b.eval(`[...document.querySelectorAll(".scroll")].filter(s => s.scrollWidth > s.clientWidth).map(s => s.ariaLabel)`, &cut)
			if width == 1280 && len(cut) > 0 {
				t.Errorf("%s: at %d pixels these have to be scrolled: %v", name, width, cut)
			}
			if got.Elements != written {
				t.Errorf("%s: the browser has %d elements, %d are written", name, got.Elements, written)
			}
			b.shoot(fmt.Sprintf("%s-%d", name, width))
		}
	}
	if len(b.log) > 0 {
		t.Errorf("the browser complains: %v", b.log)
	}
}

// The accessibility tree has the tables with their names, and the pictures.
func TestPageForAssistiveTechnology(t *testing.T) {
	if testing.Short() {
		t.Skip("a browser takes some seconds; not with -short")
	}
	file := pageFile(t, practised(t, "split-38", "ansi-61"))
	b := startBrowser(t)
	b.open(file, 1280)
	named, pictures := map[string]bool{}, 0
	for _, n := range b.tree() {
		switch n.Role {
		case "table":
			named[n.Name] = true
		case "image":
			pictures++
			if len(n.Name) < 10 {
				t.Errorf("a picture is called %q", n.Name)
			}
		}
	}
	for _, want := range []string{"Speed on your own mix, repair included", "The strokes that cost most", "By layer", "By finger", "Kinds of the last 300 slips", "Strokes of split-38"} {
		if !named[want] {
			t.Errorf("no table %q among %v", want, named)
		}
	}
	if pictures < 14 {
		t.Errorf("%d pictures", pictures)
	}
	for name, media := range map[string]map[string]any{
		"dark":  {"features": []map[string]string{{"name": "prefers-color-scheme", "value": "dark"}}},
		"print": {"media": "print"},
	} {
		b.call("Emulation.setEmulatedMedia", media, nil)
		b.shoot(name)
	}
}

// Where model and probes disagree both are shown, and that they do.
func TestPageShowsDisagreement(t *testing.T) {
	s := practised(t, "split-38", "ansi-61")
	s.Readiness.Share, s.Readiness.Disagree = standing.Range{Value: .62, Lo: .6, Hi: .64}, true
	s.Readiness.Probe.Share = standing.Range{Value: .91, Lo: .88, Hi: .94}
	s.Readiness.Since = "2026-03-02"
	for name, text := range map[string]string{"page": pageOf(t, s), "text": strings.Join(Text(s, 80), "\n")} {
		for _, want := range []string{"62 % (60 to 64 %)", "91 % (88 to 94 %)", "disagree", "since 2 March 2026, by the model"} {
			if !strings.Contains(text, want) {
				t.Errorf("no %q in the %s", want, name)
			}
		}
	}
}
