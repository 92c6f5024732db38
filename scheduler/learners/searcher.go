package learners

import (
	"math"
	"math/rand/v2"
	"time"
)

// Searcher knows where a symbol is, or does not. What it knows of a stroke is a number
// of links, each made all at once or not at all (all-or-none learning: Bower 1961, from
// memory). One link that answers is enough; more answer sooner. Where none
// does, it looks over the layer's picture, key by key, or guesses in haste. Links that are
// new do not outlast learning what is like them, nor all of them a night; those that do hold
// long, and the longer the older they are (Jost's law). Its hands learn movements between
// positions, whatever these give, and ways into layers, each by a power law of practice
// (Newell and Rosenbloom 1981). Its attention wanders in bursts.
//
// Of published facts it has (the tests hold it to them): of .tie5Roanl typed 400 times (Killourhy
// and Maxion 2009; figures computed from their records, and from a like set with a
// symbol layer) the spread of latencies in a sitting, the 2.5 to 5.7 % above twice
// the median, the correlation of .10 to .16 from one try to the next, the practice
// exponent of about .1, the first try of a sitting 15 % slow and the second 3 %; exponents of
// .1 to .5 for what is new and nearly none for what is familiar; 30 to 60 ms less
// between hands than within one (Salthouse 1984); and no harm to the old board (Gopher and
// Raij, on a two-hand chord keyboard).
type Searcher struct {
	work   *Work
	rand   *rand.Rand
	habits habits
	reach  []float64
	memory []links
	rivals [][]int // strokes that are like one: the same key, or finger and layer

	place   []int             // position of a stroke
	moves   map[Pair]float64  // practised movements from position to position
	entries map[place]float64 // practised ways into a layer
	sizes   map[place]int     // keys to look over on a layer

	sitting   sitting
	attention attention
	slipped   bool
}

// place is a layer of a board.
type place struct{ board, layer int }

// NewSearcher returns the typist with that seed.
func NewSearcher(w *Work, seed uint64) *Searcher {
	r := generator(seed, 3)
	h := drawHabits(r)
	s := &Searcher{work: w, habits: h, reach: reach(w, h.speed, r), rand: generator(seed, 4),
		moves: map[Pair]float64{}, entries: map[place]float64{}, sizes: map[place]int{}}
	s.place = positions(w)
	s.rivals = rivals(w)
	for id, stroke := range w.Strokes {
		s.memory = append(s.memory, s.first(id, r))
		at := place{stroke.Board, stroke.Layer}
		s.sizes[at]++
		switch {
		case stroke.Board == 1 || stroke.Layer == 0:
			s.entries[at] = 1e5
		case w.twin[id]:
			s.entries[at] = 100
		}
	}
	s.knowMoves()
	return s
}

// first is what is known before any practice.
func (s *Searcher) first(id int, r *rand.Rand) links {
	stroke := s.work.Strokes[id]
	switch {
	case stroke.Board == 1:
		return links{firm: mostLinks}
	case stroke.Other >= 0 && stroke.Layer == 0:
		return links{firm: 2 + r.IntN(4)}
	case s.work.twin[id]:
		return links{firm: 1 + r.IntN(3)}
	}
	return links{}
}

// knowMoves gives the hands what they know: the other board's movements, and a
// little of those of the base layer.
func (s *Searcher) knowMoves() {
	for p, f := range s.work.Pairs {
		a, b := s.work.Strokes[p.Prev], s.work.Strokes[p.ID]
		move := Pair{s.place[p.Prev], s.place[p.ID]}
		if b.Board == 1 {
			s.moves[move] += 3e5 * f
		} else if a.Layer == 0 && b.Layer == 0 {
			s.moves[move] += min(30, 3e3*f)
		}
	}
}

