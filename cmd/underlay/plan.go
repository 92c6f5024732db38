package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/course"
	"underlay/cmd/underlay/session"
	"underlay/drills/board"
	"underlay/scheduler"
)

func newPlan(env *Env) *cobra.Command {
	var w wish
	var asJSON bool
	c := &cobra.Command{
		Use:   "plan",
		Short: "Say what today holds, and why",
		Long: `Prints what a session of today would hold: its blocks, the strokes that each is
about, and the reason for each. Nothing is practised.

With --json: {"board", "minutes", "blocks": [{"kind", "seconds", "strokes": [{"symbol",
"position", "layer", "state", "latency_ms", "error_share", "tries", "last_days", "why"}]}]}.
Latency and share of errors are what is expected, and null before the first try, as
the days since the last one are.`,
		Example: `  underlay plan --minutes 3
  underlay plan --json`,
		Args: takes(0, 0),
		RunE: func(*cobra.Command, []string) error {
			p, err := env.practise(w)
			if err != nil {
				return err
			}
			_ = p.course.Keep() // without a cache all is read again next time
			if asJSON {
				return env.json(outline(p.course, p.started, p.length()))
			}
			fmt.Fprintf(env.Stdout, "%s\n\n", board.Safe(p.course.Boards()[0].Name))
			writePlan(env.Stdout, p.course.Plan(p.started, p.length()), env.width())
			return nil
		},
	}
	c.Flags().StringVar(&w.board, "board", "", "plan for `BOARD`, a name or a file")
	c.Flags().Var(&w.minutes, "minutes", "plan for `N` minutes, 1 to 120")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	completeNames(c, "board", env.boardNames)
	return c
}

// planned is the plan as JSON.
type planned struct {
	Board   string         `json:"board"`
	Minutes float64        `json:"minutes"`
	Blocks  []plannedBlock `json:"blocks"`
}

type plannedBlock struct {
	Kind    scheduler.BlockKind `json:"kind"`
	Seconds float64             `json:"seconds"`
	Strokes []plannedStroke     `json:"strokes"`
}

type plannedStroke struct {
	Symbol     board.Symbol `json:"symbol"`
	Position   string       `json:"position"`
	Layer      string       `json:"layer"`
	State      string       `json:"state"`
	LatencyMS  *float64     `json:"latency_ms"` // expected; null, as the next, where there was no try
	ErrorShare *float64     `json:"error_share"`
	Tries      int          `json:"tries"`
	LastDays   *float64     `json:"last_days"` // null: never met
	Why        string       `json:"why"`
}

func outline(c *course.Course, now time.Time, length time.Duration) planned {
	out := planned{Board: c.Boards()[0].Name, Minutes: length.Minutes(), Blocks: []plannedBlock{}}
	for _, b := range c.Scheduler().Begin(now, length).Blocks {
		block := plannedBlock{Kind: b.Kind, Seconds: math.Round(b.Length.Seconds()), Strokes: []plannedStroke{}}
		for _, a := range b.About {
			block.Strokes = append(block.Strokes, strokeOf(c, a, now))
		}
		out.Blocks = append(out.Blocks, block)
	}
	return out
}

func strokeOf(c *course.Course, a scheduler.About, now time.Time) plannedStroke {
	st := c.Stroke(a.ID)
	out := plannedStroke{
		Symbol: st.Symbol, Position: st.Stroke.Final().Position.String(), Layer: st.Stroke.Layer,
		State: a.State.String(), Tries: a.Level.Tries, Why: c.Words(a),
	}
	if a.Level.Tries > 0 {
		out.LatencyMS, out.ErrorShare = new(rounded(a.Level.MS, 1)), new(rounded(a.Level.Err, 4))
	}
	if !a.Level.Last.IsZero() {
		out.LastDays = new(rounded(max(0, now.Sub(a.Level.Last).Hours()/24), 2))
	}
	return out
}

func rounded(x float64, digits int) float64 {
	scale := math.Pow(10, float64(digits))
	return math.Round(x*scale) / scale
}

// writePlan prints a plan as text: a block a line, its strokes and the reasons
// below each other.
func writePlan(w io.Writer, p session.Plan, width int) {
	fmt.Fprintf(w, "  %s today\n\n", minutes(p.Length))
	for _, b := range p.Blocks {
		head := fmt.Sprintf("  %-12s %5s", b.Kind, clock(b.Length))
		if len(b.About) == 0 {
			fmt.Fprintln(w, strings.TrimRight(head+"   "+board.Safe(b.Note), " "))
		}
		names := 0
		for _, r := range b.About {
			names = max(names, utf8.RuneCountInString(board.Safe(string(r.Symbol))))
		}
		for i, r := range b.About {
			if i > 0 {
				head = strings.Repeat(" ", 20)
			}
			head = fmt.Sprintf("%s   %-*s   ", head, names, board.Safe(string(r.Symbol)))
			fmt.Fprintln(w, wrapped(head, board.Safe(r.Words), width))
		}
	}
	if p.Last != "" {
		fmt.Fprintf(w, "\n  %s\n", board.Safe(p.Last))
	}
}

func minutes(d time.Duration) string {
	if d == time.Minute {
		return "1 minute"
	}
	return fmt.Sprintf("%g minutes", d.Minutes())
}

// clock writes a length of time as minutes and seconds.
func clock(d time.Duration) string {
	s := int(d.Round(time.Second).Seconds())
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// wrapped puts text after a head, in lines of at most width cells; the lines
// after the first begin below the text.
func wrapped(head, text string, width int) string {
	indent := utf8.RuneCountInString(head)
	line, out := head, ""
	for i, word := range strings.Fields(text) {
		if i > 0 && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > max(width, indent+20) {
			out += line + "\n"
			line = strings.Repeat(" ", indent) + word
			continue
		}
		if i > 0 {
			line += " "
		}
		line += word
	}
	return out + line
}
