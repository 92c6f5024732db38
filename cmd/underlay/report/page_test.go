package report

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
)

// pageFile writes the page into a file and returns its name.
func pageFile(t *testing.T, s standing.Standing) string {
	t.Helper()
	b, err := board.Load(s.Boards[0].Name)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := Page(&out, s, b); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// The page in a browser: nothing is complained of, nothing sticks out on a
// phone or on a desk, and the tables and pictures are there for who does not see
// them.
func TestPageInBrowser(t *testing.T) {
	file := pageFile(t, practised(t, "split-38", "ansi-61"))
	b := startBrowser(t)
	for _, width := range []int{360, 1280} {
		b.open(file, width)
		var over struct{ Scroll, Client, Sections int }
		b.eval(`({Scroll: document.documentElement.scrollWidth, Client: document.documentElement.clientWidth, Sections: document.querySelectorAll("section").length})`, &over)
		if over.Scroll > over.Client {
			t.Errorf("at %d pixels the page is %d wide", over.Client, over.Scroll)
		}
		if over.Sections < 7 {
			t.Errorf("at %d pixels there are %d sections", width, over.Sections)
		}
		b.shoot(fmt.Sprintf("page-%d", width))
	}
	if len(b.log) > 0 {
		t.Errorf("the browser complains: %v", b.log)
	}
	roles := map[string]int{}
	for _, n := range b.tree() {
		roles[n.Role]++
	}
	if roles["table"] < 7 || roles["image"] < 9 {
		t.Errorf("the accessibility tree has %v", roles)
	}
}
