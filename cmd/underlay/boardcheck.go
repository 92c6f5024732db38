package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"underlay/corpus"
	"underlay/drills/board"
)

// found is a finding as JSON.
type found struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Level   string `json:"level"` // fault, warning, note
	Entry   string `json:"entry,omitempty"`
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
}

func newBoardCheck(env *Env) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "check [BOARD]…",
		Short: "Tell what is wrong with a board",
		Long: `Reads boards and tells everything that is wrong with them, with file, line and
column: faults, for which the exit status is 2; what your mix needs and no layer has;
and what could be better. Without BOARD, those in use.`,
		Example: `  underlay board check ./mine.toml
  underlay board check split-42 --json`,
		ValidArgsFunction: env.completeBoard,
		RunE: func(_ *cobra.Command, args []string) error {
			return env.checkBoards(args, asJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON array")
	return c
}

func (e *Env) checkBoards(names []string, asJSON bool) error {
	cfg, err := e.configuration()
	if err != nil {
		return err
	}
	mix, err := e.mixOf(cfg)
	if err != nil {
		return err
	}
	needed := corpus.Mix(mix...).Symbols()
	if len(names) == 0 {
		names = cfg.Boards
	}
	var all, faulty board.Findings
	for _, name := range names {
		b, list, err := e.readBoard(name)
		if err != nil {
			return err
		}
		if b != nil {
			list = append(list, b.Check(needed)...)
		}
		all = append(all, list...)
		switch {
		case b == nil:
			faulty = append(faulty, list...) // told by who gets the error
		case !asJSON:
			e.tellFindings(list)
			e.tellChecked(name, b, list)
		}
	}
	if asJSON {
		if err := e.json(asFound(all)); err != nil {
			return err
		}
	}
	return faulty.Err()
}

func (e *Env) tellChecked(name string, b *board.Board, list board.Findings) {
	verdict := "nothing is wrong with it"
	if n := len(list); n == 1 {
		verdict = "usable, with 1 remark"
	} else if n > 1 {
		verdict = fmt.Sprintf("usable, with %d remarks", n)
	}
	fmt.Fprintf(e.Stdout, "%s: %d keys, %s; %s\n", safe(name), len(b.Keys()), strings.Join(b.Layers(), " "), verdict)
}

func asFound(list board.Findings) []found {
	out := []found{}
	for _, f := range list {
		out = append(out, found{f.File, f.Line, f.Col, f.Level.String(), f.Entry, f.Message, f.Hint})
	}
	return out
}

func newBoardStrokes(env *Env) *cobra.Command {
	var layout string
	var asJSON bool
	c := &cobra.Command{
		Use:   "strokes BOARD [SYMBOL]…",
		Short: "List every way to produce every symbol",
		Long: `Lists all strokes of a board: for each symbol, or for those named, every way to
produce it, the least effort first. A star marks the one that is drilled.`,
		Example: `  underlay board strokes split-38 '(' ')'
  underlay board strokes ansi-61 --os-layout de --json`,
		Args:              takes(1, -1),
		ValidArgsFunction: env.completeBoard,
		RunE: func(_ *cobra.Command, args []string) error {
			b, err := env.chosenBoard(args[:1], layout)
			if err != nil {
				return err
			}
			entries, err := entriesOf(b, args[1:])
			if err != nil {
				return err
			}
			if asJSON {
				return env.json(entries)
			}
			for _, x := range entries {
				env.writeEntry(b, x)
			}
			return nil
		},
	}
	env.layoutFlag(c, &layout)
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON array")
	return c
}

func entriesOf(b *board.Board, symbols []string) ([]board.Entry, error) {
	if len(symbols) == 0 {
		return b.Entries(), nil
	}
	out := []board.Entry{}
	for _, name := range symbols {
		s := board.Symbol(name)
		if name == " " {
			s = board.Space
		}
		x, ok := b.Entry(s)
		if !ok {
			return nil, failure("board strokes: %q has no stroke for %q", b.Name, name).hinted(`"underlay where %s" looks for what it may be called`, name)
		}
		out = append(out, x)
	}
	return out, nil
}

func (e *Env) writeEntry(b *board.Board, x board.Entry) {
	name := safe(string(x.Symbol))
	for i, s := range x.Strokes {
		mark := " "
		if i == x.Drilled {
			mark = "*"
		}
		fmt.Fprintf(e.Stdout, "%-16s %s %5.2f  %-9s %s\n", name, mark, s.Effort, safe(s.Layer), b.Words(s))
		name = ""
	}
}
