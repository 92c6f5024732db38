package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/config"
	"underlay/corpus"
	"underlay/corpus/code"
)

// scanWish is what a command line asks of a scan.
type scanWish struct {
	name        string
	asJSON, raw bool
}

func newCorpusScan(env *Env) *cobra.Command {
	w := scanWish{}
	c := &cobra.Command{
		Use:   "scan DIR…",
		Short: "Count your own code",
		Long: `Counts the source code below each DIR and keeps the counts as a table of your own;
a scan replaces the table of its name. Comments and the bodies of strings are left
out. Of the text nothing is kept but counts, among them those of names of up to
eight characters that many files use.

Left out are what .gitignore files leave out (also those above DIR in a repository),
other people's code (vendor, node_modules, …), and files that are binary, generated,
minified or above 1 MiB. Symbolic links are not followed.

Languages: ` + languagesKnown() + `.`,
		Example: `  underlay corpus scan ~/src/project
  underlay corpus scan . --name work
  underlay corpus scan --json --raw .`,
		Args: takes(1, -1),
		RunE: func(_ *cobra.Command, dirs []string) error { return env.scan(dirs, w) },
	}
	c.Flags().StringVar(&w.name, "name", "mine", "keep the counts as the table `NAME`")
	c.Flags().BoolVar(&w.asJSON, "json", false, "print the counts as one JSON object")
	c.Flags().BoolVar(&w.raw, "raw", false, "count all characters, comments and strings too, and keep no table")
	return c
}

// languagesKnown names the languages that can be counted, in lines of a help text.
func languagesKnown() string {
	var names []string
	for _, l := range code.All().List() {
		names = append(names, l.Name)
	}
	const half = 14 // a line's worth
	return strings.Join(names[:half], ", ") + ",\n" + strings.Join(names[half:], ", ")
}

func (e *Env) scan(dirs []string, w scanWish) error {
	if err := checkTableName(w.name); err != nil {
		return err
	}
	if w.name == keysTable {
		return misuse("corpus scan: the table %q is for the strokes that no text shows", w.name).hinted("choose another --name")
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	progress := &corpus.Progress{}
	scan := corpus.NewScan(corpus.ScanOptions{Raw: w.raw, Progress: progress})
	quiet := e.tellProgress(progress)
	err := addDirs(ctx, scan, dirs)
	quiet()
	if errors.Is(err, context.Canceled) {
		return failure("corpus scan: interrupted; no table was changed")
	} else if err != nil {
		return err
	}
	e.tellTroubles(scan)
	if scan.Files == 0 {
		return failure("corpus scan: there is no source code in %s%s", quoted(dirs), leftOut(scan.Skipped)).hinted("languages are told by the ending of the file's name, or by a first line that begins with #!")
	}
	table := scan.Table(w.name)
	if w.asJSON {
		err = e.json(asScanned(scan, table))
	} else {
		e.writeScan(scan, table)
	}
	if err != nil || w.raw {
		return err
	}
	return e.keepTable(table, !w.asJSON)
}

// checkTableName refuses names that are no names of a file everywhere.
func checkTableName(name string) error {
	bad := strings.ContainsFunc(name, func(r rune) bool {
		return r != '-' && r != '_' && r != '.' && !alphanumeric(r)
	})
	if name == "" || bad || name[0] == '.' || name[0] == '-' {
		return misuse("%q is no name for a table", name).hinted("a name has letters, digits, - _ and . and begins with a letter, a digit or _")
	}
	return nil
}

// tellProgress shows how far a scan is on a terminal, until the function that
// it returns is called.
func (e *Env) tellProgress(p *corpus.Progress) func() {
	if !e.Terminal(e.Stderr) {
		return func() {}
	}
	done, gone := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(gone)
		tick := time.NewTicker(200 * time.Millisecond)
		defer tick.Stop()
		for {
			select {
			case <-tick.C:
				fmt.Fprintf(e.Stderr, "\r%s files, %s \x1b[K", grouped(float64(p.Files.Load())), megabytes(float64(p.Bytes.Load())))
			case <-done:
				fmt.Fprint(e.Stderr, "\r\x1b[K")
				return
			}
		}
	}()
	return func() { close(done); <-gone }
}

// tellTroubles names the files that should have been counted and were not.
func (e *Env) tellTroubles(s *corpus.Scan) {
	for _, t := range s.Troubles {
		why := map[corpus.Reason]string{corpus.BadName: "its name is not UTF-8", corpus.Special: "it is neither a directory nor a file", corpus.Huge: "it is above 1 MiB"}[t.Reason]
		if t.Err != nil {
			why = t.Err.Error()
			if p, ok := errors.AsType[*fs.PathError](t.Err); ok {
				why = p.Err.Error()
			}
		}
		fmt.Fprintf(e.Stderr, "not counted: %q: %s\n", t.Path, safe(why))
	}
}

