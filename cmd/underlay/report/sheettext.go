package report

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"underlay/drills/board"
)

// sheetColumns is how wide a sheet of text is, for a page with small letters.
const sheetColumns = 96

// SheetText writes the layers of a board, or those named, as text.
func SheetText(w io.Writer, b *board.Board, layers []string) error {
	out := bufio.NewWriter(w)
	fmt.Fprintln(out, board.Safe(heading(b)))
	for _, p := range plates(b, layers) {
		fmt.Fprintf(out, "\n%s\n\n", p.head)
		for _, line := range b.TextEntered(p.layer, p.level, sheetColumns-2) {
			fmt.Fprintln(out, strings.TrimRight("  "+line, " "))
		}
		for i, n := range p.notes {
			if i == 0 {
				fmt.Fprintln(out)
			}
			fmt.Fprintf(out, "  row %d   %s\n", n.row, strings.Join(n.lines, "   "))
		}
	}
	for i, line := range combosOf(b, layers) {
		if i == 0 {
			fmt.Fprintln(out)
		}
		fmt.Fprintln(out, line)
	}
	return out.Flush()
}
