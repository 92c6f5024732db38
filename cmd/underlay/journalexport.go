package main

import (
	"bufio"
	"encoding/csv"
	"time"

	"github.com/spf13/cobra"

	"underlay/drills/board"
	"underlay/scheduler/journal"
)

func newJournalExport(env *Env) *cobra.Command {
	var w exportWish
	c := &cobra.Command{
		Use:   "export",
		Short: "Write all strokes as CSV or JSON",
		Long: `Writes every stroke of the journal to standard output, in the order in which they
were practised: as CSV (RFC 4180, with a head), or as one JSON array with an object
a stroke. Columns and members are the same:

  time          when the stroke was made, as in RFC 3339, with the zone of the
                place; for lines of your own files, when the line began
  session       name of the session; the same for all strokes of a sitting
  struck        true: the session does not count
  board         name of the board
  board_hash    hash of its content at that time
  drill         kind of drill: position, pair, token, line, …
  block         part of the session; may be empty
  language      of the code; may be empty
  treatment     of wrong keys: wait or as-at-work
  place         of the stroke in its drill, from 0; empty (null) for lines of your
                own files, whose order is not kept
  symbol        what was asked for
  stroke        how it is typed, as "board strokes" writes it
  position      the key that was to be pressed last, such as r2c3
  layer         that it is on; empty if the journal does not have the board's file
  got           the wrong symbol that came; empty: the right one
  slip          kind of the slip; may be empty
  latency_ms    until the first key came
  lost_ms       from then to the next stroke, for repair and pauses
  first         true: the first stroke of a line
  after_slip    true: the stroke before was wrong
  helped        true: the underlay showed it
  paused        true: you looked away; the latency says nothing
  switch        true: the stroke before was on another layer
  same_finger   true: the finger before was the same, on another key
  repair        true: it repaired what was wrong before it
  board_switch  true: the first since another board was typed on

Sessions that were struck are left out without --struck. Lines that cannot be read
are passed over and told on standard error; the exit status is 0 all the same, but 2
where a file is of a newer version.`,
		Example: `  underlay journal export > strokes.csv
  underlay journal export --json | jq '[.[].latency_ms] | add / length'`,
		Args: takes(0, 0),
		RunE: func(*cobra.Command, []string) error { return env.export(w) },
	}
	c.Flags().BoolVar(&w.csv, "csv", false, "write CSV; this is the default")
	c.Flags().BoolVar(&w.json, "json", false, "write one JSON array")
	c.Flags().BoolVar(&w.struck, "struck", false, "with the sessions that were struck")
	return c
}

// exportWish is what the command line asks of an export.
type exportWish struct{ csv, json, struck bool }

func (e *Env) export(w exportWish) error {
	if w.csv && w.json {
		return misuse("journal export: --csv and --json exclude each other")
	}
	h, err := e.history()
	if err != nil {
		return err
	}
	out := bufio.NewWriter(e.plainOutput())
	var sink strokeSink = &csvSink{out: csv.NewWriter(out)}
	if w.json {
		sink = &jsonSink{out: out}
	}
	read := e.reading()
	if e.Terminal(e.Stdout) {
		read = nil // the strokes themselves can be seen
	}
	if err := exportStrokes(h, w.struck, sink, read); err != nil {
		return err
	}
	if err := out.Flush(); err != nil {
		return err
	}
	return e.tellUnread(h)
}

