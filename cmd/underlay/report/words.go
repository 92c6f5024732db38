package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"underlay/cmd/underlay/standing"
	"underlay/drills/board"
)

// whole writes a number without decimals, thousands parted by commas.
func whole(x float64) string {
	s := strconv.FormatFloat(math.Abs(math.Round(x)), 'f', 0, 64)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	if math.Round(x) < 0 {
		return "−" + s
	}
	return s
}

// percent writes a share as a number of per cent.
func percent(share float64) string { return whole(100*share) + " %" }

// percents writes the range of a share: "68 to 98 %".
func percents(r standing.Range) string {
	return whole(100*r.Lo) + " to " + whole(100*r.Hi) + " %"
}

// span writes a range: "286 to 370".
func span(r standing.Range) string { return whole(r.Lo) + " to " + whole(r.Hi) }

// count writes a number with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return whole(float64(n)) + " " + many
}

// dates names the first and the last of some days, with the years where they differ.
func dates(days []standing.Day) string {
	from, to := dayOf(days[0].Date), dayOf(days[len(days)-1].Date)
	format := "2 Jan"
	if from.Year() != to.Year() {
		format = "2 Jan 2006"
	}
	return from.Format(format) + " to " + to.Format(format)
}

func day(t time.Time) string { return t.Format("2 January 2006") }

// dayOf reads a day of the journal.
func dayOf(date string) time.Time {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return time.Time{}
	}
	return t
}

// symbol is a symbol as a person reads it.
func symbol(s board.Symbol) string {
	if s == board.Space {
		return "space"
	}
	return board.Safe(string(s))
}

func symbols(all []board.Symbol) string {
	out := make([]string, len(all))
	for i, s := range all {
		out[i] = symbol(s)
	}
	return strings.Join(out, "  ")
}

// ready words the readiness by the model: what it is a share of.
func ready(r standing.Readiness, two bool) string {
	if two {
		return "of your speed on " + board.Safe(r.Against) + ", on your own mix"
	}
	return "of your speed on the base layer"
}

// speed words how fast somebody is on a board.
func speed(b standing.Side) string {
	if b.Timed == 0 {
		return count(b.Tries, "stroke", "strokes") + ", none of them timed"
	}
	return fmt.Sprintf("%s ms a stroke with repair (%s), %s characters a minute", whole(b.LatencyMS.Value), span(b.LatencyMS), whole(b.CharsAMinute.Value))
}

// outlooks words the chance to get somewhere, a line each.
func outlooks(r standing.Readiness) []string {
	switch {
	case r.Since != "":
		line := "faster than on " + board.Safe(r.Against) + " since " + day(dayOf(r.Since))
		if r.Disagree {
			line += ", by the model" // probes have no such day
		}
		return []string{line}
	case r.OutlookNeeds > 0:
		return []string{count(r.OutlookNeeds, "more practised session is", "more practised sessions are") + " needed for an outlook"}
	}
	var out []string
	for _, o := range r.Outlook {
		out = append(out, outlook(o, board.Safe(r.Against)))
	}
	return out
}

// nextOutlook is the line on what is not reached yet, or the last one.
func nextOutlook(r standing.Readiness) string {
	lines := outlooks(r)
	for i, o := range r.Outlook {
		if !o.Reached && i < len(lines) {
			return lines[i]
		}
	}
	return strings.Join(lines[max(0, len(lines)-1):], "")
}

func outlook(o standing.Outlook, other string) string {
	goal := percent(o.Share) + " of the speed on " + other
	if o.Share == 1 {
		goal = "as fast as on " + other
	}
	if o.Reached {
		return goal + ": reached"
	}
	text := goal + ": chance " + percent(o.Chance)
	switch {
	case o.Chance < .05 || o.Lo < 0:
		return text + ", not on this course"
	case o.Hi < 0:
		return text + fmt.Sprintf(", in %d or many more sessions", o.Lo)
	}
	return text + fmt.Sprintf(", in %d to %d more sessions", o.Lo, o.Hi)
}

