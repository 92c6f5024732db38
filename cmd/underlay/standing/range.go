package standing

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"underlay/scheduler"
)

// Range is a figure with the range in which it is expected four times of five.
type Range struct {
	Value float64 `json:"value"`
	Lo    float64 `json:"lo"`
	Hi    float64 `json:"hi"`
}

// z80 is the normal quantile that leaves a tenth on either side.
const z80 = 1.2815515655446004

// studentT80 is the same of Student's t distribution.
func studentT80(freedom float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.Quantile(.9)
}

// longer is a pace that takes longer by a factor.
func longer(p scheduler.Point, factor float64) scheduler.Point {
	p.MS *= factor
	return p
}

// paceRange is a pace with its range; zero where there is none.
func paceRange(p scheduler.Point) Range {
	return Range{p.MS, p.MS * math.Exp(-z80*p.SD), p.MS * math.Exp(z80*p.SD)}
}

// perMinute turns a time a stroke in ms into strokes a minute.
func (r Range) perMinute() Range {
	if r.Value <= 0 {
		return Range{}
	}
	return Range{60000 / r.Value, 60000 / r.Hi, 60000 / r.Lo}
}

// around is a value with its standard deviation, as a range.
func around(value, sd float64) Range { return Range{value, value - z80*sd, value + z80*sd} }

// logSD is the standard deviation of the logarithm.
func (r Range) logSD() float64 {
	if r.Lo <= 0 || r.Hi <= 0 {
		return math.Inf(1)
	}
	return math.Log(r.Hi/r.Lo) / (2 * z80)
}

// wilson is the score interval of a share (Wilson 1927, J. Am. Stat. Assoc.
// 22, 209-212); Value is the plain share. Without trials it is 0 to 1.
func wilson(x, n int, z float64) Range {
	if n == 0 {
		return Range{0, 0, 1}
	}
	p, N := float64(x)/float64(n), float64(n)
	z2 := z * z / N
	mid := (p + z2/2) / (1 + z2)
	half := z / (1 + z2) * math.Sqrt(p*(1-p)/N+z2/(4*N))
	return Range{p, max(0, mid-half), min(1, mid+half)}
}
