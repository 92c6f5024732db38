package report

import (
	"bytes"
	"strings"
	"testing"

	"underlay/cmd/underlay/standing"
)

func TestMoveWords(t *testing.T) {
	move := standing.Move{Symbol: "(", Layer: "marks", From: "r4c4", With: "a", ToLayer: "digits", To: "r2c7",
		SavesMS: standing.Range{Value: 13749.6, Lo: 5076, Hi: 22423}, SavesShare: .017, RelearnMinutes: 8.2, PaysAfterDays: 11.1}
	if got, want := moveWords(move), "swap ( (r4c4 on marks) with a (r2c7 on digits)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	move.With, move.ToLayer = "", "marks"
	if got, want := moveWords(move), "move ( (r4c4 on marks) to r2c7, which is free"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	want := "saves 13,750 ms per 1,000 characters (5,076 to 22,423), 1.7 % of all; relearning takes about 8 minutes; pays after about 12 days of work"
	if got := moveFigures(move); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	m := standing.Moves{Known: true, Pairs: 4560, Found: 2, Advice: []standing.Move{move}}
	if got, want := moved(m), "2 of 4,560 swaps and moves would save more than 1 %; the best: move ( (r4c4 on marks) to r2c7, which is free"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := moved(standing.Moves{Needs: "more"}); got != "not known yet: more" {
		t.Errorf("%q", got)
	}
	s := standing.Standing{Boards: []standing.Side{{Name: "b", Known: true}}, Moves: m, Notes: []string{"a note"}}
	text := strings.Join(Moves(s, 80), "\n")
	for _, part := range []string{"which is free", "relearning takes", "a note", "3,000"} {
		if s.Moves.DailyUse = 3000; !strings.Contains(strings.Join(Moves(s, 80), "\n"), part) {
			t.Errorf("no %q in\n%s", part, text)
		}
	}
}

func TestUpkeepWords(t *testing.T) {
	u := standing.Upkeep{Board: "b", Known: true, Lag: standing.Range{Value: .16, Lo: .08, Hi: .25}, Fades: true}
	if got, want := kept(u), "16 % slower on b than at first (+8 to +25 %): it fades"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	u.Lag, u.Fades = standing.Range{Value: .03, Lo: -.02, Hi: .08}, false
	if got, want := kept(u), "3 % slower on b than at first (−2 to +8 %): within the noise"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	u.Lag = standing.Range{Value: -.07, Lo: -.16, Hi: .001}
	if got, want := kept(u), "7 % quicker on b than at first (−16 to 0 %)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	u.Lag = standing.Range{Value: -.03, Lo: -.09, Hi: .05}
	if got, want := kept(u), "3 % quicker on b than at first (−9 to +5 %): within the noise"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := kept(standing.Upkeep{Board: "b", Needs: "60 more"}); got != "60 more" {
		t.Errorf("%q", got)
	}
}

func TestSlipWords(t *testing.T) {
	for _, c := range []struct {
		s    standing.Slips
		want string
	}{
		{standing.Slips{}, "none yet"},
		{standing.Slips{Total: 1, Latest: 1, Needs: 29}, "1 slip so far; 29 more are needed to tell kinds apart"},
		{standing.Slips{Total: 400, Latest: 300, Kinds: []standing.SlipCount{{Kind: "layer", Share: standing.Range{Value: .6}}, {Kind: "row", Share: standing.Range{Value: .4}}}},
			"layer 60 %, row 40 % of the last 300"},
	} {
		if got := slipShares(c.s); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// A change of the board is on the page and in the text, with its day.
func TestChangeOfBoardIsShown(t *testing.T) {
	s := practised(t, "split-38")
	s.Days[4].Changed, s.Days[30].Changed = true, true
	page, text := pageOf(t, s), strings.Join(Text(s, 80), "\n")
	if n := strings.Count(page, ">board changed</span>"); n != 2 {
		t.Errorf("%d marks in the curve, want 2", n)
	}
	if !strings.Contains(text, "changed") || strings.Count(text, "^") != 2 {
		t.Errorf("no marks in\n%s", text)
	}
}

// Symbols that CSV has signs of its own for come through.
func TestCSVQuotes(t *testing.T) {
	rows := func(yield func(standing.Row) bool) {
		for _, s := range []string{",", `"`, "=", "Space"} {
			if !yield(standing.Row{Date: "2026-03-01", Board: "b", Symbol: s, Stroke: "r1c1", Tries: 3, MedianMS: 312.26, Minutes: .5}) {
				return
			}
		}
	}
	var out bytes.Buffer
	if err := CSV(&out, rows); err != nil {
		t.Fatal(err)
	}
	want := "date,board,symbol,stroke,tries,slips,timed_tries,median_ms,first_ms,minutes\n" +
		"2026-03-01,b,\",\",r1c1,3,0,0,312.3,,0.500\n2026-03-01,b,\"\"\"\",r1c1,3,0,0,312.3,,0.500\n" +
		"2026-03-01,b,=,r1c1,3,0,0,312.3,,0.500\n2026-03-01,b,Space,r1c1,3,0,0,312.3,,0.500\n"
	if out.String() != want {
		t.Errorf("%s\nwant\n%s", out.String(), want)
	}
}

// What a figure rests on is told with what is missing, one or more.
func TestHowSure(t *testing.T) {
	few := standing.Cost{Sure: standing.TooFew}
	for want, got := range map[string]string{
		"1 more slip is needed":     surely(few, 9, "slip"),
		"8 more strokes are needed": surely(few, 2, "stroke"),
		"likely":                    surely(standing.Cost{Sure: standing.IsLikely}, 40, "stroke"),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A board that changed over a break is told with both.
func TestDayNote(t *testing.T) {
	for want, d := range map[string]standing.Day{
		"":                                      {Gap: 1},
		"board changed":                         {Changed: true},
		"board changed, 9 days of break before": {Changed: true, Gap: 9},
	} {
		if got := dayNote(d); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