// positions numbers the positions of all boards and returns that of each stroke.
func positions(w *Work) []int {
	number := map[key]int{}
	list := make([]int, len(w.Strokes))
	for id, stroke := range w.Strokes {
		k := keyOf(stroke)
		k.layer = 0
		if _, ok := number[k]; !ok {
			number[k] = len(number)
		}
		list[id] = number[k]
	}
	return list
}

// rivals lists for each stroke those that it is mixed up with: what its key gives on
// other layers, what its finger does on the same, and where the other board has it.
func rivals(w *Work) [][]int {
	list := make([][]int, len(w.Strokes))
	for id, s := range w.Strokes {
		for other, o := range w.Strokes {
			if other == id || o.Board != s.Board || o.Hand != s.Hand || o.Finger != s.Finger {
				continue
			}
			if o.Layer == s.Layer || o.Row == s.Row && o.Col == s.Col {
				list[id] = append(list[id], other)
			}
		}
		if s.Other >= 0 {
			list[id] = append(list[id], s.Other)
		}
	}
	return list
}

// Work implements Typist.
func (s *Searcher) Work() *Work { return s.work }

// Press implements Typist.
func (s *Searcher) Press(id, prev int, now time.Time) Press {
	stroke := &s.work.Strokes[id]
	m := &s.memory[id]
	seconds, onBoard := s.sitting.begin(stroke.Board, now)
	m.pass(&s.habits, s.rand, now)

	p := Press{Got: id}
	known := s.rand.Float64() < m.recall(s.habits.answers)
	guessed := !known && s.rand.Float64() < s.habits.hasty
	ms := s.find(id, known || guessed, prev >= 0) + s.move(id, prev)
	switch {
	case guessed && s.rand.Float64() < .8: // one time in five the guess is right
		p.Got, p.Slip = s.work.wrong(id, 1, s.rand)
	case s.enters(id, prev) && s.rand.Float64() < s.mistime(id):
		if got := s.work.mistimed(id, prev); got != id { // the same where the layer falls through
			p.Got, p.Slip = got, Layer
		}
	case s.rand.Float64() < s.habits.slips:
		p.Got, p.Slip = s.work.wrong(id, 0, s.rand)
	}
	ms *= s.shape(id, seconds, onBoard)
	p.MS = max(40, s.attention.latency(ms, &s.habits, s.rand))
	s.practise(id, prev, known, p.Slip == Right, now)
	s.slipped = p.Slip != Right
	return p
}

// find is the time until it is known where to press.
func (s *Searcher) find(id int, known, ahead bool) float64 {
	h := &s.habits
	if !known {
		stroke := &s.work.Strokes[id]
		return h.searchMS(s.rand.IntN(s.sizes[place{stroke.Board, stroke.Layer}]) + 1)
	}
	return h.thinkMS(s.memory[id].number(), ahead)
}

// searchMS is the time to look at n keys, one after the other.
func (h *habits) searchMS(n int) float64 { return h.thinks + h.looks*float64(n) }

// thinkMS is the time until one of n links answers, as far as it is to be waited for.
func (h *habits) thinkMS(n float64, ahead bool) float64 {
	ms := h.thinks * math.Pow(1+n, -.7)
	if ahead {
		ms = max(0, ms-h.ahead)
	}
	return ms
}

// enters tells whether the way into a layer has to be gone.
func (s *Searcher) enters(id, prev int) bool {
	a := &s.work.Strokes[id]
	if prev < 0 {
		return a.Layer != 0
	}
	b := &s.work.Strokes[prev]
	return a.Layer != b.Layer || a.Board != b.Board
}

// move is the time of the hands.
func (s *Searcher) move(id, prev int) float64 {
	ms := s.reach[id]
	if prev < 0 {
		ms += 170
	} else {
		ms = s.moveMS(id, prev)
	}
	if s.enters(id, prev) {
		ms += s.enterMS(id)
	}
	return ms
}

