package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"underlay/drills/board"
)

func newBoard(env *Env) *cobra.Command {
	return group("board", "Boards: list, look at, check, compare and print them",
		`A board is a keyboard with its keys and its layers, described in a file of its
own. BOARD is a name or a file everywhere: the name of a file in the boards
directory beside the configuration, or of a board that comes with the program.
A name with an OS layout behind it, as in iso-62-de, is that board on a computer
set to it.

A file draws each layer; entries stand apart by blanks, || parts the halves. On a
board for one hand it stands last in every row, or first for the right hand:

  name = "mine"
  [shape]
  kind = "split"                  # or ortholinear, row-staggered
  column-stagger = [0.6, 0.2, 0]  # key units down, outer to inner
  [[layer]]
  name = "base"
  keys = '''
    q       w    e                 || u               i     o
    Control Alt  Space/marks:hold  || Backspace/Shift Enter --
  '''

An entry is a character; a key by its W3C name (Escape, F5) or code (KeyQ); a
modifier; a chord (Control+w); a way into a layer (marks:hold, :latch, :lock,
:stay); tap/hold (a/Control); .. falls through; -- is nothing; <pair-1> does
something no computer sees, and <forget!> is not to be pressed in vain.
The boards that come with the program are files to learn from; see
"underlay board show BOARD --toml".`,
		newBoardList(env), newBoardShow(env), newBoardCheck(env), newBoardStrokes(env), newBoardCompare(env), newBoardSheet(env), newBoardCapture(env))
}

// boardLine is a board as `board list` tells it.
type boardLine struct {
	Name   string   `json:"name"`
	Title  string   `json:"title"`
	Kind   string   `json:"kind"`
	Keys   int      `json:"keys"`
	Layers []string `json:"layers"`
	Own    bool     `json:"own"`    // a file of the user's
	InUse  bool     `json:"in_use"` // named by the configuration
	Fault  string   `json:"fault,omitempty"`
	Hint   string   `json:"hint,omitempty"`
}

func newBoardList(env *Env) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "list",
		Short: "List all boards",
		Long: `Lists the boards there are: your own first, then those that come with the program.
A star marks those in use.`,
		Args: takes(0, 0),
		RunE: func(*cobra.Command, []string) error {
			list, err := env.listBoards()
			if err != nil {
				return err
			}
			if asJSON {
				return env.json(list)
			}
			for _, b := range list {
				env.writeBoardLine(b)
			}
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON array")
	return c
}

