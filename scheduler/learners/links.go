package learners

import (
	"math"
	"math/rand/v2"
	"time"
)

// mostLinks is more than is ever needed for one stroke.
const mostLinks = 10

// links are what a Searcher knows of one stroke.
type links struct {
	fresh    int // made since the last night
	firm     int
	since    time.Time // when the firm ones were made, on average; zero: long ago
	last     time.Time // the last try
	checked  time.Time // up to when the losses were drawn
	meetings int       // in this sitting, up to 2
}

// night is a pause with a sleep in it.
const night = 6 * time.Hour

func (l *links) number() float64 { return float64(l.fresh + l.firm) }

// recall is the chance that one of the links answers.
func (l *links) recall(answers float64) float64 {
	return 1 - math.Pow(1-answers, l.number())
}

// held is the share of firm links that are expected to hold from one time to a later
// one: (1+age)^-loses, so that what is old is lost more slowly.
func (l *links) held(h *habits, from, to time.Time) float64 {
	age := func(t time.Time) float64 {
		if l.since.IsZero() {
			return 1000 + days(from, t)
		}
		return days(l.since, t)
	}
	return math.Pow((1+age(to))/(1+age(from)), -h.loses)
}

// pass draws what time has taken since the links were looked at last.
func (l *links) pass(h *habits, r *rand.Rand, now time.Time) {
	if l.checked.IsZero() || now.Sub(l.checked) < night {
		if l.checked.IsZero() {
			l.checked = now
		}
		return
	}
	l.firm = binomial(r, l.firm, l.held(h, l.checked, now))
	if kept := binomial(r, l.fresh, h.overnight); kept > 0 {
		l.age(kept)
	}
	l.fresh, l.checked = 0, now
}

// age makes kept links firm and moves the time since which there are links.
func (l *links) age(kept int) {
	if l.firm == 0 {
		l.since = l.last
	} else if !l.since.IsZero() {
		l.since = l.since.Add(time.Duration(float64(l.last.Sub(l.since)) * float64(kept) / float64(kept+l.firm)))
	}
	l.firm += kept
}

// expect tells the chance of recall and the number of links at a later time.
func (l *links) expect(h *habits, at time.Time) (recall, number float64) {
	firm, fresh := 1.0, 1.0
	if !l.checked.IsZero() && at.Sub(l.checked) >= night {
		firm, fresh = l.held(h, l.checked, at), h.overnight
	}
	none := math.Pow(1-h.answers*firm, float64(l.firm)) * math.Pow(1-h.answers*fresh, float64(l.fresh))
	return 1 - none, firm*float64(l.firm) + fresh*float64(l.fresh)
}

// disturb breaks a link that is new.
func (l *links) disturb() { l.fresh = max(0, l.fresh-1) }

// binomial draws how many of n, each with chance p.
func binomial(r *rand.Rand, n int, p float64) (k int) {
	for range n {
		if r.Float64() < p {
			k++
		}
	}
	return k
}
