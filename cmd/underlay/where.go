package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"underlay/drills/board"
)

// How many symbols one query answers with, and how many of them are drawn.
const (
	whereMost  = 4
	whereDrawn = 2
)

func newWhere(env *Env) *cobra.Command {
	var on []string
	var asJSON bool
	c := &cobra.Command{
		Use:   "where SYMBOL…",
		Short: "Say where a symbol is, on every board",
		Long: `Finds symbols by themselves, by their key's name or by what people call them: "{",
"PageUp", "amp", "curly", "pipe". A run such as "=>" is taken mark by mark. For each it draws the layer and says the stroke,
on the boards in use or those named.`,
		Example: `  underlay where curly
  underlay where '&' home --board split-42`,
		Args: takes(1, -1),
		RunE: func(_ *cobra.Command, args []string) error {
			boards, err := env.whereBoards(on)
			if err != nil {
				return err
			}
			places, missing := findAll(args, boards)
			if !asJSON {
				env.writePlaces(places)
			} else if err := env.json(places); err != nil {
				return err
			}
			return notFound(missing, boards)
		},
	}
	c.Flags().StringArrayVar(&on, "board", nil, "look on `BOARD`, a name or a file; may be given again")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON array")
	completeNames(c, "board", env.boardNames)
	return c
}

func (e *Env) whereBoards(names []string) ([]*board.Board, error) {
	if len(names) == 0 {
		cfg, err := e.configuration()
		if err != nil {
			return nil, err
		}
		return e.boardsOf(cfg, "")
	}
	var out []*board.Board
	for _, name := range names {
		b, err := e.board(name)
		if err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	return out, nil
}

// spotted is where one symbol is on one board.
type spotted struct {
	Symbol   board.Symbol  `json:"symbol"`
	Board    string        `json:"board"`
	Layer    string        `json:"layer,omitempty"`
	Position string        `json:"position,omitempty"`
	Words    string        `json:"words"`
	Stroke   *board.Stroke `json:"stroke"` // null: the board does not have it

	on    *board.Board
	drawn bool
}

// findAll answers each query with the likeliest symbols of all boards, and
// returns the queries without an answer besides.
func findAll(queries []string, boards []*board.Board) (places []spotted, missing []string) {
	var among []board.Symbol
	for _, b := range boards {
		among = append(among, b.Symbols()...)
	}
	slices.Sort(among)
	among = slices.Compact(among)
	places = []spotted{}
	for _, q := range oneByOne(queries) {
		hits := board.Find(q, among)
		if len(hits) == 0 {
			missing = append(missing, q)
		}
		for i, s := range hits[:min(len(hits), whereMost)] {
			for _, b := range boards {
				at := spot(s, b)
				at.drawn = i < whereDrawn && at.Stroke != nil
				places = append(places, at)
			}
		}
	}
	return places, missing
}

// oneByOne parts runs of marks, and names the space.
func oneByOne(queries []string) []string {
	var out []string
	for _, q := range queries {
		marks := board.Marks(q)
		for _, m := range marks {
			out = append(out, string(m))
		}
		switch {
		case q == " ":
			out = append(out, string(board.Space))
		case marks == nil:
			out = append(out, q)
		}
	}
	return out
}

// notFound is the error for queries without an answer; nil for none.
func notFound(queries []string, boards []*board.Board) error {
	if len(queries) == 0 {
		return nil
	}
	quoted := make([]string, len(queries))
	for i, q := range queries {
		quoted[i] = strconv.Quote(q)
	}
	return failure("where: nothing on %s is called %s", boardList(boards), strings.Join(quoted, " or ")).
		hinted(`try a part of its name, such as "brace" or "page"`)
}

func boardList(boards []*board.Board) string {
	var names []string
	for _, b := range boards {
		names = append(names, b.Name)
	}
	return strings.Join(names, " or ")
}

func spot(s board.Symbol, b *board.Board) spotted {
	st, ok := b.Drilled(s)
	if !ok {
		return spotted{Symbol: s, Board: b.Name, Words: "not on this board", on: b}
	}
	return spotted{Symbol: s, Board: b.Name, Layer: st.Layer, Position: st.Final().Position.String(), Words: b.Words(st), Stroke: &st, on: b}
}

// writePlaces says each place, and draws the likeliest.
func (e *Env) writePlaces(places []spotted) {
	for i, p := range places {
		if i == 0 || places[i-1].Symbol != p.Symbol {
			if i > 0 {
				fmt.Fprintln(e.Stdout)
			}
			fmt.Fprintf(e.Stdout, "%s\n", safe(titled(p.Symbol)))
		}
		layer := ""
		if p.Layer != "" {
			layer = ", " + p.Layer
		}
		fmt.Fprintf(e.Stdout, "  %s%s: %s\n", safe(p.Board), safe(layer), p.Words)
		if !p.drawn {
			continue
		}
		fmt.Fprintln(e.Stdout)
		for _, line := range p.on.Text(p.Layer, e.width()-4, *p.Stroke) {
			fmt.Fprintln(e.Stdout, strings.TrimRight("    "+line, " "))
		}
		fmt.Fprintln(e.Stdout)
	}
}

// titled is a symbol with its first name, where that says more.
func titled(s board.Symbol) string {
	if names := s.Names(); len(names) > 0 && !strings.EqualFold(names[0], string(s)) {
		return string(s) + "  " + names[0]
	}
	return string(s)
}