func (e *Env) listBoards() ([]boardLine, error) {
	cfg, err := e.configuration()
	if err != nil {
		return nil, err
	}
	own := e.ownNames(e.Dirs.Boards(), ".toml")
	out := []boardLine{}
	names := e.boardNames()
	for _, name := range cfg.Boards { // such as iso-62-de, or a file
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, name := range names {
		l := boardLine{Name: name, Own: slices.Contains(own, name), InUse: slices.Contains(cfg.Boards, name), Layers: []string{}}
		if b, err := e.board(name); err != nil {
			l.Fault, l.Hint = inShort(err)
		} else {
			l.Title, l.Kind, l.Keys, l.Layers = b.Title, string(b.Kind), len(b.Keys()), b.Layers()
		}
		out = append(out, l)
	}
	return out, nil
}

func (e *Env) writeBoardLine(b boardLine) {
	mark := " "
	if b.InUse {
		mark = "*"
	}
	name := b.Name
	if b.Own {
		name += " (yours)"
	}
	if b.Fault != "" {
		fmt.Fprintf(e.Stdout, "%s %s\n", mark, safe(name))
		e.writeFault(b.Fault, b.Hint)
		return
	}
	what := fmt.Sprintf("%d keys, %s", b.Keys, strings.Join(b.Layers, " "))
	fmt.Fprintf(e.Stdout, "%s %-20s %s\n", mark, safe(name), safe(what))
	if b.Title != "" {
		fmt.Fprintf(e.Stdout, "  %-20s %s\n", "", safe(b.Title))
	}
}

func newBoardShow(env *Env) *cobra.Command {
	var layer, layout string
	var source bool
	c := &cobra.Command{
		Use:   "show [BOARD]",
		Short: "Draw a board's layers",
		Long: `Draws every layer of a board, or one, with how it is reached. Keys that do nothing
are a dot, those that fall through to a layer below are left blank. Without BOARD
it is the one being learned.`,
		Example: `  underlay board show
  underlay board show split-42 --layer marks
  underlay board show split-42 --toml >mine.toml`,
		Args:              takes(0, 1),
		ValidArgsFunction: env.completeBoard,
		RunE: func(_ *cobra.Command, args []string) error {
			b, err := env.chosenBoard(args, layout)
			if err != nil {
				return err
			}
			if source {
				_, err := env.Stdout.Write(b.Source())
				return err
			}
			return env.showLayers(b, layer)
		},
	}
	c.Flags().BoolVar(&source, "toml", false, "print the board's file instead, to make one of your own from it")
	c.Flags().StringVar(&layer, "layer", "", "draw this `LAYER` alone")
	env.layoutFlag(c, &layout)
	return c
}

func (e *Env) showLayers(b *board.Board, only string) error {
	if only != "" && !slices.Contains(b.Layers(), only) {
		return misuse("board show: %q has no layer %q", b.Name, only).hinted("its layers are %s", strings.Join(b.Layers(), ", "))
	}
	fmt.Fprintf(e.Stdout, "%s   %s\n", safe(b.Name), safe(b.Title))
	for _, layer := range b.Layers() {
		if only != "" && layer != only {
			continue
		}
		fmt.Fprintf(e.Stdout, "\n%s\n\n", layerHead(b, layer))
		for _, line := range b.TextEntered(layer, 0, e.width()-2) {
			fmt.Fprintln(e.Stdout, strings.TrimRight("  "+line, " "))
		}
	}
	if only == "" || only == b.Layers()[0] {
		e.writeCombos(b)
	}
	return nil
}

// layerHead names a layer and says how it is reached.
func layerHead(b *board.Board, layer string) string {
	if words := b.EnterWords(layer); words != "" {
		return safe(layer) + ": " + words
	}
	return safe(layer)
}

func (e *Env) writeCombos(b *board.Board) {
	for i, c := range b.Combos() {
		if i == 0 {
			fmt.Fprintln(e.Stdout)
		}
		var names []string
		for _, p := range c.Keys {
			names = append(names, b.KeyWords(p))
		}
		where := ""
		if c.Layer != "" {
			where = " (" + c.Layer + ")"
		}
		fmt.Fprintf(e.Stdout, "  together %s: %s%s\n", strings.Join(names, " + "), c.Gives, where)
	}
}

// chosenBoard is the board that a command names, or the one being learned.
func (e *Env) chosenBoard(args []string, layout string) (*board.Board, error) {
	name := ""
	if len(args) > 0 {
		name = args[0]
	} else {
		cfg, err := e.configuration()
		if err != nil {
			return nil, err
		}
		name = cfg.Boards[0]
	}
	b, err := e.board(name)
	if err != nil || layout == "" {
		return b, err
	}
	if !slices.Contains(board.OSLayouts(), layout) {
		return nil, misuse("there is no OS layout %q", layout).hinted("there are %s", strings.Join(board.OSLayouts(), ", "))
	}
	return b.WithOSLayout(layout)
}

func (e *Env) layoutFlag(c *cobra.Command, layout *string) {
	c.Flags().StringVar(layout, "os-layout", "", "as on a computer set to `LAYOUT`: "+strings.Join(board.OSLayouts(), ", "))
	completeNames(c, "os-layout", board.OSLayouts)
}

// completeBoard completes the name of a board, or a file.
func (e *Env) completeBoard(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return e.boardNames(), cobra.ShellCompDirectiveDefault
}
