package capture

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"

	"underlay/drills/board"
)

// frame is which keys a board has: how many lie on each half of each row, and
// the shape table of its file.
type frame struct {
	Kind  board.Kind
	Rows  [][2]int
	Table string
}

// template is the frame of an embedded board.
func template(name string) (frame, error) {
	b, err := board.Load(name)
	if err != nil {
		return frame{}, err
	}
	var file struct{ Shape map[string]any }
	if err := toml.Unmarshal(b.Source(), &file); err != nil {
		return frame{}, err
	}
	var table bytes.Buffer
	if err := toml.NewEncoder(&table).Encode(file); err != nil {
		return frame{}, err
	}
	f := frame{Kind: b.Kind, Table: strings.Replace(table.String(), "[Shape]", "[shape]", 1)}
	f.Table = strings.ReplaceAll(f.Table, "[Shape.", "[shape.")
	for _, k := range b.Keys() {
		for len(f.Rows) < k.Position.Row {
			f.Rows = append(f.Rows, [2]int{})
		}
		f.Rows[k.Position.Row-1][k.Hand]++
	}
	return f, nil
}

// plainFrame reads a frame that is told by its measures: "split 3x6+3" has
// three rows of six keys and three thumb keys a side, "left 3x6+3" the left half
// of it alone, "ortholinear 4x12" four rows of twelve keys in one piece.
func plainFrame(text string) (frame, error) {
	m := regexp.MustCompile(`^(split|left|right|ortholinear) +(\d{1,2}) *x *(\d{1,2})(?: *\+ *(\d{1,2}))?$`).FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return frame{}, fmt.Errorf("%q is no shape; write one like split 3x6+3 or ortholinear 4x12", text)
	}
	rows, columns, thumbs := number(m[2]), number(m[3]), number(m[4])
	if rows < 1 || rows > 6 || columns < 2 || columns > 16 || thumbs >= columns && m[1] != string(board.Ortholinear) {
		return frame{}, fmt.Errorf("%q: a board has 1 to 6 rows and 2 to 16 columns, and fewer thumb keys than columns", text)
	}
	kind, row, thumb := board.Split, [2]int{columns, columns}, [2]int{thumbs, thumbs}
	switch m[1] {
	case "left":
		row[board.Right], thumb[board.Right] = 0, 0
	case "right":
		row[board.Left], thumb[board.Left] = 0, 0
	case string(board.Ortholinear):
		kind, row = board.Ortholinear, [2]int{columns / 2, columns - columns/2}
	}
	f := frame{Kind: kind, Table: fmt.Sprintf("[shape]\nkind = %q\n", kind)}
	f.Rows = slices.Repeat([][2]int{row}, rows)
	if thumbs > 0 {
		f.Rows = append(f.Rows, thumb)
	}
	return f, nil
}

func number(digits string) int {
	n, _ := strconv.Atoi(digits) // the pattern lets digits alone through
	return n
}

func (f frame) count() int {
	n := 0
	for _, r := range f.Rows {
		n += r[0] + r[1]
	}
	return n
}

// picture draws a layer as a board file has it.
func (f frame) picture(entries []string) string {
	wide := 1
	for _, e := range entries {
		wide = max(wide, len([]rune(e)))
	}
	var out strings.Builder
	k := 0
	most := f.Rows[0]
	for _, r := range f.Rows {
		out.WriteString(" ")
		// Short rows stand under the inner columns.
		out.WriteString(strings.Repeat(" ", max(most[0]-r[0], 0)*(wide+1)))
		for i := range r[0] + r[1] {
			if i == r[0] && f.Kind != board.RowStaggered {
				out.WriteString(" ||")
			}
			fmt.Fprintf(&out, " %-*s", wide, entries[k])
			k++
		}
		if r[1] == 0 {
			out.WriteString(" ||")
		}
		out.WriteString("\n")
	}
	lines := strings.Split(out.String(), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

// blank returns a board of the frame whose keys do nothing.
func (f frame) blank() (*board.Board, error) {
	b, found := board.Read("shape", []byte("name = \"shape\"\n"+f.Table+"\n[[layer]]\nname = \"base\"\nkeys = '''\n"+f.picture(slices.Repeat([]string{"--"}, f.count()))+"'''\n"))
	return b, found.Err()
}
