package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/config"
	"underlay/cmd/underlay/course"
	"underlay/cmd/underlay/report"
	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
	"underlay/scheduler/journal"
)

func newProgress(env *Env) *cobra.Command {
	var f progressFlags
	c := &cobra.Command{
		Use:   "progress",
		Short: "Say how far you are, and what holds you back",
		Long: `Shows how fast you are on your own mix on each board, how it went from day to
day, what costs you most, whether a key had better be moved, and whether the
other board fades. Ranges hold what is expected four times of five. A stroke costs
what it takes more than your quick strokes, slips and their repair included, as often
as it comes in 1,000 characters of your mix. Times are known of strokes that are right,
unaided and typed key by key; first tries, the first of each stroke in a day, tell what
stayed overnight.

With --page all of it is written as one file for a browser, with pictures of
the layers; it needs nothing else and fetches nothing.

With --csv a row is written for each stroke and day: date, board, symbol, stroke,
tries, slips, timed_tries (right, unaided, not the first of a line), median_ms (of
these), first_ms (the day's first try, where it was right and unaided), minutes.

A page or table that was made before is written over, another file only with --force.

With --json: {"at", "boards", "readiness", "holds_back", "days", "slips", "moves",
"upkeep", "notes", "invented"}. Times are in ms, shares from 0 to 1, and a figure with a range
is {"value", "lo", "hi"}; what is not known yet says what it "needs".`,
		Example: `  underlay progress
  underlay progress --moves
  underlay progress --page progress.html`,
		Args: takes(0, 0),
		RunE: func(c *cobra.Command, _ []string) error {
			if err := named(c, "page", "csv"); err != nil {
				return err
			}
			return env.progress(f)
		},
	}
	c.Flags().StringVar(&f.board, "board", "", "about `BOARD` instead of the one being learned, a name or a file")
	c.Flags().BoolVar(&f.moves, "moves", false, "tell all about moving keys")
	c.Flags().BoolVar(&f.json, "json", false, "print one JSON object")
	c.Flags().StringVar(&f.page, "page", "", "write a page for a browser to `FILE`, - for standard output")
	c.Flags().StringVar(&f.csv, "csv", "", "write a table of strokes and days to `FILE`, - for standard output")
	c.Flags().BoolVar(&f.force, "force", false, "write over FILE whatever it is")
	completeNames(c, "board", env.boardNames)
	return c
}

type progressFlags struct {
	board, page, csv   string
	moves, json, force bool
}

func (f progressFlags) check() error {
	var given []string
	for name, set := range map[string]bool{"--json": f.json, "--page": f.page != "", "--csv": f.csv != ""} {
		if set {
			given = append(given, name)
		}
	}
	if len(given) > 1 {
		return misuse("progress: --json, --page and --csv do not go together").hinted("run it once for each")
	}
	if f.moves && (f.csv != "" || f.page != "") {
		return misuse("progress: --moves is for the terminal and for --json").hinted("the page tells about moves in any case")
	}
	if f.board != "" && f.csv != "" {
		return misuse("progress: --board and --csv do not go together").hinted("the table has all boards, each row its own")
	}
	if f.force && f.csv == "" && f.page == "" {
		return misuse("progress: --force is for --page and --csv")
	}
	return nil
}

// named refuses flags for files that were given and name none, as with a variable that is empty.
func named(c *cobra.Command, flags ...string) error {
	for _, name := range flags {
		if f := c.Flags().Lookup(name); f.Changed && f.Value.String() == "" {
			return misuse("%s--%s names no file", tag(c), name)
		}
	}
	return nil
}

func (e *Env) progress(f progressFlags) error {
	if err := f.check(); err != nil {
		return err
	}
	if f.csv != "" {
		return e.progressCSV(f)
	}
	s, learned, err := e.standing(f.board)
	if err != nil {
		return err
	}
	switch {
	case f.json:
		s.Round()
		return e.json(s)
	case f.page != "":
		page := report.File{Name: f.page, Begins: report.PageBegins, Force: f.force}
		return e.written("page", page, func(w io.Writer) error { return report.Page(w, s, learned) })
	}
	tell := report.Text
	if f.moves {
		tell = report.Moves
	}
	width := e.width()
	lines := slices.Concat([]string{report.Head(s, width), ""}, tell(s, width))
	_, err = fmt.Fprintln(e.Stdout, strings.Join(lines, "\n"))
	return err
}

