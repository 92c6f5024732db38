package report

import (
	"fmt"
	"iter"
	"strings"

	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
)

// Text returns progress as lines of at most width cells: one screen of 24 lines
// at 80 cells and more. All text from outside is safe to show.
func Text(s standing.Standing, width int) []string {
	t := &text{s: s, width: max(40, min(width, 100))}
	t.head()
	if !t.learned().Known {
		t.empty()
		return t.lines
	}
	t.readiness()
	t.curve()
	t.holdsBack()
	t.foot()
	return t.lines
}

type text struct {
	s     standing.Standing
	width int
	lines []string
}

func (t *text) learned() standing.Side { return t.s.Boards[0] }
func (t *text) two() bool              { return len(t.s.Boards) == 2 }

// add adds a line, cut to the width.
func (t *text) add(format string, args ...any) {
	line := strings.TrimRight(fmt.Sprintf(format, args...), " ")
	t.lines = append(t.lines, fit(line, t.width))
}

// say adds a label and the text that belongs to it, broken between words.
func (t *text) say(label, words string) {
	const indent = 13
	for i, line := range wrap(words, t.width-indent) {
		if i > 0 {
			label = ""
		}
		t.add(" %s%s", pad(label, indent-1), line)
	}
}

// wrap breaks text between words into lines of at most width cells.
func wrap(words string, width int) []string {
	var out []string
	line := ""
	for word := range wordsOf(words) {
		switch {
		case line == "":
			line = word
		case len([]rune(line))+1+len([]rune(word)) <= width:
			line += " " + word
		default:
			out = append(out, line)
			line = word
		}
	}
	return append(out, line)
}

// wordsOf yields the words of a text; a sign of per cent stays with its number.
func wordsOf(text string) iter.Seq[string] {
	return func(yield func(string) bool) {
		last := ""
		for word := range strings.FieldsSeq(text) {
			switch {
			case last != "" && strings.HasPrefix(word, "%"):
				last += " " + word
				continue
			case last != "" && !yield(last):
				return
			}
			last = word
		}
		if last != "" {
			yield(last)
		}
	}
}

func (t *text) head() {
	b := t.learned()
	left := " progress"
	if t.s.Invented {
		left = " progress (invented)"
	}
	about := fmt.Sprintf("%s, %s, %s", board.Safe(b.Name), count(b.Sessions, "practised session", "practised sessions"), day(t.s.At))
	t.add("%s %s", left, right(fit(about, t.width-len(left)-2), t.width-len(left)-2))
	t.add("")
}

// empty says what is needed where nothing was practised.
func (t *text) empty() {
	t.say("", "Nothing has been practised on "+board.Safe(t.learned().Name)+" yet. One session shows first speeds; ten practised sessions an outlook.")
	if t.two() && !t.s.Boards[1].Known {
		t.say("", "Some lines on "+board.Safe(t.s.Boards[1].Name)+" now, before its speed changes, give the level to compare with.")
	}
	t.say("", "The command underlay starts a session.")
	t.notes()
}

func (t *text) readiness() {
	r := t.s.Readiness
	if r.Known {
		t.say("readiness", fmt.Sprintf("%s (%s) %s", percent(r.Share.Value), percents(r.Share), ready(r, t.two())))
	} else {
		t.say("readiness", "not known yet: "+r.Needs)
	}
	t.probes(r)
	for _, b := range t.s.Boards {
		if b.Known {
			t.say(board.Safe(b.Name), speed(b))
		}
	}
	if t.two() && r.Known {
		t.say("outlook", nextOutlook(r))
	}
	if t.s.Upkeep != nil {
		t.say("upkeep", kept(*t.s.Upkeep))
	}
	t.add("")
}

func (t *text) probes(r standing.Readiness) {
	if r.Probe == nil {
		return
	}
	words := fmt.Sprintf("%s (%s) by %s typed on both boards", percent(r.Probe.Share.Value), percents(r.Probe.Share), count(r.Probe.Lines, "probe line", "probe lines"))
	if r.Disagree {
		words += "; the two disagree"
	}
	t.say("", words)
}

