package report

import (
	"fmt"
	"iter"
	"strings"

	"github.com/rivo/uniseg"

	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
)

// Text returns progress as lines of at most width cells: first what is asked
// every week, then what it rests on. Two boards take 20 lines at 78 cells, which
// is what a window of 80 by 24 has below a title. All text from outside is safe to show.
func Text(s standing.Standing, width int) []string {
	t := newText(s, width)
	if !t.learned().Known {
		t.empty()
		return t.lines
	}
	t.readiness()
	t.holdsBack()
	t.say("moving keys", moved(t.s.Moves))
	t.say("slips", slipShares(t.s.Slips))
	t.add("")
	t.speeds()
	t.curve()
	t.notes()
	return t.lines
}

// Head is the line above a text: what it is, and of what.
func Head(s standing.Standing, width int) string {
	t := newText(s, width)
	const left = " progress"
	room := t.width - len(left) - 2
	return left + " " + right(About(s, room), room)
}

// About tells in at most room cells what a standing is of; where there is little
// room, without the day.
func About(s standing.Standing, room int) string {
	b := s.Boards[0]
	name := board.Safe(b.Name)
	sessions := count(b.Sessions, "practised session", "practised sessions")
	if s.Invented {
		sessions += " (invented)"
	}
	for _, about := range []string{name + ", " + sessions + ", " + day(s.At), name + ", " + sessions} {
		if uniseg.StringWidth(about) <= room {
			return about
		}
	}
	return fit(name, max(1, room-uniseg.StringWidth(sessions)-2)) + ", " + sessions
}

type text struct {
	s     standing.Standing
	width int
	lines []string
}

func newText(s standing.Standing, width int) *text {
	return &text{s: s, width: max(40, min(width, 100))}
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
	label := "layers"
	if t.two() {
		label = "readiness"
	}
	if r.Known {
		t.say(label, fmt.Sprintf("%s (%s) %s", percent(r.Share.Value), percents(r.Share), ready(r, t.two())))
	} else {
		t.say(label, "not known yet: "+r.Needs)
	}
	t.probes(r)
	if t.two() && r.Known {
		t.say("outlook", nextOutlook(r))
	}
	if t.s.Upkeep != nil {
		t.say("upkeep", kept(*t.s.Upkeep))
	}
}

// speeds tells how fast each board is.
func (t *text) speeds() {
	for _, b := range t.s.Boards {
		if b.Known {
			t.say(board.Safe(b.Name), speed(b))
		}
	}
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

// curve draws the board being learned from day to day, and tells the latest day.
func (t *text) curve() {
	all := ofBoard(t.s.Days, true)
	if days := timedDays(all); len(days) > 1 {
		t.drawn(days)
		t.today("last day", days[len(days)-1])
	} else if len(all) > 0 {
		latest := all[len(all)-1]
		t.today(dayOf(latest.Date).Format("2 Jan 2006"), latest)
	}
}

func (t *text) drawn(days []standing.Day) {
	const height, margin = 4, 13
	c := newCurve(days, t.width-margin-1, height)
	states := t.learned().States
	t.say("by day", fmt.Sprintf("%s, ms a stroke; %s steady, %s of use", dates(days), count(states.Steady, "stroke", "strokes"), percent(states.SteadyUse)))
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
	if marks := c.marks(); marks != "" {
		t.add(" %s%s", pad("changed", margin-1), marks)
	}
}

// today tells a day: how it went, and what had stayed overnight.
func (t *text) today(label string, d standing.Day) {
	words := fmt.Sprintf("%s min, %s, %s slips", whole(d.Minutes), count(d.Strokes, "stroke", "strokes"), percent(float64(d.Slips)/float64(max(d.Strokes, 1))))
	var times []string
	if d.MedianMS > 0 {
		times = append(times, "median "+whole(d.MedianMS))
	}
	if d.First > 0 && d.FirstMS > 0 {
		times = append(times, "first tries "+whole(d.FirstMS))
	}
	if len(times) == 0 {
		t.say(label, words+", no times")
		return
	}
	t.say(label, words+", "+strings.Join(times, ", ")+" ms")
}

func (t *text) holdsBack() {
	h := t.s.HoldsBack
	if h.Needs != "" {
		t.say("holds back", "not known yet: "+h.Needs)
	} else {
		t.say("holds back", excess(h))
		t.costs(h)
	}
}

// costs lists what costs most: strokes, and beside them layers and fingers where there is room.
func (t *text) costs(h standing.HoldsBack) {
	const told, wide = 4, 78
	strokes, groups := h.Strokes, topGroups(h)
	most := 0.0
	for _, g := range groups {
		most = max(most, g.MS.Value)
	}
	for i := range min(told, max(len(strokes), len(groups))) {
		var left, other string
		if i < len(strokes) && strokes[i].MS.Value > 0 {
			left = t.cost(strokes[i], strokes[0].MS.Value, 11, 8, 6)
		}
		if t.width >= wide && i < len(groups) {
			other = t.cost(groups[i], most, 15, 6, 7)
		}
		if left+other != "" {
			t.add("   %s  %s", pad(left, 35), other)
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

func (t *text) notes() {
	for _, n := range t.s.Notes {
		t.say("note", board.Safe(n))
	}
}

// Moves returns the advice on moving symbols, all of it, as lines.
func Moves(s standing.Standing, width int) []string {
	t := newText(s, width)
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
