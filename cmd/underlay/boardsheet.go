package main

import (
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/report"
	"underlay/drills/board"
)

// sheetWish is what the command line asks of a sheet.
type sheetWish struct {
	layout string
	layers []string // all if none
	file   string   // or "" for standard output
	force  bool     // write over the file whatever it is
}

func newBoardSheet(env *Env) *cobra.Command {
	var w sheetWish
	c := &cobra.Command{
		Use:   "sheet [BOARD]",
		Short: "Print the layers of a board on a page",
		Long: `Writes the layers of a board to a file, to lie beside keys without legends: one A4
page as a picture (.svg) or text (.txt). Holds are told in words beside the row, and
the key to hold for a layer has a ring. Without -o the text goes to standard output;
without BOARD it is the one being learned. A sheet of the board that was made before
is written over, another file only with --force.`,
		Example: `  underlay board sheet split-42 -o sheet.svg
  underlay board sheet --layer marks`,
		Args:              takes(0, 1),
		ValidArgsFunction: env.completeBoard,
		RunE: func(c *cobra.Command, args []string) error {
			if err := named(c, "output"); err != nil {
				return err
			}
			b, err := env.chosenBoard(args, w.layout)
			if err != nil {
				return err
			}
			return env.sheet(b, w)
		},
	}
	c.Flags().StringArrayVar(&w.layers, "layer", nil, "print this `LAYER` alone; may be given again")
	c.Flags().StringVarP(&w.file, "output", "o", "", "write to `FILE`, which ends in .svg or .txt")
	c.Flags().BoolVar(&w.force, "force", false, "write over FILE whatever it is")
	env.layoutFlag(c, &w.layout)
	return c
}

func (e *Env) sheet(b *board.Board, w sheetWish) error {
	for _, l := range w.layers {
		if !slices.Contains(b.Layers(), l) {
			return misuse("board sheet: %q has no layer %q", b.Name, l).hinted("its layers are %s", strings.Join(b.Layers(), ", "))
		}
	}
	if w.file == "" {
		return report.SheetText(e.Stdout, b, w.layers)
	}
	write, begins := report.SheetText, report.SheetTextBegins
	switch strings.ToLower(filepath.Ext(w.file)) {
	case ".svg":
		write, begins = report.Sheet, report.SheetBegins
	case ".txt":
	default:
		return misuse("board sheet: no sheet can be written as %q", w.file).hinted("FILE ends in .svg or .txt")
	}
	file := report.File{Name: w.file, Begins: begins, Force: w.force}
	return writeFile("sheet", file, func(out io.Writer) error { return write(out, b, w.layers) })
}