// moveMS is the time from one position to the next.
func (s *Searcher) moveMS(id, prev int) float64 {
	a, b := &s.work.Strokes[prev], &s.work.Strokes[id]
	n := s.moves[Pair{s.place[prev], s.place[id]}]
	ms := s.reach[id] * (.7 + 1.3*math.Pow(1+n/10, -s.habits.hands))
	switch {
	case a.Hand != b.Hand:
		return ms - 25*s.habits.speed // Salthouse (1984): 30 to 60 ms between hands and one hand
	case a.Finger == b.Finger && prev != id:
		return ms + 40*s.habits.speed
	}
	return ms + 15*s.habits.speed
}

// enterMS is the way into the stroke's layer.
func (s *Searcher) enterMS(id int) float64 {
	h := &s.habits
	return h.speed * (h.way + h.learnIn*s.newness(id))
}

// newness is 1 for a layer that was never entered, and goes to 0.
func (s *Searcher) newness(id int) float64 {
	stroke := &s.work.Strokes[id]
	return math.Pow(1+s.entries[place{stroke.Board, stroke.Layer}]/8, -s.habits.enters)
}

// mistime is the chance that the hold comes late or is let go early.
func (s *Searcher) mistime(id int) float64 { return s.habits.mistimes * s.newness(id) }

// shape is the factor of the first meetings of a sitting, of the board and of tiring.
func (s *Searcher) shape(id int, seconds, onBoard float64) float64 {
	h, m := &s.habits, &s.memory[id]
	f := 1.0
	if onBoard < seconds { // the sitting began on another one
		f += .08 * math.Exp(-onBoard/30)
	}
	cold := h.cold
	if m.number() < mostLinks {
		cold += h.coldRare * (1 - float64(m.number())/mostLinks)
	}
	switch {
	case s.sitting.start.After(m.last) || m.last.IsZero():
		f += cold
		m.meetings = 1
	case m.meetings == 1:
		f += cold / 8
		m.meetings = 2
	}
	if seconds > h.tiresAfter {
		f += h.tires * (seconds - h.tiresAfter) / 60
	}
	if s.slipped {
		f *= 1.12
	}
	return f
}

// practise is what a try leaves behind.
func (s *Searcher) practise(id, prev int, known, right bool, now time.Time) {
	stroke := &s.work.Strokes[id]
	if prev >= 0 {
		s.moves[Pair{s.place[prev], s.place[id]}]++
	}
	if s.enters(id, prev) {
		s.entries[place{stroke.Board, stroke.Layer}]++
	}
	chance := s.habits.learns
	if known {
		chance = s.habits.repeats
	}
	m := &s.memory[id]
	m.last = now
	if !right || m.number() >= mostLinks || s.rand.Float64() >= chance {
		return
	}
	m.fresh++
	if list := s.rivals[id]; len(list) > 0 && s.rand.Float64() < s.habits.disturbs {
		s.memory[list[s.rand.IntN(len(list))]].disturb()
	}
}

// Expect implements Typist.
func (s *Searcher) Expect(id int, at time.Time) Truth {
	stroke, h := &s.work.Strokes[id], &s.habits
	known, number := s.memory[id].expect(h, at)
	hands := s.reach[id] * 1.2
	if before := s.work.before[id]; len(before) > 0 {
		hands = 0
		for _, b := range before {
			hands += b.p * s.moveMS(id, b.prev)
		}
	}
	hands += stroke.Switch * s.enterMS(id)
	keys := s.sizes[place{stroke.Board, stroke.Layer}]
	looks := (1 - known) * (1 - h.hasty)
	mix := mixture{quick: hands + h.thinkMS(number, true), slow: hands + h.thinks, looks: h.looks, keys: keys, share: looks, noise: h.noise}
	wrong := (1-known)*h.hasty*.8 + stroke.Switch*s.mistime(id) + h.slips
	mean := mix.mean() * h.wandering()
	return Truth{mix.median(), mean, min(1, wrong), mean + wrong*RepairMS(mean) + h.absence()}
}
