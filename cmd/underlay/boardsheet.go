package main

import (
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/report"
)

func newBoardSheet(env *Env) *cobra.Command {
	var layers []string
	var file, layout string
	c := &cobra.Command{
		Use:   "sheet [BOARD]",
		Short: "Print the layers of a board on a page",
		Long: `Writes the layers of a board to a file, to lie beside keys without legends: one A4
page as a picture (.svg) or text (.txt). Holds are told in words beside the row, and
the key to hold for a layer has a ring. Without -o the text goes to standard output;
without BOARD it is the one being learned.`,
		Example: `  underlay board sheet split-42 -o sheet.svg
  underlay board sheet --layer marks`,
		Args:              takes(0, 1),
		ValidArgsFunction: env.completeBoard,
		RunE: func(_ *cobra.Command, args []string) error {
			return env.sheet(args, layout, layers, file)
		},
	}
	c.Flags().StringArrayVar(&layers, "layer", nil, "print this `LAYER` alone; may be given again")
	c.Flags().StringVarP(&file, "output", "o", "", "write to `FILE`, which ends in .svg or .txt")
	env.layoutFlag(c, &layout)
	return c
}

func (e *Env) sheet(args []string, layout string, layers []string, file string) error {
	b, err := e.chosenBoard(args, layout)
	if err != nil {
		return err
	}
	for _, l := range layers {
		if !slices.Contains(b.Layers(), l) {
			return misuse("board sheet: %q has no layer %q", b.Name, l).hinted("its layers are %s", strings.Join(b.Layers(), ", "))
		}
	}
	if file == "" {
		return report.SheetText(e.Stdout, b, layers)
	}
	write := report.SheetText
	switch ending := strings.ToLower(filepath.Ext(file)); ending {
	case ".svg":
		write = report.Sheet
	case ".txt":
	default:
		return misuse("board sheet: no sheet can be written as %q", file).hinted("FILE ends in .svg or .txt")
	}
	if err := report.Write(file, func(w io.Writer) error { return write(w, b, layers) }); err != nil {
		return failure("%w", tried("write the sheet", file, err))
	}
	return nil
}
