package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"underlay/drills/board"
)

func newBoardCompare(env *Env) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "compare A B",
		Short: "Tell what moved from one board to another",
		Long: `Tells which symbols are struck otherwise on B than on A, which are new and which are
gone: for two boards, or two states of one file. Chords that go along with their
key are left out.`,
		Example: `  underlay board compare old.toml new.toml
  underlay board compare split-38 ansi-61`,
		Args:              takes(2, 2),
		ValidArgsFunction: env.completeBoard,
		RunE: func(_ *cobra.Command, args []string) error {
			a, err := env.board(args[0])
			if err != nil {
				return err
			}
			b, err := env.board(args[1])
			if err != nil {
				return err
			}
			changes := board.Compare(a, b)
			if asJSON {
				return env.json(asChanges(changes))
			}
			env.writeChanges(a, b, changes)
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	return c
}

// movedSymbol is one symbol's change as JSON.
type movedSymbol struct {
	Symbol board.Symbol  `json:"symbol"`
	From   *board.Stroke `json:"from,omitempty"`
	To     *board.Stroke `json:"to,omitempty"`
}

func asChanges(c board.Changes) map[string][]movedSymbol {
	return map[string][]movedSymbol{
		"moved": asChanged(c.Moved, true, true), "new": asChanged(c.New, false, true), "gone": asChanged(c.Gone, true, false),
	}
}

func asChanged(moves []board.Move, from, to bool) []movedSymbol {
	out := []movedSymbol{}
	for _, m := range moves {
		x := movedSymbol{Symbol: m.Symbol}
		if from {
			x.From = &m.From
		}
		if to {
			x.To = &m.To
		}
		out = append(out, x)
	}
	return out
}

func (e *Env) writeChanges(a, b *board.Board, c board.Changes) {
	if len(c.Moved)+len(c.New)+len(c.Gone) == 0 {
		fmt.Fprintf(e.Stdout, "every symbol of %s is struck the same on %s\n", safe(a.Name), safe(b.Name))
		return
	}
	e.writeMoves("moved", c.Moved, func(m board.Move) string {
		return fmt.Sprintf("%s\n%26s%s", struck(a, m.From), "-> ", struck(b, m.To))
	})
	e.writeMoves("new", c.New, func(m board.Move) string { return struck(b, m.To) })
	e.writeMoves("gone", c.Gone, func(m board.Move) string { return struck(a, m.From) })
}

func (e *Env) writeMoves(what string, moves []board.Move, say func(board.Move) string) {
	if len(moves) == 0 {
		return
	}
	fmt.Fprintf(e.Stdout, "%s  %d\n", what, len(moves))
	for _, m := range moves {
		fmt.Fprintf(e.Stdout, "  %-20s %s\n", safe(string(m.Symbol)), say(m))
	}
}

// struck says a stroke with its layer.
func struck(b *board.Board, s board.Stroke) string {
	return fmt.Sprintf("%s: %s", safe(s.Layer), b.Words(s))
}
