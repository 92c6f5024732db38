package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/config"
	"underlay/corpus"
	"underlay/drills/board"
)

// keysTable is the table of strokes that no text shows; it is in every mix.
const keysTable = "keys"

func newCorpusMix(env *Env) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "mix [TABLE=WEIGHT]…",
		Short: "Say what your work is made of",
		Long: `Writes into the configuration what your work is made of: tables and their weights.
Weights are shares of strokes: with go=3 shell=1 three strokes of four are as in go.
A table without a weight has the weight 1. Shows what follows from the mix: the
commonest marks and keys, and where your boards have them. Without arguments it
shows the mix there is and changes nothing.

The strokes that no text shows (Escape, arrows, Backspace, …) come with every mix,
in their own share; "underlay corpus keys" counts yours.`,
		Example: `  underlay corpus mix go=3 shell=1 mine=5
  underlay corpus mix`,
		Args:              takes(0, -1),
		ValidArgsFunction: env.completeTables,
		RunE: func(_ *cobra.Command, args []string) error {
			result, err := env.mix(args)
			if err != nil {
				return err
			}
			if asJSON {
				return env.json(result)
			}
			env.writeMix(result, len(args) > 0)
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	return c
}

// mixed is a mix and what it implies.
type mixed struct {
	Mix     map[string]float64 `json:"mix"`
	Shares  map[string]float64 `json:"shares"` // of strokes that text shows, by table
	Unseen  float64            `json:"keys_share"`
	Symbols []mixedSymbol      `json:"symbols"`
	names   []string
	boards  []string
}

// mixedSymbol is a symbol of the mix; Layers has the layer that each board has
// it on, "" where a board lacks it.
type mixedSymbol struct {
	Symbol   string            `json:"symbol"`
	PerMille float64           `json:"per_mille"`
	Layers   map[string]string `json:"layers"`
}

// mix sets the mix of the configuration, if one is given, and works out what
// follows from it.
func (e *Env) mix(args []string) (mixed, error) {
	cfg, err := e.configuration()
	if err != nil {
		return mixed{}, err
	}
	mix := cfg.Mix
	if len(args) > 0 {
		if mix, err = parseMix(args); err != nil {
			return mixed{}, err
		}
	}
	table, err := e.wholeMix(mix)
	if err != nil {
		return mixed{}, err
	}
	result := mixed{Mix: mix, Shares: map[string]float64{}, names: slices.Sorted(maps.Keys(mix)), boards: cfg.Boards}
	sum := 0.0
	for _, w := range mix {
		sum += w
	}
	for name, w := range mix {
		result.Shares[name] = w / sum
	}
	if result.Symbols, err = e.implied(table, cfg.Boards); err != nil {
		return mixed{}, err
	}
	for _, p := range table.Parts {
		if p.Table.Name == keysTable {
			result.Unseen = p.Weight
		}
	}
	if len(args) > 0 {
		err = e.writeSetting("mix", mix)
	}
	return result, err
}

// parseMix reads TABLE=WEIGHT….
func parseMix(args []string) (map[string]float64, error) {
	mix := map[string]float64{}
	for _, arg := range args {
		name, text, given := strings.Cut(arg, "=")
		weight := 1.0
		if given {
			var err error
			if weight, err = strconv.ParseFloat(text, 64); err != nil || !(weight > 0) || math.IsInf(weight, 0) {
				return nil, misuse("corpus mix: the weight in %q is no number above 0", arg).hinted("write it as in go=3")
			}
		}
		if name == "" {
			return nil, misuse("corpus mix: there is no name in %q", arg).hinted("write it as in go=3")
		}
		if _, twice := mix[name]; twice {
			return nil, misuse("corpus mix: %q is named twice", name)
		}
		if name == keysTable {
			return nil, misuse("corpus mix: %q is in every mix, in its own share", name).hinted("%q counts your own keys", "underlay corpus keys FILE")
		}
		mix[name] = weight
	}
	return mix, nil
}

// wholeMix joins the tables of a mix and the strokes that no text shows.
func (e *Env) wholeMix(mix map[string]float64) (*corpus.Table, error) {
	var parts []corpus.Part
	sum := 0.0
	for _, name := range slices.Sorted(maps.Keys(mix)) {
		t, err := e.table(name)
		if err != nil {
			return nil, err
		}
		parts = append(parts, corpus.Part{Table: t, Weight: mix[name]})
		sum += mix[name]
	}
	keys, err := e.table(keysTable)
	if err != nil {
		return nil, err
	}
	if keys.Weight > 0 && keys.Weight < 1 {
		for i := range parts {
			parts[i].Weight *= (1 - keys.Weight) / sum
		}
		parts = append(parts, corpus.Part{Table: keys, Weight: keys.Weight})
	}
	return corpus.Mix(parts...), nil
}

// implied lists the commonest marks and keys of a mix with the layers that
// boards have them on.
func (e *Env) implied(t *corpus.Table, boards []string) ([]mixedSymbol, error) {
	const most = 30
	out := []mixedSymbol{}
	for _, c := range notText(t.Counts(corpus.Symbol)).Top(most) {
		out = append(out, mixedSymbol{Symbol: c.Key, PerMille: 1000 * t.Share(c.Key), Layers: map[string]string{}})
	}
	for _, name := range boards {
		b, err := e.board(name)
		if err != nil {
			return nil, err
		}
		for _, s := range out {
			stroke, ok := b.Drilled(board.Symbol(s.Symbol))
			s.Layers[name] = ""
			if ok {
				s.Layers[name] = layerAndLevel(stroke)
			}
		}
	}
	return out, nil
}

// layerAndLevel names the layer of a stroke, and Shift or AltGraph with it.
func layerAndLevel(s board.Stroke) string {
	return s.Layer + []string{"", ", Shift", ", AltGraph", ", Shift, AltGraph"}[s.Level&3]
}

// writeSetting changes one setting of the configuration.
func (e *Env) writeSetting(key string, value any) error {
	file, err := need(e.Dirs.ConfigFile())
	if err != nil {
		return err
	}
	src, err := readFile(file)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return tried("read the configuration", file, err)
	}
	if err := config.Write(file, config.Set(string(src), key, value)); err != nil {
		return tried("write the configuration", file, err)
	}
	return nil
}

func (e *Env) writeMix(m mixed, changed bool) {
	verb := "the mix is"
	if changed {
		verb = "the mix is now"
	}
	var parts []string
	for _, name := range m.names {
		parts = append(parts, fmt.Sprintf("%s %.0f %%", name, 100*m.Shares[name]))
	}
	fmt.Fprintf(e.Stdout, "%s %s\n", verb, safe(strings.Join(parts, ", ")))
	if m.Unseen > 0 {
		fmt.Fprintf(e.Stdout, "%.0f %% of all strokes are keys that no text shows\n", 100*m.Unseen)
	}
	rows := [][]string{append([]string{fmt.Sprintf("  %-16s %9s", "symbol", "per mille")}, m.boards...)}
	for _, s := range m.Symbols {
		row := []string{fmt.Sprintf("  %-16s %9.1f", s.Symbol, s.PerMille)}
		for _, b := range m.boards {
			row = append(row, cmp.Or(s.Layers[b], "not there"))
		}
		rows = append(rows, row)
	}
	fmt.Fprintln(e.Stdout)
	for _, row := range rows {
		var line strings.Builder
		for _, cell := range row {
			fmt.Fprintf(&line, "%-14s  ", safe(cell))
		}
		fmt.Fprintln(e.Stdout, strings.TrimRight(line.String(), " "))
	}
}
