package report

import (
	"fmt"
	"strings"

	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
)

// table is a table of the page; the first cell of a row names it.
type table struct {
	Caption string
	Head    []string
	Numbers []bool // by column: set to the right
	Rows    [][]string
}

func speeds(s standing.Standing) table {
	t := table{Caption: "Speed on your own mix, repair included", Head: []string{"board", "ms a stroke", "range", "characters a minute", "range", "practised sessions", "minutes", "strokes", "steady, share of use"},
		Numbers: []bool{false, true, true, true, true, true, true, true, true}}
	for _, b := range s.Boards {
		if !b.Known {
			t.Rows = append(t.Rows, []string{board.Safe(b.Name), "nothing typed yet", "", "", "", "0", "0", "0", ""})
			continue
		}
		if b.Timed == 0 {
			t.Rows = append(t.Rows, []string{board.Safe(b.Name), "no times yet", "", "", "", whole(float64(b.Sessions)), whole(b.Minutes), whole(float64(b.Tries)), ""})
			continue
		}
		t.Rows = append(t.Rows, []string{board.Safe(b.Name), whole(b.LatencyMS.Value), span(b.LatencyMS), whole(b.CharsAMinute.Value), span(b.CharsAMinute),
			whole(float64(b.Sessions)), whole(b.Minutes), whole(float64(b.Tries)), percent(b.States.SteadyUse)})
	}
	return t
}

// costTables tell what strokes, layers and fingers cost.
func costTables(s standing.Standing) []table {
	h := s.HoldsBack
	var out []table
	add := func(caption, what string, costs []standing.Cost, other string) {
		if len(costs) > 0 {
			out = append(out, costTable(caption, what, costs, other))
		}
	}
	other := ""
	if len(s.Boards) == 2 {
		other = board.Safe(s.Boards[1].Name)
	}
	add("The strokes that cost most", "stroke", h.Strokes[:min(15, len(h.Strokes))], other)
	add("By layer", "layer", h.Layers, "")
	add("By finger", "finger", h.Fingers, "")
	return out
}

// costTable is a table of costs; other names the board that the same strokes are shown of
// as well, if any.
func costTable(caption, what string, costs []standing.Cost, other string) table {
	t := table{Caption: caption, Head: []string{what, "ms per 1,000 characters", "range", "by latency", "by slips", "per mille of use", "ms a stroke"},
		Numbers: []bool{false, true, true, true, true, true, true}}
	if other != "" {
		t.Head, t.Numbers = append(t.Head, "on "+other), append(t.Numbers, true)
	}
	t.Head, t.Numbers = append(t.Head, "tries", "how sure"), append(t.Numbers, true, false)
	for _, c := range costs {
		row := []string{symbol(board.Symbol(c.Name)), whole(c.MS.Value), span(c.MS), whole(c.SlowMS), whole(c.SlipsMS), fmt.Sprintf("%.1f", c.PerMille), whole(c.ExpectedMS)}
		if other != "" {
			row = append(row, taken(c.OtherMS))
		}
		t.Rows = append(t.Rows, append(row, whole(float64(c.Tries)), surely(c, c.Timed, "stroke")))
	}
	return t
}

// surely words how sure a cost is that rests on so many tries or slips.
func surely(c standing.Cost, rests int, one string) string {
	if c.Sure == standing.TooFew {
		return count(max(1, 10-rests), "more "+one+" is", "more "+one+"s are") + " needed"
	}
	return string(c.Sure)
}

func slipTable(s standing.Slips, costs []standing.Cost) table {
	t := table{Caption: fmt.Sprintf("Kinds of the last %s", count(s.Latest, "slip", "slips")),
		Head:    []string{"kind", "slips", "share", "range", "costs, ms per 1,000 characters", "range", "how sure", "most with"},
		Numbers: []bool{false, true, true, true, true, true, false, false}}
	for _, k := range s.Kinds {
		row := []string{k.Kind, whole(float64(k.Count)), "", "", "", "", count(s.Needs, "more slip is", "more slips are") + " needed", symbols(k.Most)}
		for _, c := range costs {
			if c.Name == k.Kind {
				copy(row[2:], []string{percent(k.Share.Value), percents(k.Share), whole(c.MS.Value), span(c.MS), surely(c, c.Tries, "slip")})
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func moveTable(m standing.Moves) table {
	t := table{Caption: "Moves worth their cost, each judged alone", Head: []string{"move", "saves ms per 1,000 characters", "range", "of all", "relearning", "pays after"}, Numbers: []bool{false, true, true, true, true, true}}
	for _, a := range m.Advice {
		t.Rows = append(t.Rows, []string{sentenceCase(moveWords(a)), whole(a.SavesMS.Value), span(a.SavesMS), fmt.Sprintf("%.1f %%", 100*a.SavesShare), minutes(a.RelearnMinutes), days(a.PaysAfterDays)})
	}
	return t
}

func strokeTable(b standing.Side) table {
	t := table{Caption: "Strokes of " + board.Safe(b.Name), Head: []string{"symbol", "stroke", "layer", "state", "per mille of use", "median ms", "range", "slips", "tries", "cost, ms per 1,000"},
		Numbers: []bool{false, false, false, false, true, true, true, true, true, true}}
	for _, st := range b.Strokes {
		ms, reach, slips := "", "", ""
		if st.NeedTries > 0 {
			ms = fmt.Sprintf("%d more", st.NeedTries) // as on its key
		} else {
			ms, reach = whole(st.LatencyMS.Value), span(st.LatencyMS)
		}
		if st.Tries >= 15 {
			slips = percent(st.ErrShare)
		}
		t.Rows = append(t.Rows, []string{symbol(st.Symbol), st.Stroke, board.Safe(st.Layer), st.State, fmt.Sprintf("%.2f", st.PerMille), ms, reach, slips, whole(float64(st.Tries)), whole(st.CostMS.Value)})
	}
	return t
}

// dayTable has the latest days; all of them are in the CSV.
func dayTable(all []standing.Day) table {
	const most = 60
	t := table{Caption: "Days of practice", Head: []string{"day", "board", "minutes", "strokes", "slips", "expected ms a stroke", "range", "median ms", "first meetings, ms", "steady", ""},
		Numbers: []bool{false, false, true, true, true, true, true, true, true, true, false}}
	if len(all) > most {
		all = all[len(all)-most:]
		t.Caption = fmt.Sprintf("The last %d rows of the days of practice", most)
	}
	for _, d := range all {
		t.Rows = append(t.Rows, []string{d.Date, board.Safe(d.Board), fmt.Sprintf("%.1f", d.Minutes), whole(float64(d.Strokes)), percent(float64(d.Slips) / float64(max(d.Strokes, 1))),
			taken(d.LatencyMS.Value), reach(d.LatencyMS), taken(d.MedianMS), taken(d.FirstMS), percent(d.SteadyShare), dayNote(d)})
	}
	return t
}

// dayNote tells what the figures of a day are to be read with.
func dayNote(d standing.Day) string {
	var notes []string
	if d.Changed {
		notes = append(notes, "board changed")
	}
	if d.Gap > 1 {
		notes = append(notes, count(d.Gap, "day", "days")+" of break before")
	}
	return strings.Join(notes, ", ")
}

// reach writes the range of a time; nothing where none was taken.
func reach(r standing.Range) string {
	if r.Value == 0 {
		return ""
	}
	return span(r)
}

// taken writes a time; nothing where none was taken.
func taken(ms float64) string {
	if ms == 0 {
		return ""
	}
	return whole(ms)
}