// standing reads boards, mix and journal, and works out where the user stands.
// It returns the board being learned as well.
func (e *Env) standing(first string) (standing.Standing, *board.Board, error) {
	cfg, err := e.configuration()
	if err != nil {
		return standing.Standing{}, nil, err
	}
	w := &standing.Watch{}
	c, err := e.counted(cfg, first, w)
	if err != nil {
		return standing.Standing{}, nil, err
	}
	s := standing.New(w.Input(e.Now()))
	s.Invented = e.hasInvented()
	for _, p := range c.Problems() {
		s.Notes = append(s.Notes, fmt.Sprintf("%s line %d could not be read: %s", p.File, p.Line, p.Reason))
	}
	// Without a cache everything is read again next time; that is no failure.
	_ = c.Keep()
	return s, c.Boards()[0], nil
}

// hasInvented tells whether a simulated typist wrote in this journal.
func (e *Env) hasInvented() bool {
	if e.Dirs.Data == "" {
		return false
	}
	_, err := fs.Stat(journal.NewDisk(e.Dirs.Journal()).FS(), journal.FileName(inventor))
	return err == nil
}

// counted is a course for looking back: nothing is practised, w counts.
func (e *Env) counted(cfg config.Config, first string, w course.Watch) (*course.Course, error) {
	c, err := e.joined(cfg, first)
	if err != nil {
		return nil, err
	}
	c.Past.Cache.Name, c.Watch, c.Idle = "progress", w, true
	return e.recalled(c)
}

// reading gives a sign of life on a terminal while much is read; 0 clears it.
func (e *Env) reading() func(drills int) {
	if !e.Terminal(e.Stderr) {
		return nil
	}
	told := false
	return func(drills int) {
		switch {
		case drills > 0:
			fmt.Fprintf(e.Stderr, "\rreading the journal: %d drills", drills)
			told = true
		case told:
			fmt.Fprintf(e.Stderr, "\r%s\r", strings.Repeat(" ", 50))
		}
	}
}

// counting yields what drills yields, and tells read now and then how many there were, and
// 0 at the end. read may be nil.
func counting(drills iter.Seq2[journal.Drill, bool], read func(drills int)) iter.Seq2[journal.Drill, bool] {
	if read == nil {
		return drills
	}
	return func(yield func(journal.Drill, bool) bool) {
		defer read(0)
		n := 0
		for d, struck := range drills {
			if n++; n%1000 == 0 {
				read(n)
			}
			if !yield(d, struck) {
				return
			}
		}
	}
}

// progressCSV writes what was typed by stroke and day, on whatever board.
func (e *Env) progressCSV(f progressFlags) error {
	var rows standing.Rows
	if e.Dirs.Data != "" {
		h, err := e.history()
		if err != nil {
			return err
		}
		for d, struck := range counting(h.All(), e.reading()) {
			if !struck {
				rows.Add(d)
			}
		}
		if err := e.tellUnread(h); err != nil {
			return err
		}
	}
	table := report.File{Name: f.csv, Begins: report.CSVBegins, Force: f.force}
	return e.written("table", table, func(w io.Writer) error { return report.CSV(w, rows.All()) })
}

// written writes a file and says so; - is standard output.
func (e *Env) written(what string, file report.File, write func(io.Writer) error) error {
	if file.Name == "-" {
		out := bufio.NewWriter(e.plainOutput())
		if err := write(out); err != nil {
			return err
		}
		return out.Flush()
	}
	if err := writeFile(what, file, write); err != nil {
		return err
	}
	_, err := fmt.Fprintf(e.Stdout, "the %s is in %s\n", what, safe(file.Name))
	return err
}

// writeFile writes a file, or says what keeps it from being written.
func writeFile(what string, file report.File, write func(io.Writer) error) error {
	err := file.Write(write)
	if err == nil {
		return nil
	}
	p := failure("%w", tried("write the "+what, file.Name, err))
	if errors.Is(err, report.ErrOther) {
		return p.hinted("write to another one, or over it with --force")
	}
	return p
}
