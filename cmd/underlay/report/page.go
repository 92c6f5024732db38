package report

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strings"

	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
)

//go:embed page.html
var pageHTML string

//go:embed page.css
var pageCSS string

// page is what the template shows.
type page struct {
	Title, Subtitle string
	Style           template.CSS
	Empty           []string // what is needed, where nothing was practised
	Learned, Other  string

	Ready     []sentence
	Scale     template.HTML
	Speeds    table
	Curves    curves
	Total     string
	Marks     []markWord
	Pictures  []picture
	Costs     []table
	SlipWords string
	Slips     table
	MoveWords string
	Moves     table
	Assumed   string
	Upkeep    string
	Strokes   table
	Days      table
	Notes     []string
}

type sentence struct {
	Text string
	Big  bool
}

type markWord struct {
	Mark template.HTML
	Word string
}

// Page writes progress as one HTML file that needs no other: no script, no
// link, no address. b is the board being learned.
func Page(w io.Writer, s standing.Standing, b *board.Board) error {
	t, err := template.New("page").Parse(pageHTML)
	if err != nil {
		return fmt.Errorf("report: the page's template: %w", err)
	}
	return t.Execute(w, newPage(s, b))
}

func newPage(s standing.Standing, b *board.Board) page {
	name := board.Safe(s.Boards[0].Name)
	p := page{Title: "Progress on " + name, Style: template.CSS(pageCSS), Learned: name, Notes: s.Notes,
		Subtitle: fmt.Sprintf("%s. %s on %s, %s of practice.", day(s.At), count(s.Boards[0].Sessions, "practised session", "practised sessions"),
			name, minutes(s.Boards[0].Minutes))}
	if s.Invented {
		p.Subtitle += " The history is invented: a simulated typist made it."
	}
	if len(s.Boards) == 2 {
		p.Other = board.Safe(s.Boards[1].Name)
	}
	if !s.Boards[0].Known {
		p.Subtitle = day(s.At)
		p.Empty = needed(s)
		return p
	}
	p.ready(s)
	p.Speeds = speeds(s)
	p.Curves = newCurves(s)
	p.Total = totalCost(s.HoldsBack)
	if s.HoldsBack.Needs == "" {
		p.Pictures = pictures(s, b)
	}
	for _, state := range []string{"unmet", "building", "steady", "fading"} {
		p.Marks = append(p.Marks, markWord{legendMark(state), state})
	}
	p.Costs = costTables(s)
	p.SlipWords, p.Slips = sentenceCase(slipShares(s.Slips))+".", slipTable(s.Slips, s.HoldsBack.Kinds)
	p.MoveWords, p.Moves, p.Assumed = sentenceCase(moved(s.Moves))+".", moveTable(s.Moves), assumed(s.Moves)
	if s.Upkeep != nil {
		p.Upkeep = sentenceCase(kept(*s.Upkeep)) + "."
	}
	p.Strokes, p.Days = strokeTable(s.Boards[0]), dayTable(s.Days)
	return p
}

// totalCost says what all strokes cost, and what they are held against.
func totalCost(h standing.HoldsBack) string {
	if h.Needs != "" {
		return "Not known yet: " + h.Needs + "."
	}
	return fmt.Sprintf("In all %s ms per 1,000 characters (%s). That is the time your strokes take, slips and their repair included, "+
		"beyond what your quick ones do: a quarter of all you type, on %s, takes %s ms a stroke or less.",
		whole(h.TotalMS.Value), span(h.TotalMS), board.Safe(h.Against), whole(h.QuickMS))
}

// needed says what there is to do first.
func needed(s standing.Standing) []string {
	out := []string{"Nothing has been practised on " + board.Safe(s.Boards[0].Name) + " yet. One session shows first speeds; ten practised sessions an outlook."}
	if len(s.Boards) == 2 && !s.Boards[1].Known {
		out = append(out, "Some lines on "+board.Safe(s.Boards[1].Name)+" now, before its speed changes, give the level to compare with.")
	}
	return append(out, "The command underlay starts a session.")
}

// ready says the readiness, by model and by probes.
func (p *page) ready(s standing.Standing) {
	r := s.Readiness
	two := len(s.Boards) == 2
	if !r.Known {
		p.Ready = append(p.Ready, sentence{"Not known yet: " + r.Needs + ".", true})
		return
	}
	p.Ready = append(p.Ready, sentence{fmt.Sprintf("%s (%s) %s.", percent(r.Share.Value), percents(r.Share), ready(r, two)), true})
	if r.Probe != nil {
		p.Ready = append(p.Ready, sentence{fmt.Sprintf("%s (%s) by %s typed unaided on both boards.",
			percent(r.Probe.Share.Value), percents(r.Probe.Share), count(r.Probe.Lines, "probe line", "probe lines")), false})
	}
	if r.Disagree {
		p.Ready = append(p.Ready, sentence{"The two disagree. The probes tell of whole lines, the model of your mix; neither is to be trusted alone.", false})
	}
	if two {
		for _, line := range outlooks(r) {
			p.Ready = append(p.Ready, sentence{sentenceCase(line) + ".", false})
		}
	}
	p.Scale = scale(r)
}

// sentenceCase begins with a capital.
func sentenceCase(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
