package standing

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"underlay/scheduler"
)

// The published crossing of keyboard commands and menus comes after about 200
// responses, ten screens of 20 (Remington, Yuen & Pashler 2016, Journal of
// Experimental Psychology: Applied 22, 95-106): with means from screen 11 on. With
// medians of the same data it would be screen 5, after 80 to 100.
func TestCrossingAsPublished(t *testing.T) {
	keysMean, menusMean := screens(t, "keys_mean"), screens(t, "menus_mean")
	if i, ok := Crossing(keysMean, menusMean); !ok || i+1 != 11 || 20*i != 200 {
		t.Errorf("with means from screen %d on (%v), want 11: after 200 responses", i+1, ok)
	}
	keysMedian, menusMedian := screens(t, "keys_median"), screens(t, "menus_median")
	if i, ok := Crossing(keysMedian, menusMedian); !ok || i+1 != 5 {
		t.Errorf("with medians from screen %d on (%v), want 5", i+1, ok)
	}
	if _, ok := Crossing(menusMean, keysMean); ok {
		t.Error("menus overtake keys at the end")
	}
}

// screens reads a column of the published figures.
func screens(t *testing.T, column string) []float64 {
	t.Helper()
	f, err := os.Open("../../../testdata/published/remington-2016-screens.tsv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma, r.Comment = '\t', '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	c := slices.Index(rows[0], column)
	var out []float64
	for _, row := range rows[1:] {
		v, err := strconv.ParseFloat(row[c], 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, v)
	}
	return out
}

// Published intervals of a share: 18 of 20, 4 of 20 and 0 of 30 as R's binom
// gives them, 81 of 263 as in Newcombe (1998), Statistics in Medicine 17, 857-872.
func TestWilson(t *testing.T) {
	const z95 = 1.959963984540054
	for _, c := range []struct {
		x, n   int
		lo, hi float64
		within float64
	}{
		{18, 20, .6989663547715, .9721335187862, 1e-12},
		{4, 20, .0806576625798, .4160174322519, 1e-12},
		{0, 30, 0, .11351339, 1e-8},
		{81, 263, .2553, .3662, 5e-5},
	} {
		r := wilson(c.x, c.n, z95)
		if math.Abs(r.Lo-c.lo) > c.within || math.Abs(r.Hi-c.hi) > c.within {
			t.Errorf("%d of %d: %v to %v, want %v to %v", c.x, c.n, r.Lo, r.Hi, c.lo, c.hi)
		}
	}
}

// The quantile of Student's t that leaves a tenth on a side: 1.638 with 3 and
// 1.372 with 10 degrees of freedom (any printed table; from memory).
func TestStudentT(t *testing.T) {
	for freedom, want := range map[float64]float64{3: 1.638, 10: 1.372} {
		if got := studentT80(freedom); math.Abs(got-want) > 5e-4 {
			t.Errorf("with %v degrees of freedom %v, want %v", freedom, got, want)
		}
	}
}

// Model and probes disagree where they differ by more than a tenth and by more
// than their noise.
func TestApart(t *testing.T) {
	for _, c := range []struct {
		a, b Range
		want bool
	}{
		{Range{.8, .78, .82}, Range{1, .97, 1.03}, true},
		{Range{.8, .78, .82}, Range{.86, .85, .87}, false},
		{Range{.8, .6, 1.07}, Range{1, .8, 1.25}, false},
		{Range{1, .97, 1.03}, Range{.8, .78, .82}, true},
	} {
		if got := apart(c.a, c.b); got != c.want {
			t.Errorf("%v and %v: apart is %v", c.a, c.b, got)
		}
	}
}

// The board being learned is the faster one from the day on which it stays so;
// a day without the other board takes that one's last figure.
func TestSince(t *testing.T) {
	day := func(date string, learned bool, ms float64) Day {
		return Day{Date: date, Learned: learned, LatencyMS: Range{Value: ms}}
	}
	days := []Day{
		day("2026-09-01", true, 500), day("2026-09-01", false, 300),
		day("2026-09-02", true, 290), day("2026-09-03", true, 310),
		day("2026-09-04", true, 295), day("2026-09-05", true, 280), day("2026-09-05", false, 310),
	}
	if got := since(days); got != "2026-09-04" {
		t.Errorf("faster since %q, want 2026-09-04", got)
	}
	if got := since(days[:4]); got != "" {
		t.Errorf("slower at last, but faster since %q", got)
	}
}

// On a course that is known to the end, the outlook's range holds when the goal
// is reached, counted from now, and not on one that ends above it.
func TestOutlookOnAKnownCourse(t *testing.T) {
	course := func(asymptote float64, n int) (out []scheduler.Point) {
		for x := range n {
			out = append(out, scheduler.Point{MS: asymptote + 400*math.Exp(-float64(x)/12), SD: .02})
		}
		return out
	}
	// 220 + 400 exp(-x/12) = 260 at x = 12 ln 10 = 27.6: 13 sessions after the 16th (x = 15).
	o := outlookAt(course(220, 16), 260, 1)
	if o.Reached || o.Chance < .5 || o.Lo > 13 || o.Hi >= 0 && o.Hi < 13 || o.Median < 1 {
		t.Errorf("%+v, want a range with 13 in it", o)
	}
	if o := outlookAt(course(220, 40), 260, 1); !o.Reached || o.Chance != 1 || o.Hi != 0 {
		t.Errorf("%+v, want reached", o)
	}
	if o := outlookAt(course(400, 30), 260, 1); o.Reached || o.Chance > .3 {
		t.Errorf("%+v, want little chance", o)
	}
	// Of a share of the other's speed there is more time.
	if o := outlookAt(course(220, 16), 208, .8); o.Lo > 13 || o.Hi >= 0 && o.Hi < 13 {
		t.Errorf("four fifths of 208 ms is 260 ms: %+v", o)
	}
}
