package scheduler

import (
	"math"
	"math/rand/v2"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %v, not %v", what, got, want)
	}
}

// level is the filter with one term and no context: a local level.
type level struct {
	term
	drift, noise float64
}

func (l *level) observe(y float64) {
	l.Var += l.drift
	var in inputs
	in.add(&l.term, 1)
	in.correctValue(y, l.noise, math.Inf(1))
}

// KFAS, as kept in the tests of statsmodels 0.13.5
// (results_exact_initial_local_level_R.csv): y = 10.2394 and nine ones, noise
// 1.993, drift 8.253, exact diffuse start, which makes the first filtered level
// y itself with the variance of the noise.
func TestLocalLevelAsKFAS(t *testing.T) {
	l := level{term{10.2394, 1.993}, 8.253, 1.993}
	predicted := [][2]float64{{10.2394, 10.246}, {2.50454483209413, 9.92145967807827}, {1.25167384265698, 9.91261946010793}}
	filtered := []float64{1.993, 1.668460, 1.659619} // variances
	for i, want := range predicted {
		near(t, "filtered variance", l.Var, filtered[i], 1e-6)
		near(t, "level", l.Mean, want[0], 1e-8)
		near(t, "variance", l.Var+l.drift, want[1], 1e-8)
		l.observe(1)
	}
	near(t, "fourth level", l.Mean, 1.0421301865, 1e-9)
}

// nile is the yearly flow of the Nile at Aswan, 1871 to 1970, 10^8 m^3
// (Cobb 1978; Durbin & Koopman 2012; nile.csv of statsmodels).
func nile() []float64 {
	return []float64{
		1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140,
		1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969,
		831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040, 759,
		781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890,
		744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
	}
}

// Durbin & Koopman (2012), section 2: noise 15099, drift 1469.1, from a level of
// 0 with variance 10^7. The figures were computed from the model's equations
// with another program; sum and ends of the series are those of the file.
func TestNile(t *testing.T) {
	y := nile()
	sum := 0.0
	for _, v := range y {
		sum += v
	}
	if len(y) != 100 || sum != 91935 {
		t.Fatalf("the series has %d values and sum %v", len(y), sum)
	}
	l := level{term{0, 1e7 - 1469.1}, 1469.1, 15099}
	predicted := [][2]float64{{0, 1e7}, {1118.3115, 16545.34}, {1140.1084, 9363.66}, {1072.3160, 7248.60}, {1116.9748, 6366.56}, {1129.7358, 5947.38}}
	for i, v := range y {
		if i < len(predicted) {
			near(t, "level", l.Mean, predicted[i][0], 5e-5)
			near(t, "variance", l.Var+l.drift, predicted[i][1], 5e-3)
		}
		l.observe(v)
	}
	near(t, "last level", l.Mean, 798.3703, 5e-5)
	near(t, "its variance", l.Var, 4032.158, 5e-4)
	q, h := l.drift, l.noise // steady state: (q + sqrt(q^2 + 4qh))/2
	near(t, "steady state", l.Var+q, (q+math.Sqrt(q*q+4*q*h))/2, 1e-6)
}

// With noise of the kind that people's latencies have, a right tail, the clipped
// filter stays near the median, where the plain one goes to the mean.
func TestTailDragsLittle(t *testing.T) {
	plain, clipped := term{5, .01}, term{5, .01}
	r := rand.New(rand.NewPCG(1, 2))
	for range 5000 {
		y := 5 + .15*r.NormFloat64()
		if r.Float64() < .05 {
			y += r.ExpFloat64()
		}
		for _, c := range []struct {
			t    *term
			clip float64
		}{{&plain, math.Inf(1)}, {&clipped, residualClip}} {
			c.t.Var += 1e-5
			var in inputs
			in.add(c.t, 1)
			in.correctValue(y, .04, c.clip)
		}
	}
	if d := clipped.Mean - 5; math.Abs(d) > .03 {
		t.Errorf("clipped filter is %.3f off the median", d)
	}
	if d := plain.Mean - 5; d < .045 {
		t.Errorf("plain filter is only %.3f off: the test shows nothing", d)
	}
}

// The update for yes and no finds a chance from its tries.
func TestChanceIsFound(t *testing.T) {
	for _, p := range []float64{.01, .1, .5, .9} {
		l := term{0, 4}
		for i := range 4000 {
			var in inputs
			in.add(&l, 1)
			in.correctChance(math.Floor(float64(i+1)*p) > math.Floor(float64(i)*p))
		}
		near(t, "chance", chance(l.Mean, l.Var), p, .1*p*(1-p)+.002)
	}
}

// The moments of the log-normal distribution with mu = 5.5, sigma = .4 (from the
// closed forms, as in Johnson, Kotz & Balakrishnan 1994): mean 265.0716, median 244.6919.
func TestMeanOfLogNormal(t *testing.T) {
	near(t, "mean", meanMS(5.5, .4*.4), 265.0716, 5e-5)
	near(t, "median", math.Exp(5.5), 244.6919, 5e-5)
}

// A fixed term enters the prediction and is not corrected.
func TestFixedTermStays(t *testing.T) {
	a, b := term{1, 1}, term{2, 1}
	var in inputs
	in.add(&a, 1)
	in.addFixed(&b, .5)
	if m, v := in.sum(); m != 2 || v != 1.25 {
		t.Errorf("sum %v, %v", m, v)
	}
	in.correctValue(3, 1, 9)
	if b != (term{2, 1}) || a.Mean <= 1 || a.Var >= 1 {
		t.Errorf("after: %v, %v", a, b)
	}
}

// Of what is too slow, more counts less from some point on; of what is too fast it never does.
func TestInfluence(t *testing.T) {
	const limit = .3
	for _, c := range []struct{ residual, want float64 }{{.2, .2}, {.5, limit}, {1.08, limit / 4}, {-.2, -.2}, {-.5, -limit}, {-3, -limit}} {
		if got := influence(c.residual, limit); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("residual %g: %g, want %g", c.residual, got, c.want)
		}
	}
	if got := influence(7, math.Inf(1)); got != 7 {
		t.Errorf("without a limit: %g", got)
	}
}