// curve draws the board being learned from day to day.
func (t *text) curve() {
	days := timedDays(ofBoard(t.s.Days, true))
	if len(days) == 0 {
		t.untimed()
		return
	}
	const height, margin = 4, 13
	if len(days) == 1 {
		t.today(days[0])
		t.add("")
		return
	}
	c := newCurve(days, t.width-margin-1, height)
	b := t.learned()
	t.add(" %s%s", pad("by day", margin-1), fmt.Sprintf("expected ms a stroke; %s steady, %s of all use", count(b.States.Steady, "stroke", "strokes"), percent(b.States.SteadyUse)))
	for i, line := range c.lines() {
		label := ""
		switch i {
		case 0:
			label = whole(c.hi)
		case height - 1:
			label = whole(c.lo)
		}
		t.add(" %s %s", right(label, margin-2), line)
	}
	from, to := dayOf(days[0].Date), dayOf(days[len(days)-1].Date)
	left := from.Format("2 Jan")
	t.add(" %s%s%s", strings.Repeat(" ", margin-1), left, right(to.Format("2 Jan 2006"), t.width-margin-1-len(left)))
	if marks := c.marks(); marks != "" {
		t.add(" %s%s", pad("changed", margin-1), marks)
	}
	t.today(days[len(days)-1])
	t.add("")
}

// untimed tells the latest day where there is no curve: nothing that was typed has a time.
func (t *text) untimed() {
	if all := ofBoard(t.s.Days, true); len(all) > 0 {
		t.today(all[len(all)-1])
		t.add("")
	}
}

// today tells the latest day: how it went, and what had stayed overnight.
func (t *text) today(d standing.Day) {
	words := fmt.Sprintf("%s: %s min, %s typed, %s slips", dayOf(d.Date).Format("2 Jan"), whole(d.Minutes),
		whole(float64(d.Strokes)), percent(float64(d.Slips)/float64(max(d.Strokes, 1))))
	switch {
	case d.MedianMS > 0:
		words += fmt.Sprintf(", median %s ms", whole(d.MedianMS))
	case d.FirstMS == 0:
		words += ", no times"
	}
	if d.First > 0 && d.FirstMS > 0 {
		words += fmt.Sprintf(", first met %s", whole(d.FirstMS))
	}
	t.say("last day", words)
}

func (t *text) holdsBack() {
	h := t.s.HoldsBack
	if h.Needs != "" {
		t.say("holds back", "not known yet: "+h.Needs)
		return
	}
	t.say("holds back", excess(h))
	strokes, groups := h.Strokes, topGroups(h)
	most := 0.0
	for _, g := range groups {
		most = max(most, g.MS.Value)
	}
	wide := t.width >= 78
	for i := range min(4, max(len(strokes), len(groups))) {
		var left, other string
		if i < len(strokes) && strokes[i].MS.Value > 0 {
			left = t.cost(strokes[i], strokes[0].MS.Value, 11, 9, 6)
		}
		if wide && i < len(groups) {
			other = t.cost(groups[i], most, 15, 7, 7)
		}
		if left+other != "" {
			t.add("   %s  %s", pad(left, 36), other)
		}
	}
}

// topGroups is what layers and fingers cost, the most expensive ones.
func topGroups(h standing.HoldsBack) []standing.Cost {
	var out []standing.Cost
	for _, all := range [][]standing.Cost{h.Layers, h.Fingers} {
		for _, c := range all[:min(2, len(all))] {
			if c.MS.Value > 0 {
				out = append(out, c)
			}
		}
	}
	return out
}

// cost is a name, a bar and a number, in columns of some cells, and how sure it is.
func (t *text) cost(c standing.Cost, max float64, name, width, number int) string {
	called := strings.TrimSuffix(symbol(board.Symbol(c.Name)), " finger")
	return fmt.Sprintf("%s %s %s %s", pad(called, name), pad(bar(c.MS.Value, max, width), width), right(whole(c.MS.Value), number), string(c.Sure))
}

func (t *text) foot() {
	t.say("slips", slipShares(t.s.Slips))
	t.say("moving keys", moved(t.s.Moves))
	t.notes()
}

func (t *text) notes() {
	for _, n := range t.s.Notes {
		t.say("note", board.Safe(n))
	}
}

// Moves returns the advice on moving symbols, all of it, as lines.
func Moves(s standing.Standing, width int) []string {
	t := &text{s: s, width: max(40, min(width, 100))}
	t.head()
	m := s.Moves
	t.say("moving keys", moved(m))
	if m.Known {
		t.say("", fmt.Sprintf("The board as it is: %s ms per 1,000 characters once its layers are settled.", whole(m.CostMS)))
	}
	for i, mv := range m.Advice {
		t.add("")
		t.say(fmt.Sprintf("%d", i+1), moveWords(mv))
		t.say("", moveFigures(mv))
	}
	t.add("")
	t.say("", assumed(m))
	t.notes()
	return t.lines
}
