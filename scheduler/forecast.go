package scheduler

import (
	"math"
	"time"
)

// Point is a speed: that of one practised session, as it is expected to stay
// on the next day.
type Point struct {
	MS float64 // ms a stroke of the user's work, slips and their repair included
	SD float64 // standard error of ln MS
	At time.Time
}

// Outlook is a forecast in practised sessions, counted from the first one (0).
type Outlook struct {
	// Known is false as long as nothing can be said: before ten practised
	// sessions. The other fields mean nothing then.
	Known bool
	// Chance is the probability of getting there on this course, in the next four hundred sessions.
	Chance float64
	// Lo, Median and Hi are the quantiles .1, .5 and .9 of the session in which the target
	// is reached. +Inf: not on this course.
	Lo, Median, Hi float64
}

const (
	leastSessions = 10
	farthest      = 400 // sessions; what lies beyond counts as never
)

// Forecast says when the course of the practised sessions, in their order,
// reaches target (ms a stroke). old is the speed on the other board in ms a
// stroke, near which the course is presumed to end; 0: unknown.
func Forecast(sessions []Point, old, target float64) Outlook {
	never := math.Inf(1)
	obs := observations(sessions)
	if len(obs) < leastSessions || !(target > 0) || math.IsInf(target, 0) {
		return Outlook{Lo: never, Median: never, Hi: never}
	}
	g := newGrid(obs, old)
	return g.outlook(target)
}

// observation is a session for the forecast: number, ln ms, and the weight of its squared error.
type observation struct{ x, ln, weight float64 }

// How far a session's pace may lie from a smooth course, in ln ms: by the day's
// form; more in the first sessions, whose skill has not yet lasted over nights.
// The errors of sessions near each other go together, so that each counts as a
// part of an observation only.
const (
	formSD     = .02
	earlySD    = .15
	earlyFor   = 3.0 // sessions
	likeliness = .25
)

// observations are the sessions one by one, and from the eleventh on
// in groups, of which there are never more than twenty.
func observations(sessions []Point) (out []observation) {
	each := single(sessions)
	if len(each) <= singles {
		return each
	}
	rest := each[singles:]
	size := (len(rest) + groups - 1) / groups
	out = each[:singles:singles]
	for len(rest) > 0 {
		n := min(size, len(rest))
		out = append(out, together(rest[:n]))
		rest = rest[n:]
	}
	return out
}

const (
	singles = 10
	groups  = 20
)

// together is the mean of observations, with the weight of them all.
func together(all []observation) (o observation) {
	for _, a := range all {
		o.x += a.x * a.weight
		o.ln += a.ln * a.weight
		o.weight += a.weight
	}
	o.x /= o.weight
	o.ln /= o.weight
	return o
}

func single(sessions []Point) (out []observation) {
	for x, p := range sessions {
		if !(p.MS > 0) || math.IsInf(p.MS, 0) {
			continue
		}
		form := formSD + earlySD*math.Exp(-float64(x)/earlyFor)
		v := p.SD*p.SD + form*form
		if !(v < 100) {
			continue
		}
		out = append(out, observation{float64(x), math.Log(p.MS), likeliness / v})
	}
	return out
}

// grid is the posterior over both kinds of course, on a grid.
type grid struct {
	points []gridPoint
}

type gridPoint struct {
	shape       shape
	floor, gain float64 // A and G
	weight      float64 // sum to 1
}

// The grid: floors and gains as shares of the yardstick.
const (
	floors     = 25
	floorFrom  = -.55 // ln of the share
	floorStep  = .05
	floorMean  = -.15
	floorSD    = .2
	gains      = 28
	gainFrom   = .15
	gainFactor = 1.2
)

func newGrid(obs []observation, old float64) grid {
	if !(old > 0) || math.IsInf(old, 0) {
		old = math.Exp(obs[len(obs)-1].ln)
	}
	var g grid
	kinds, prior := shapes()
	top := math.Inf(-1)
	for k, c := range kinds {
		course := make([]float64, len(obs))
		for i, o := range obs {
			course[i] = c.at(o.x)
		}
		for j := range floors {
			share := floorFrom + floorStep*float64(j)
			z := (share - floorMean) / floorSD
			for i := range gains {
				p := gridPoint{shape: c, floor: old * math.Exp(share), gain: old * gainFrom * math.Pow(gainFactor, float64(i))}
				p.weight = math.Log(prior[k]) - z*z/2
				if p.weight += misfit(obs, course, p.floor, p.gain, p.weight-top+negligible); p.weight > top-negligible {
					top = math.Max(top, p.weight)
					g.points = append(g.points, p)
				}
			}
		}
	}
	g.normalise(top)
	return g
}

// negligible is how far below the best a log weight counts for nothing.
const negligible = 20

// misfit is the log-likelihood of a course; it may stop where that is below -least.
func misfit(obs []observation, course []float64, floor, gain, least float64) (sum float64) {
	for i := len(obs) - 1; i >= 0; i-- { // the last ones are the surest
		d := obs[i].ln - math.Log(floor+gain*course[i])
		if sum -= d * d / 2 * obs[i].weight; sum < -least {
			break
		}
	}
	return sum
}

// normalise turns log weights, of which top is the largest, into weights that sum to 1.
func (g *grid) normalise(top float64) {
	sum := 0.0
	kept := g.points[:0]
	for _, p := range g.points {
		if p.weight -= top; p.weight > -negligible {
			p.weight = math.Exp(p.weight)
			sum += p.weight
			kept = append(kept, p)
		}
	}
	g.points = kept
	for i := range g.points {
		g.points[i].weight /= sum
	}
}

// The pace itself may be off by as much as this, in ln ms, all sessions alike:
// what is measured right after practice and what a cold morning shows differ.
const offSD = .06

// nodes and their weights stand for a normal distribution: the five-point
// Gauss-Hermite rule for its standard form.
func nodes() (z, weight [5]float64) {
	return [5]float64{-2.856970, -1.355626, 0, 1.355626, 2.856970}, [5]float64{.011257, .222076, .533333, .222076, .011257}
}

// outlook reads the crossing of a target off the grid: the first session that
// is over it, a whole number.
func (g *grid) outlook(target float64) Outlook {
	var c crossings
	z, weight := nodes()
	for k := range z {
		t := target * math.Exp(offSD*z[k])
		for _, p := range g.points {
			c.add(p.reaches(t), p.weight*weight[k])
		}
	}
	return Outlook{Known: true, Chance: c.chance(), Lo: c.quantile(.1), Median: c.quantile(.5), Hi: c.quantile(.9)}
}

// reaches returns the session in which a course comes below a target.
func (p *gridPoint) reaches(target float64) float64 {
	if target <= p.floor {
		return math.Inf(1)
	}
	return math.Ceil(p.shape.reaches((target - p.floor) / p.gain))
}

// crossings counts the weights of the sessions in which a target is reached;
// the last one stands for never.
type crossings [farthest + 2]float64

func (c *crossings) add(x, weight float64) {
	if x > farthest {
		x = farthest + 1
	}
	c[int(x)] += weight
}

func (c *crossings) chance() float64 { return math.Min(math.Max(1-c[farthest+1], 0), 1) }

func (c *crossings) quantile(q float64) float64 {
	sum := 0.0
	for x, w := range c[:farthest+1] {
		if sum += w; sum >= q {
			return float64(x)
		}
	}
	return math.Inf(1)
}
