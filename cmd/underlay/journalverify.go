package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/course"
	"underlay/drills/board"
	"underlay/scheduler/journal"
)

func newJournalVerify(env *Env) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "verify [DIR]",
		Short: "Read every record and say what is good, torn or bad",
		Long: `Reads every record of the journal, or of one in another directory, and tells what
is in it and which lines cannot be read, with file and line.

A torn line is a last line without its end, as a crash leaves it: it was never
said to be saved. The next practice keeps it aside in a .torn file and goes on.
A bad line does not fit its checksum. It is passed over and stays where it is;
the lines around it are good. Nothing is changed by verifying.

The exit status is 2 when a line is bad or a file is of a newer version.

With --json: {"directory", "files": [{"name", "machine", "version", "bytes", "lines",
"boards", "drills", "strokes", "strikes", "others", "first", "last", "problems":
[{"file", "line", "offset", "kind", "reason"}]}], "sessions", "drills", "strokes",
"copies", "struck", "no_board"}. Lines count from 1, offsets from 0. The totals
count each drill once; copies are drills that were met again. struck names
sessions that do not count, no_board hashes of boards that no file holds.`,
		Example: `  underlay journal verify
  underlay journal verify backup --json`,
		Args: takes(0, 1),
		RunE: func(_ *cobra.Command, args []string) error {
			v, err := env.verify(args)
			if err != nil {
				return err
			}
			if asJSON {
				err = env.json(v)
			} else {
				writeChecked(env.Stdout, v)
			}
			if err != nil {
				return err
			}
			return v.fault()
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	return c
}

// checked is what verify found in a directory.
type checked struct {
	Directory string `json:"directory"`
	journal.Report
}

func (e *Env) verify(args []string) (v checked, err error) {
	if len(args) > 0 {
		v.Directory = args[0]
		if info, err := os.Stat(v.Directory); err != nil {
			return v, misuse("%w", tried("read the journal", v.Directory, err))
		} else if !info.IsDir() {
			return v, misuse("read the journal %q: it is not a directory", v.Directory)
		}
	} else if v.Directory, err = need(e.Dirs.Journal()); err != nil {
		return v, err
	}
	v.Report, err = journal.Verify(journal.NewDisk(v.Directory).FS())
	return v, err
}

// count counts the problems of a kind.
func (v checked) count(kind journal.ProblemKind) (n int) {
	for _, f := range v.Files {
		for _, p := range f.Problems {
			if p.Kind == kind {
				n++
			}
		}
	}
	return n
}

// fault is an error when something is amiss that does not mend itself.
func (v checked) fault() error {
	switch bad := v.count(journal.Bad); {
	case v.count(journal.Newer) > 0:
		return newerJournal(course.ErrNewer)
	case bad > 0:
		return misuse("the journal in %q has %s", v.Directory, counted(bad, "bad line")).
			hinted("the other lines are good; a copy of the file from another day may have the bad ones")
	}
	return nil
}

func writeChecked(w io.Writer, v checked) {
	fmt.Fprintln(w, board.Safe(v.Directory))
	if len(v.Files) == 0 {
		fmt.Fprintln(w, "  nothing was practised yet: there is no journal")
		return
	}
	for _, f := range v.Files {
		fmt.Fprintf(w, "  %s: %s\n", board.Safe(f.Name), inFile(f))
		for _, p := range f.Problems {
			fmt.Fprintf(w, "    line %d: %s: %s\n", p.Line, p.Kind, board.Safe(p.Reason))
		}
	}
	fmt.Fprintf(w, "together: %s\n", inAll(v.Report))
	for _, hash := range v.NoBoard {
		fmt.Fprintf(w, "the board file of %s is not in the journal\n", board.Safe(hash))
	}
	switch {
	case v.Good():
		fmt.Fprintln(w, "every line is good")
	case v.count(journal.Bad)+v.count(journal.Newer) == 0:
		fmt.Fprintln(w, "every line is good but one that a crash cut short; the next practice keeps it aside")
	}
}

func inFile(f journal.FileReport) string {
	text := []string{counted(f.Lines, "line"), counted(f.Drills, "drill"), counted(f.Strokes, "stroke")}
	if f.Drills > 0 {
		text = append(text, f.First.Format(time.DateOnly)+" to "+f.Last.Format(time.DateOnly))
	}
	return strings.Join(text, ", ")
}

func inAll(r journal.Report) string {
	text := []string{counted(r.Sessions, "session"), counted(r.Drills, "drill"), counted(r.Strokes, "stroke")}
	if r.Copies > 0 {
		text = append(text, counted(r.Copies, "copy")+" not counted")
	}
	if n := len(r.Struck); n > 0 {
		text = append(text, counted(n, "session")+" struck")
	}
	return strings.Join(text, ", ")
}

// counted writes a number of things.
func counted(n int, thing string) string {
	switch {
	case n == 1:
		return "1 " + thing
	case strings.HasSuffix(thing, "y"):
		thing = strings.TrimSuffix(thing, "y") + "ie"
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
