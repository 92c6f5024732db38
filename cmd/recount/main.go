// Recount makes the embedded tables of languages again: it fetches packages by
// name with the ordinary clients (apt-get, npm; the Go distribution is there),
// counts them as "underlay corpus scan" does, and writes one table a language.
//
//	go run ./cmd/recount                  all tables, into assets/tables
//	go run ./cmd/recount -into DIR lua    one, elsewhere
//
// No source is kept, unless -keep DIR names a directory for it; what is there
// already is not fetched again. It wants about 1 GB, a Debian system with
// apt-get, tar and dpkg-deb, and npm. Versions are those that are to be had;
// each table names what was counted.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"slices"

	"underlay/corpus"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("recount", flag.ContinueOnError)
	flags.SetOutput(stderr)
	into := flags.String("into", "assets/tables", "directory for the tables")
	keep := flags.String("keep", "", "directory to keep the packages in")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := recount(ctx, *into, *keep, flags.Args(), stdout); err != nil {
		fmt.Fprintln(stderr, "recount:", err)
		return 1
	}
	return 0
}

func recount(ctx context.Context, into, keep string, names []string, out io.Writer) error {
	if keep == "" {
		dir, err := os.MkdirTemp("", "recount")
		if err != nil {
			return err
		}
		defer os.RemoveAll(dir)
		keep = dir
	}
	store, err := newStore(ctx, keep, out)
	if err != nil {
		return err
	}
	var failed error
	for _, r := range recipes() {
		if len(names) > 0 && !slices.Contains(names, r.language) {
			continue
		}
		table, err := r.count(ctx, store)
		if err == nil {
			err = write(filepath.Join(into, r.language+".tsv"), table)
		}
		if err != nil { // the others may be had
			failed = errors.Join(failed, fmt.Errorf("%s: %w", r.language, err))
			continue
		}
		fmt.Fprintf(out, "%-10s %6.0f files %6.2f MB\n", r.language, table.Files, table.Bytes/1e6)
	}
	return failed
}

func write(name string, table *corpus.Table) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	return errors.Join(table.Write(f), f.Close())
}

// count counts the packages of a recipe.
func (r recipe) count(ctx context.Context, s *store) (*corpus.Table, error) {
	scan := r.scan()
	var sources []corpus.Source
	users := map[string]int{} // names, by the packages in which many files use them
	for _, p := range r.packages {
		dir, version, err := s.fetch(ctx, p)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p.name, err)
		}
		alone := r.scan()
		if err := errors.Join(addDirs(ctx, scan, dir, p.dirs), addDirs(ctx, alone, dir, p.dirs)); err != nil {
			return nil, fmt.Errorf("%s: %w", p.name, err)
		}
		if alone.Files == 0 {
			continue
		}
		for name := range alone.Table(r.language).Counts(corpus.Name) {
			users[name]++
		}
		sources = append(sources, corpus.Source{Name: p.title(), Version: version, Licence: p.licence,
			Files: float64(alone.Files), Bytes: float64(alone.Bytes)})
	}
	table := scan.Table(r.language)
	table.Sources = sources
	if len(sources) > 1 { // what only one project calls so is not the language's
		table.Filter(corpus.Name, func(name string) bool { return users[name] > 1 })
	}
	return table, r.finish(table)
}

// finish keeps the names of a table that it should keep, and says what is thin.
func (r recipe) finish(table *corpus.Table) error {
	if r.general {
		keep, err := generalNames(r.besides)
		if err != nil {
			return err
		}
		table.Filter(corpus.Name, keep)
	}
	table.Trim(limits())
	const thin = 10e6
	if table.Bytes < thin {
		table.Notes = append(table.Notes, fmt.Sprintf("thin: %.1f MB of source; rare symbols are uncertain", table.Bytes/1e6))
	}
	return nil
}

func (r recipe) scan() *corpus.Scan {
	return corpus.NewScan(corpus.ScanOptions{Languages: []string{r.language}, Leave: r.leaves, Thorough: true})
}

// addDirs counts the directories of a package that patterns name.
func addDirs(ctx context.Context, scan *corpus.Scan, dir string, patterns []string) error {
	for _, pattern := range patterns {
		found, err := filepath.Glob(filepath.Join(dir, pattern))
		if err == nil && len(found) == 0 {
			err = fmt.Errorf("there is no %s in it", pattern)
		}
		if err != nil {
			return err
		}
		for _, one := range found {
			if err := scan.Add(ctx, os.DirFS(one), "."); err != nil {
				return err
			}
		}
	}
	return nil
}

// limits keeps the embedded tables small.
func limits() map[corpus.Section]int {
	return map[corpus.Section]int{corpus.Pair: 420, corpus.Triple: 320, corpus.Sits: 180, corpus.Next: 420, corpus.Line: 200, corpus.Letter: 460, corpus.Name: 60}
}
