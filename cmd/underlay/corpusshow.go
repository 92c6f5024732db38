package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/rivo/uniseg"
	"github.com/spf13/cobra"

	"underlay/corpus"
)

func newCorpusShow(env *Env) *cobra.Command {
	var asJSON bool
	var sections []string
	top := 20
	c := &cobra.Command{
		Use:   "show [TABLE]",
		Short: "Show a table, or the mix",
		Long: `Shows what a table counts, the commonest first: in a thousand of the section's
total, with a bar. Without TABLE it is the mix that the configuration names, with
the strokes that no text shows.

Comments and the bodies of strings and characters are not in a table, their quotes
are. In pairs and triples a stands for a small letter, A for a capital, 0 for a
digit; in lines x, X and XX stand for names, 0 for a number, s for the body of a
string.`,
		Example: `  underlay corpus show
  underlay corpus show go --section run --section line
  underlay corpus show mine --json`,
		Args:              takes(0, 1),
		ValidArgsFunction: env.completeTables,
		RunE: func(_ *cobra.Command, args []string) error {
			t, err := env.chosenTable(args)
			if err != nil {
				return err
			}
			if asJSON {
				return env.json(asShown(t))
			}
			return env.showTable(t, sections, top)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object with everything in the table")
	c.Flags().StringArrayVar(&sections, "section", nil, "show this `SECTION`: "+strings.Join(sectionNames(), ", "))
	c.Flags().IntVar(&top, "top", top, "show the `N` commonest of each section")
	completeNames(c, "section", sectionNames)
	return c
}

// chosenTable is the table that a command names, or the mix.
func (e *Env) chosenTable(args []string) (*corpus.Table, error) {
	if len(args) > 0 {
		return e.table(args[0])
	}
	cfg, err := e.configuration()
	if err != nil {
		return nil, err
	}
	return e.wholeMix(cfg.Mix)
}

func sectionNames() []string {
	var out []string
	for _, s := range corpus.Sections() {
		out = append(out, string(s))
	}
	return out
}

// shown is a table in JSON.
type shown struct {
	Name      string                        `json:"name"`
	Languages []string                      `json:"languages"`
	Files     float64                       `json:"files"`
	Bytes     float64                       `json:"bytes"`
	Lines     float64                       `json:"lines"`
	Weight    float64                       `json:"share_of_all_strokes,omitempty"`
	Sources   []shownSource                 `json:"sources"`
	Notes     []string                      `json:"notes"`
	Classes   map[string]float64            `json:"classes"`
	Sections  map[string]map[string]float64 `json:"sections"`
}

type shownSource struct {
	Name    string  `json:"name"`
	Version string  `json:"version"`
	Licence string  `json:"licence"`
	Files   float64 `json:"files"`
	Bytes   float64 `json:"bytes"`
}

func asShown(t *corpus.Table) shown {
	s := shown{Name: t.Name, Languages: languagesOf(t), Files: t.Files, Bytes: t.Bytes, Lines: t.Lines, Weight: t.Weight,
		Sources: []shownSource{}, Notes: append([]string{}, t.Notes...), Classes: map[string]float64{}, Sections: map[string]map[string]float64{}}
	for _, src := range t.Sources {
		s.Sources = append(s.Sources, shownSource(src))
	}
	for _, c := range t.Classes() {
		s.Classes[c.Key] = c.N
	}
	for _, section := range corpus.Sections() {
		if counts := t.Counts(section); len(counts) > 0 {
			s.Sections[string(section)] = counts
		}
	}
	return s
}

func (e *Env) showTable(t *corpus.Table, sections []string, top int) error {
	if top < 1 {
		return misuse("corpus show: --top %d: at least 1 is shown", top)
	}
	for _, s := range sections {
		if !slices.Contains(sectionNames(), s) {
			return misuse("corpus show: there is no section %q", s).hinted("sections are %s", strings.Join(sectionNames(), ", "))
		}
	}
	e.writeTableHead(t)
	if len(sections) > 0 {
		for _, s := range sections {
			e.writeBars(s+", in a thousand of the section", t.Counts(corpus.Section(s)).Top(top), t.Counts(corpus.Section(s)).Total())
		}
		return nil
	}
	e.writeBars("strokes, in a thousand", t.Classes(), t.Strokes())
	e.writeBars("marks and keys, in a thousand strokes", notText(t.Counts(corpus.Symbol)).Top(top), t.Strokes())
	e.writeBars("pairs of marks, in a thousand pairs", marksAlone(t.Counts(corpus.Pair)).Top(top), t.Counts(corpus.Pair).Total())
	e.writeBars("runs of two marks and more, in a thousand runs", longer(t.Counts(corpus.Run)).Top(top), t.Counts(corpus.Run).Total())
	return nil
}

func (e *Env) writeTableHead(t *corpus.Table) {
	fmt.Fprint(e.Stdout, safe(t.Name))
	if languages := languagesOf(t); len(languages) > 0 && !slices.Equal(languages, []string{t.Name}) {
		fmt.Fprintf(e.Stdout, "   %s", safe(strings.Join(languages, " ")))
	}
	if t.Files > 0 {
		fmt.Fprintf(e.Stdout, "   %s, %s", filesWord(t.Files), megabytes(t.Bytes))
	}
	fmt.Fprintln(e.Stdout)
	for _, n := range t.Notes {
		fmt.Fprintf(e.Stdout, "  %s\n", safe(n))
	}
	const most = 8
	for i, s := range t.Sources {
		if i == most {
			fmt.Fprintf(e.Stdout, "  and %d sources more\n", len(t.Sources)-most)
			break
		}
		fmt.Fprintf(e.Stdout, "  from %s %s, %s, %s\n", safe(s.Name), safe(s.Version), safe(s.Licence), megabytes(s.Bytes))
	}
}

// notText are the symbols that are neither letters nor digits.
func notText(c corpus.Counts) corpus.Counts {
	return kept(c, func(k string) bool {
		r, n := utf8.DecodeRuneInString(k)
		return n < len(k) || r < 0x80 && !alphanumeric(r)
	})
}

// marksAlone are the pairs of two marks.
func marksAlone(c corpus.Counts) corpus.Counts {
	return kept(c, func(k string) bool {
		return !strings.ContainsFunc(k, func(r rune) bool { return r <= ' ' || alphanumeric(r) })
	})
}

// longer are the runs of two marks and more: those of one say nothing of a run.
func longer(c corpus.Counts) corpus.Counts {
	return kept(c, func(k string) bool { return len(k) > 1 })
}

func alphanumeric(r rune) bool {
	return '0' <= r && r <= '9' || 'a' <= r|0x20 && r|0x20 <= 'z'
}

func kept(c corpus.Counts, wanted func(string) bool) corpus.Counts {
	out := corpus.Counts{}
	for k, n := range c {
		if wanted(k) {
			out[k] = n
		}
	}
	return out
}

// writeBars writes keys with their parts in a thousand of total, each with a
// bar; the longest is the first's.
func (e *Env) writeBars(title string, list []corpus.Count, total float64) {
	if len(list) == 0 || total == 0 {
		return
	}
	widest, most := 0, 0.0
	for _, c := range list {
		widest, most = max(widest, uniseg.StringWidth(visible(c.Key))), max(most, c.N)
	}
	widest = min(widest, 40)
	room := max(10, min(e.width(), 100)-widest-14)
	fmt.Fprintf(e.Stdout, "\n%s\n", title)
	for _, c := range list {
		key := visible(c.Key)
		bar := strings.Repeat("=", int(c.N/most*float64(room)+.5))
		fmt.Fprintln(e.Stdout, strings.TrimRight(fmt.Sprintf("  %s%s %7.1f  %s", key, strings.Repeat(" ", max(0, widest-uniseg.StringWidth(key))), 1000*c.N/total, bar), " "))
	}
}

// visible writes a key so that its spaces, tabs and line ends are seen.
func visible(key string) string {
	key = strings.NewReplacer("\t", " · ", "\n", "⏎").Replace(key)
	if strings.HasPrefix(key, " ") || strings.HasSuffix(key, " ") {
		key = strings.ReplaceAll(key, " ", "␣")
	}
	return safe(key)
}
