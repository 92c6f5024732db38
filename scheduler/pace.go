package scheduler

import (
	"math"
	"time"
)

const (
	repairMS    = 450.0
	repairShare = .8 // of the latency
)

// Repair returns what a slip costs in ms where a stroke takes ms: noticing,
// taking back, and typing once more.
func Repair(ms float64) float64 { return repairMS + repairShare*ms }

// cost returns the expected ms of one stroke, repair included.
func cost(ms, slip float64) float64 { return ms + slip*Repair(ms) }

// Latency returns the ms of a stroke without repair, given its expected ms with
// it, as [Scheduler.Expect] tells them, and the chance of a slip, 0 to 1.
func Latency(expected, slip float64) float64 {
	return (expected - repairMS*slip) / (1 + repairShare*slip)
}

// Pace returns the expected speed on a board in the user's own work. Strokes
// without a try count with what is presumed of them. The pace of a board
// without strokes is 0.
func (s *Scheduler) Pace(board int, at time.Time) Point { return s.pace(board, seconds(at)) }

// PaceOf is the pace of a part of the work: of the strokes that are in, by
// their share of use. Without any that is used it is 0.
func (s *Scheduler) PaceOf(at time.Time, in func(id int) bool) Point {
	return s.paceOf(seconds(at), in)
}

// Expect is the pace of one stroke, whether it is used or not.
func (s *Scheduler) Expect(id int, at time.Time) Point {
	if id < 0 || id >= len(s.Items) {
		return Point{}
	}
	e := s.estimate(id, seconds(at))
	c := cost(meanMS(e.ln, s.Noise.Var), e.slip())
	return Point{MS: c, SD: math.Sqrt(s.spreadOf([]part{{id, c}}, c)), At: at}
}

func (s *Scheduler) pace(board int, at float64) Point {
	return s.paceOf(at, func(id int) bool { return s.drilled(id, board) })
}

// meanMS is the mean of latencies whose ln has this mean and variance: they are
// log-normal, and their median is exp(mean).
func meanMS(mean, vari float64) float64 { return math.Exp(mean + vari/2) }

// paceOf is the pace over the strokes that are in.
func (s *Scheduler) paceOf(at float64, in func(id int) bool) Point {
	sum, weight := 0.0, 0.0
	var parts []part
	for id := range s.strokes {
		if f := s.strokes[id].Freq; f > 0 && in(id) {
			e := s.estimate(id, at)
			c := f * cost(meanMS(e.ln, s.Noise.Var), e.slip())
			sum += c
			weight += f
			parts = append(parts, part{id, c})
		}
	}
	if weight == 0 {
		return Point{}
	}
	return Point{MS: sum / weight, SD: math.Sqrt(s.spreadOf(parts, sum)), At: clockTime(at)}
}

// part is a stroke's part of a sum of costs.
type part struct {
	id   int
	cost float64
}

// spreadOf is the variance of the ln of a sum of costs, given that strokes
// share the terms of their features.
func (s *Scheduler) spreadOf(parts []part, sum float64) float64 {
	layer, finger, row := make([]float64, len(s.Speed.Layer)), make([]float64, len(s.Speed.Finger)), make([]float64, len(s.Speed.Row))
	v, board, practice := 0.0, [2]float64{}, 0.0
	for _, q := range parts {
		a, p := q.cost/sum, s.places[q.id]
		v += a * a * s.Speed.Own[q.id].Var
		board[p.board] += a
		layer[p.layer] += a
		finger[p.finger] += a
		row[p.row] += a
		if p.board == 0 {
			practice += a * s.Items[q.id].practised()
		}
	}
	v += practice * practice * s.Speed.Practice.Var
	for b, a := range board {
		v += a * a * s.Speed.Board[b].Var
	}
	return v + weighted(layer, s.Speed.Layer) + weighted(finger, s.Speed.Finger) + weighted(row, s.Speed.Row)
}

func weighted(a []float64, t []term) (v float64) {
	for i := range a {
		v += a[i] * a[i] * t[i].Var
	}
	return v
}

// Before returns what the stroke before costs on a board, as a share of the
// latency: where it was on another layer, and where the same finger struck
// another key.
func (s *Scheduler) Before(board int) (otherLayer, sameFinger float64) {
	c := &s.Speed.Context[board]
	return math.Expm1(c[afterSwitch].Mean), math.Expm1(c[afterSameFinger].Mean)
}
