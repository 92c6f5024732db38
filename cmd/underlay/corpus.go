package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"underlay/corpus"
)

func newCorpus(env *Env) *cobra.Command {
	return group("corpus", "What you type: tables of counts, your own code, and their mix",
		`What is practised follows what you type. Tables of counts for common languages come
with the program; a scan of your own code and a recording of your keys make more,
and the mix says what your work is made of. Tables keep counts, never text.`,
		newCorpusList(env), newCorpusShow(env), newCorpusScan(env), newCorpusKeys(env), newCorpusMix(env))
}

// tableLine is a table as `corpus list` tells it.
type tableLine struct {
	Name      string   `json:"name"`
	Languages []string `json:"languages"`
	Files     float64  `json:"files"`
	Bytes     float64  `json:"bytes"`
	Strokes   float64  `json:"strokes"`
	Own       bool     `json:"own"`
	MixWeight float64  `json:"mix_weight,omitempty"`
	Notes     []string `json:"notes,omitempty"`
	Fault     string   `json:"fault,omitempty"`
	Hint      string   `json:"hint,omitempty"`
}

func newCorpusList(env *Env) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "list",
		Short: "List all tables",
		Long: `Lists the tables there are: your own first, then those that come with the program.
A star marks those that the mix has.`,
		Args: takes(0, 0),
		RunE: func(*cobra.Command, []string) error {
			list, err := env.listTables()
			if err != nil {
				return err
			}
			if asJSON {
				return env.json(list)
			}
			for _, l := range list {
				env.writeTableLine(l)
			}
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON array")
	return c
}

func (e *Env) listTables() ([]tableLine, error) {
	cfg, err := e.configuration()
	if err != nil {
		return nil, err
	}
	own := e.ownNames(e.Dirs.Tables(), ".tsv")
	out := []tableLine{}
	for _, name := range e.tableNames() {
		l := tableLine{Name: name, Own: slices.Contains(own, name), MixWeight: cfg.Mix[name], Languages: []string{}}
		if t, err := e.table(name); err != nil {
			l.Fault, l.Hint = inShort(err)
		} else {
			l.Languages, l.Files, l.Bytes, l.Strokes, l.Notes = languagesOf(t), t.Files, t.Bytes, t.Strokes(), t.Notes
		}
		out = append(out, l)
	}
	return out, nil
}

// languagesOf names the languages of a table, the commonest first.
func languagesOf(t *corpus.Table) []string {
	leaves := slices.Clone(t.Leaves())
	slices.SortStableFunc(leaves, func(a, b corpus.Part) int { return compareDown(a.Weight, b.Weight) })
	out := []string{}
	for _, p := range leaves {
		if p.Table.Language != "" && !slices.Contains(out, p.Table.Language) {
			out = append(out, p.Table.Language)
		}
	}
	return out
}

func compareDown(a, b float64) int {
	switch {
	case a > b:
		return -1
	case a < b:
		return 1
	}
	return 0
}

func (e *Env) writeTableLine(l tableLine) {
	mark := " "
	if l.MixWeight > 0 {
		mark = "*"
	}
	name := l.Name
	if l.Own {
		name += " (yours)"
	}
	var what string
	switch {
	case l.Fault != "":
		fmt.Fprintf(e.Stdout, "%s %s\n", mark, safe(name))
		e.writeFault(l.Fault, l.Hint)
		return
	case l.Files == 0:
		what = "strokes that no text shows"
	default:
		what = fmt.Sprintf("%12s  %8s", filesWord(l.Files), megabytes(l.Bytes))
		if slices.ContainsFunc(l.Notes, func(n string) bool { return strings.HasPrefix(n, "thin") }) {
			what += "  thin"
		}
		if l.Own {
			what += "  " + strings.Join(l.Languages, " ")
		}
	}
	fmt.Fprintf(e.Stdout, "%s %-20s %s\n", mark, safe(name), safe(what))
}

// grouped writes a whole number with its thousands parted by commas.
func grouped(n float64) string {
	digits := fmt.Sprintf("%.0f", n)
	for at := len(digits) - 3; at > 0; at -= 3 {
		digits = digits[:at] + "," + digits[at:]
	}
	return digits
}

func filesWord(n float64) string {
	if n == 1 {
		return "1 file"
	}
	return grouped(n) + " files"
}

func megabytes(n float64) string {
	if n < 1e5 {
		return fmt.Sprintf("%.1f kB", n/1e3)
	}
	return fmt.Sprintf("%.1f MB", n/1e6)
}

// completeTables completes names of tables.
func (e *Env) completeTables(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return e.tableNames(), cobra.ShellCompDirectiveNoFileComp
}