// kept words how the other board does.
func kept(u standing.Upkeep) string {
	if !u.Known {
		return u.Needs
	}
	word := "slower"
	lag := u.Lag.Value
	if lag < 0 {
		word, lag = "quicker", -lag
	}
	text := fmt.Sprintf("%s %s on %s than at first (%s to %s %%)", percent(lag), word, board.Safe(u.Board), signed(u.Lag.Lo), signed(u.Lag.Hi))
	switch {
	case u.Fades:
		return text + ": it fades"
	case math.Round(100*u.Lag.Hi) > 0:
		return text + ": within the noise"
	}
	return text
}

// signed writes a share in per cent with its sign.
func signed(share float64) string {
	if math.Round(100*share) > 0 {
		return "+" + whole(100*share)
	}
	return whole(100 * share)
}

// moved words the advice as a whole.
func moved(m standing.Moves) string {
	switch {
	case !m.Known:
		return "not known yet: " + m.Needs
	case m.LeaveIt:
		return fmt.Sprintf("leave it: of %s none saves more than 1 %%", count(m.Pairs, "swap or move", "swaps and moves"))
	}
	best := m.Advice[0]
	return fmt.Sprintf("%s of %s would save more than 1 %%; the best: %s", whole(float64(m.Found)), count(m.Pairs, "swap or move", "swaps and moves"), moveWords(best))
}

// moveWords names what a move does.
func moveWords(m standing.Move) string {
	to := m.To
	if m.Layer != m.ToLayer {
		to += " on " + board.Safe(m.ToLayer)
	}
	from := fmt.Sprintf("%s (%s on %s)", symbol(m.Symbol), m.From, board.Safe(m.Layer))
	if m.With == "" {
		return fmt.Sprintf("move %s to %s, which is free", from, to)
	}
	return fmt.Sprintf("swap %s with %s (%s)", from, symbol(m.With), to)
}

// moveFigures tells what a move saves, costs and when it pays.
func moveFigures(m standing.Move) string {
	return fmt.Sprintf("saves %s ms per 1,000 characters (%s), %.1f %% of all; relearning takes about %s; pays after about %s",
		whole(m.SavesMS.Value), span(m.SavesMS), 100*m.SavesShare, minutes(m.RelearnMinutes), days(m.PaysAfterDays))
}

func minutes(m float64) string { return count(max(1, int(math.Round(m))), "minute", "minutes") }

func days(d float64) string {
	return count(max(1, int(math.Ceil(d))), "day of work", "days of work")
}

// assumed says what the advice rests on.
func assumed(m standing.Moves) string {
	return "Each move is judged alone, once settled: by your own speeds on layers, the effort of the stroke, and what comes before and after it in your mix, which costs more from another layer or off the same finger. " +
		"Keys that no text shows, such as Escape and arrows, are taken to come among everything. " +
		"A day of work is taken as " + whole(float64(m.DailyUse)) + " characters."
}

// slipShares words the shares of kinds of slips.
func slipShares(s standing.Slips) string {
	if s.Total == 0 {
		return "none yet"
	}
	if s.Needs > 0 {
		return count(s.Total, "slip", "slips") + " so far; " + count(s.Needs, "more is", "more are") + " needed to tell kinds apart"
	}
	var out []string
	for _, k := range s.Kinds[:min(4, len(s.Kinds))] {
		out = append(out, k.Kind+" "+percent(k.Share.Value))
	}
	return strings.Join(out, ", ") + fmt.Sprintf(" of the last %d", s.Latest)
}

// excess words what a board costs in all.
func excess(h standing.HoldsBack) string {
	return fmt.Sprintf("%s ms per 1,000 characters above your quick strokes' %s ms",
		whole(h.TotalMS.Value), whole(h.QuickMS))
}
