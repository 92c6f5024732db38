package report

import (
	"bytes"
	"strings"
	"testing"

	"underlay/cmd/underlay/standing/standingtest"
	"underlay/drills/board"
)

// An excerpt is a picture of its own with the figures of the page; where there
// is nothing to show it says so and writes nothing.
func TestExcerpt(t *testing.T) {
	for _, boards := range [][]string{{"split-38", "ansi-61"}, {"ansi-61", "split-38"}, {"split-38"}} {
		s := practised(t, boards...)
		b, err := board.Load(boards[0])
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := Excerpt(&out, s, b, b.Layers()[0]); err != nil {
			t.Fatal(err)
		}
		elements(t, boards[0], out.String())
		for _, want := range []string{percent(s.Readiness.Share.Value), `<path class="one"`, `class="keys"`, "steady", "Card, Moran &amp; Newell, 1980"} {
			if !strings.Contains(out.String(), want) {
				t.Errorf("%v: no %q", boards, want)
			}
		}
		out.Reset()
		if Excerpt(&out, s, b, "none") == nil || Excerpt(&out, standingtest.For(t, boards...).On(0), b, b.Layers()[0]) == nil || out.Len() > 0 {
			t.Errorf("%v: there is a picture of nothing", boards)
		}
	}
}