// scanned is a scan in JSON.
type scanned struct {
	Files     int64                      `json:"files"`
	Bytes     int64                      `json:"bytes"`
	Skipped   map[corpus.Reason]int64    `json:"skipped"`
	Languages map[string]scannedLanguage `json:"languages"`
}

type scannedLanguage struct {
	Files float64       `json:"files"`
	Bytes float64       `json:"bytes"`
	Marks corpus.Counts `json:"marks"`
	Pairs corpus.Counts `json:"pairs"`
	Runs  corpus.Counts `json:"runs"`
}

func asScanned(s *corpus.Scan, t *corpus.Table) scanned {
	out := scanned{s.Files, s.Bytes, s.Skipped, map[string]scannedLanguage{}}
	for _, p := range t.Leaves() {
		marks := kept(p.Table.Counts(corpus.Symbol), func(k string) bool {
			return len(k) == 1 && k[0] > ' ' && k[0] < 0x7f && !alphanumeric(rune(k[0]))
		})
		out.Languages[p.Table.Language] = scannedLanguage{p.Table.Files, p.Table.Bytes, marks,
			orEmpty(p.Table.Counts(corpus.Pair)), orEmpty(p.Table.Counts(corpus.Run))}
	}
	return out
}

func orEmpty(c corpus.Counts) corpus.Counts {
	if c == nil {
		return corpus.Counts{}
	}
	return c
}

func (e *Env) writeScan(s *corpus.Scan, t *corpus.Table) {
	fmt.Fprintf(e.Stdout, "%s, %s%s\n\n", filesWord(float64(s.Files)), megabytes(float64(s.Bytes)), leftOut(s.Skipped))
	leaves := slices.Clone(t.Leaves())
	slices.SortStableFunc(leaves, func(a, b corpus.Part) int { return compareDown(a.Weight, b.Weight) })
	for _, p := range leaves {
		var marks []string
		for _, c := range notText(p.Table.Counts(corpus.Symbol)).Top(12) {
			if len(c.Key) == 1 {
				marks = append(marks, c.Key)
			}
		}
		fmt.Fprintf(e.Stdout, "  %-12s %13s %9s %4.0f %% of strokes   %s\n", p.Table.Language, filesWord(p.Table.Files), megabytes(p.Table.Bytes),
			100*p.Weight, safe(strings.Join(marks, " ")))
	}
}

func quoted(names []string) string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = strconv.Quote(n)
	}
	return strings.Join(out, ", ")
}

// leftOut words what was skipped: "; left out: 12 unknown, 3 generated".
func leftOut(skipped map[corpus.Reason]int64) string {
	var parts []string
	for _, reason := range slices.Sorted(maps.Keys(skipped)) {
		parts = append(parts, fmt.Sprintf("%s %s", grouped(float64(skipped[reason])), reason))
	}
	if len(parts) == 0 {
		return ""
	}
	return "; left out: " + strings.Join(parts, ", ")
}

// keepTable writes a table of the user's own.
func (e *Env) keepTable(t *corpus.Table, told bool) error {
	dir, err := need(e.Dirs.Tables())
	if err != nil {
		return err
	}
	var text strings.Builder
	if err := t.Write(&text); err != nil {
		return err
	}
	file := filepath.Join(dir, t.Name+".tsv")
	if err := config.Write(file, text.String()); err != nil {
		return tried("write the table", file, err)
	}
	if told {
		fmt.Fprintf(e.Stdout, "\nkept as the table %q in %s\n", t.Name, safe(file))
		if t.Name != keysTable && slices.Contains(corpus.Embedded(), t.Name) {
			fmt.Fprintln(e.Stdout, "it is used in place of the one that comes with the program; delete the file to have that back")
		}
		e.tellUse(t.Name)
	}
	return nil
}

// tellUse says how a new table comes into the mix.
func (e *Env) tellUse(name string) {
	if cfg, err := e.configuration(); err == nil && cfg.Mix[name] == 0 && name != keysTable {
		mix := []string{}
		for _, n := range cfg.MixNames() {
			mix = append(mix, fmt.Sprintf("%s=%g", n, cfg.Mix[n]))
		}
		fmt.Fprintf(e.Stdout, "to practise it: underlay corpus mix %s\n", safe(strings.Join(append(mix, name+"=5"), " ")))
	}
}