// exported is a stroke as it leaves the journal.
type exported struct {
	Time        string  `json:"time"`
	Session     string  `json:"session"`
	Struck      bool    `json:"struck"`
	Board       string  `json:"board"`
	BoardHash   string  `json:"board_hash"`
	Drill       string  `json:"drill"`
	Block       string  `json:"block"`
	Language    string  `json:"language"`
	Treatment   string  `json:"treatment"`
	Place       *int    `json:"place"`
	Symbol      string  `json:"symbol"`
	Stroke      string  `json:"stroke"`
	Position    string  `json:"position"`
	Layer       string  `json:"layer"`
	Got         string  `json:"got"`
	Slip        string  `json:"slip"`
	LatencyMS   float64 `json:"latency_ms"`
	LostMS      float64 `json:"lost_ms"`
	First       bool    `json:"first"`
	AfterSlip   bool    `json:"after_slip"`
	Helped      bool    `json:"helped"`
	Paused      bool    `json:"paused"`
	Switch      bool    `json:"switch"`
	SameFinger  bool    `json:"same_finger"`
	Repair      bool    `json:"repair"`
	BoardSwitch bool    `json:"board_switch"`
}

// exportStrokes hands over all strokes; read, which may be nil, is told how many drills
// were read, and 0 at the end.
func exportStrokes(h *journal.History, struck bool, to strokeSink, read func(drills int)) error {
	boards, err := h.Boards()
	if err != nil {
		return err
	}
	where := finder{boards: boards, read: map[string]*board.Board{}, met: map[[3]string]whereabouts{}}
	for d, gone := range counting(h.All(), read) {
		if gone && !struck {
			continue
		}
		at := d.At
		for i, k := range d.Keys {
			at = at.Add(ms(k.MS))
			if err := to.write(strokeRow(d, i, at, gone, where.find(d.Hash, k))); err != nil {
				return err
			}
			at = at.Add(ms(k.Lost))
		}
	}
	return to.end()
}

func ms(x float64) time.Duration { return time.Duration(x * float64(time.Millisecond)) }

func strokeRow(d journal.Drill, i int, at time.Time, struck bool, w whereabouts) exported {
	k := d.Keys[i]
	row := exported{
		Session: d.Session, Struck: struck, Board: d.Board, BoardHash: d.Hash,
		Drill: d.Kind, Block: d.Block, Language: d.Language, Treatment: d.Treatment,
		Symbol: k.Symbol, Stroke: k.Stroke, Position: w.position, Layer: w.layer,
		Got: k.Got, Slip: k.Slip, LatencyMS: k.MS, LostMS: k.Lost,
		First: k.Flags.Has(journal.First), AfterSlip: k.Flags.Has(journal.AfterSlip),
		Helped: k.Flags.Has(journal.Helped), Paused: k.Flags.Has(journal.Paused),
		Switch: k.Flags.Has(journal.Switch), SameFinger: k.Flags.Has(journal.SameFinger),
		Repair: k.Flags.Has(journal.Repair), BoardSwitch: k.Flags.Has(journal.BoardSwitch),
	}
	if d.Unordered {
		at = d.At
	} else {
		row.Place = &i
	}
	row.Time = at.Format("2006-01-02T15:04:05.000Z07:00")
	return row
}

// whereabouts are where a stroke ends.
type whereabouts struct{ position, layer string }

// finder finds strokes on the boards that the journal holds.
type finder struct {
	boards map[string]journal.Board
	read   map[string]*board.Board // nil for one that cannot be read
	met    map[[3]string]whereabouts
}

func (f *finder) find(hash string, k journal.Key) whereabouts {
	name := [3]string{hash, k.Symbol, k.Stroke}
	w, ok := f.met[name]
	if !ok {
		w = f.look(hash, k)
		f.met[name] = w
	}
	return w
}

func (f *finder) look(hash string, k journal.Key) (w whereabouts) {
	st, err := board.ParseStroke(k.Stroke)
	if err != nil {
		return w
	}
	w.position = st.Final().Position.String()
	b, ok := f.read[hash]
	if !ok {
		if kept, there := f.boards[hash]; there {
			b, _ = board.Read(kept.Name, []byte(kept.Source)) // what is wrong with it was told when it was used
		}
		f.read[hash] = b
	}
	if b == nil {
		return w
	}
	for _, known := range b.Strokes(board.Symbol(k.Symbol)) {
		if known.String() == k.Stroke {
			w.layer = known.Layer
			break
		}
	}
	return w
}
