package drills

import (
	"math"
	"strings"
	"testing"
)

// The worked examples of the minimum string distance. abcd/acbd: the matrix
// is printed in Soukoreff and MacKenzie (2001); quickly/qucehkly: Wobbrock and
// Myers, TOCHI 13(4), 2006, figures 3 and 4 (distance and number of
// alignments); mean lengths and rates recomputed from the definitions.
func TestMSDPublished(t *testing.T) {
	tests := []struct {
		p, t               string
		msd, alignments    int
		mean, oldPC, newPC float64
	}{
		{"abcd", "acbd", 2, 3, 14.0 / 3, 50, 42.857},
		{"quickly", "qucehkly", 3, 4, 8.25, 37.5, 36.364},
		{"the quick brown", "the quick brown", 0, 1, 15, 0, 0},
	}
	for _, c := range tests {
		p, tr := []rune(c.p), []rune(c.t)
		if got := MSD(p, tr); got != c.msd {
			t.Errorf("MSD(%s, %s) = %d, want %d", c.p, c.t, got, c.msd)
		}
		if got := Alignments(p, tr, 100); len(got) != c.alignments {
			t.Errorf("%s/%s has %d alignments, want %d", c.p, c.t, len(got), c.alignments)
		}
		near(t, c.p+" mean alignment", MeanAlignment(p, tr), c.mean, 1e-9)
		f := Classify(p, tr, len(tr), 0)
		near(t, c.p+" old error rate", 100*f.OldErrorRate(), c.oldPC, 5e-4)
		near(t, c.p+" new error rate", 100*f.NewErrorRate(), c.newPC, 5e-4)
	}
}

// The printed matrix of abcd (rows) and acbd, Soukoreff and MacKenzie (2001).
func TestMSDMatrix(t *testing.T) {
	want := []int{
		0, 1, 2, 3, 4,
		1, 0, 1, 2, 3,
		2, 1, 1, 1, 2,
		3, 2, 1, 2, 2,
		4, 3, 2, 2, 2,
	}
	got := distances([]rune("abcd"), []rune("acbd"))
	for i, w := range want {
		if got.cells[i] != w {
			t.Errorf("cell %d,%d = %d, want %d", i/5, i%5, got.cells[i], w)
		}
	}
}

// The four optimal alignments of quickly and qucehkly, Wobbrock and Myers
// (2006), figure 4.
func TestAlignmentsListed(t *testing.T) {
	want := map[string]bool{
		"qu-ickly/qucehkly": true, "qui-ckly/qucehkly": true, "quic-kly/qucehkly": true, "quic--kly/qu-cehkly": true,
	}
	p, tr := []rune("quickly"), []rune("qucehkly")
	for _, a := range Alignments(p, tr, 100) {
		if s := written(p, tr, a); !want[s] {
			t.Errorf("unexpected alignment %s", s)
		} else {
			delete(want, s)
		}
	}
	for s := range want {
		t.Errorf("missing alignment %s", s)
	}
}

func written(p, t []rune, a []Step) string {
	var up, low strings.Builder
	write := func(b *strings.Builder, s []rune, i int) {
		if i < 0 {
			b.WriteByte('-')
			return
		}
		b.WriteRune(s[i])
	}
	for _, s := range a {
		write(&up, p, s.P)
		write(&low, t, s.T)
	}
	return up.String() + "/" + low.String()
}

// Rates from counts. The first row is the example of the input stream
// "the quix<ck brown" (an encyclopaedia's article on typing, after Soukoreff
// and MacKenzie 2003); the others are recomputed from the definitions.
func TestRatesPublished(t *testing.T) {
	tests := []struct {
		f                                            Figures
		kspc, corrected, uncorrected, total, utilise float64
		efficiency, conscientious                    float64
	}{
		{Figures{C: 15, INF: 0, IF: 1, F: 1}, 1.1333, .0625, 0, .0625, .8824, 1, 1},
		{Figures{C: 14, INF: 1, IF: 1, F: 1}, 1.1333, .0625, .0625, .125, .8235, 1, .5},
		{Figures{C: 13, INF: 2, IF: 3, F: 4}, 1.4667, .16667, .11111, .27778, .5909, .75, .6},
	}
	for _, c := range tests {
		near(t, "KSPC", c.f.KSPC(), c.kspc, 5e-5)
		near(t, "corrected", c.f.CorrectedErrorRate(), c.corrected, 5e-6)
		near(t, "uncorrected", c.f.UncorrectedErrorRate(), c.uncorrected, 5e-6)
		near(t, "total", c.f.TotalErrorRate(), c.total, 5e-6)
		near(t, "utilised bandwidth", c.f.UtilisedBandwidth(), c.utilise, 5e-5)
		near(t, "correction efficiency", c.f.CorrectionEfficiency(), c.efficiency, 1e-9)
		near(t, "conscientiousness", c.f.Conscientiousness(), c.conscientious, 1e-9)
	}
}

// One wrong character of quickly is an error rate of 14.28 % (Rakhmetulla
// and others, Using action-level metrics to report the performance of
// multi-step keyboards, table 1; printed cut, not rounded).
func TestErrorRateOfOneCharacter(t *testing.T) {
	f := Classify([]rune("quickly"), []rune("quivkly"), 7, 0)
	near(t, "error rate", 100*f.OldErrorRate(), 14.28, .01)
}

// Fifteen characters in five seconds are 33.6 words a minute, not 36: the
// first one starts the clock (recomputed from the definition).
func TestWPM(t *testing.T) {
	near(t, "WPM", Figures{Timed: 14, Seconds: 5}.WPM(), 33.6, 1e-9)
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}
