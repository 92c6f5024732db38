package learners

import (
	"math"
	"math/rand/v2"
	"time"
)

// Gradual has, for each stroke, a strength between 0 and 1 that every try brings nearer
// to 1 by a share of what is missing (exponential learning: Heathcote, Brown and
// Mewhort 2000 found it in the series of single learners), less so for tries that follow
// closely. Between tries it fades by a power law (Wixted and Ebbesen 1991) to a share
// that stays, which grows, as its stability does, with the number of days
// on which the stroke was met. Fingers and layers have skills of their own that
// their strokes share. Practice on one board weakens the same symbol on the other.
//
// Of published facts it has: exponential single strokes, exponents of .1 to .5 when a power law
// is fitted to what is new, and a sitting that begins slowly (by about 25 %, for a
// minute; people are 15 % slow for one try). It has not: the heavy right tail of human
// latencies and their likeness from one try to the next.
type Gradual struct {
	work   *Work
	rand   *rand.Rand
	traits traits
	reach  []float64 // ms at full strength

	strokes []trace
	fingers [2][2][5]float64   // skill by board, hand and finger
	layers  [2]map[int]float64 // skill by board and layer
	entries [2]map[int]float64 // ways into a layer that were practised
	pairs   map[Pair]float64   // tries of a pair

	sitting sitting
	slipped bool
}

// traits are what differs between people.
type traits struct {
	speed                        float64 // factor of all motor times
	noise                        float64 // standard deviation of ln latency
	lapse                        float64 // chance of a moment's absence
	warmUp, warmSeconds          float64
	tiresAfter, tires            float64 // seconds; share a minute
	slips                        float64 // chance of a slip at full strength
	entry, entryGain, entryPower float64 // ms of the way into a layer

	learns, fades, stability, stays float64
	unknown, unknownErr             float64 // ln factor of latency, and slips, at strength 0
	shared                          float64 // what finger and layer skill stand for
	weakens                         float64 // of the other board's symbol, a try
	massed                          float64 // seconds
	carries                         float64 // strength of letters known from the other board
}

func drawTraits(r *rand.Rand) traits {
	return traits{
		speed: about(r, 1, .2), noise: .22 + .16*r.Float64(), lapse: about(r, .008, .5),
		warmUp: .05 + .25*r.Float64(), warmSeconds: about(r, 40, .4),
		tiresAfter: 60 * (12 + 6*r.Float64()), tires: .005 + .015*r.Float64(), slips: about(r, .011, .4),
		entry: about(r, 55, .3), entryGain: about(r, 220, .3), entryPower: .25 + .15*r.Float64(),
		learns: about(r, .028, .3), fades: about(r, .45, .2), stability: about(r, 1.2, .3),
		stays: clamp(.25+.08*r.NormFloat64(), .05, .5), unknown: about(r, 1.75, .12), unknownErr: about(r, .4, .2),
		shared: .3, weakens: about(r, .0008, .3), massed: about(r, 25, .3), carries: clamp(.6+.12*r.NormFloat64(), .2, .9),
	}
}

// trace is what is kept of one stroke.
type trace struct {
	strength  float64 // at the last try
	stability float64 // days
	stays     float64 // share that does not fade; 0: as the person's
	sittings  float64 // days on which it was met
	last, met time.Time
	learns    float64
	unknown   float64
}

// NewGradual returns the typist with that seed.
func NewGradual(w *Work, seed uint64) *Gradual {
	r := generator(seed, 1)
	t := drawTraits(r)
	g := &Gradual{work: w, traits: t, reach: reach(w, t.speed, r), rand: generator(seed, 2), pairs: map[Pair]float64{}}
	for id := range w.Strokes {
		g.strokes = append(g.strokes, g.first(id, r))
	}
	g.layers = [2]map[int]float64{{0: .4}, {}}
	g.entries = [2]map[int]float64{{0: 300}, {}}
	for id, s := range w.Strokes {
		if s.Board == 1 {
			g.layers[1][s.Layer], g.entries[1][s.Layer] = .9, 1e5
		} else if w.twin[id] {
			g.layers[0][s.Layer] = .2
		}
	}
	for hand := range 2 {
		for f := range 5 {
			g.fingers[1][hand][f] = .9
		}
	}
	g.knowPairs()
	return g
}

// first is what is known of a stroke before any practice: the other board is known
// well; letters that lie on the same keys carry over in part.
func (g *Gradual) first(id int, r *rand.Rand) trace {
	s, t := g.work.Strokes[id], g.traits
	k := trace{stability: t.stability, learns: t.learns * math.Exp(.3*r.NormFloat64()), unknown: t.unknown * math.Exp(.12*r.NormFloat64())}
	switch {
	case s.Board == 1:
		k.strength, k.stability, k.sittings, k.stays = clamp(.9+.05*math.Log10(1e3*s.Freq+1e-9), .75, .99), 300, 300, .6
	case s.Other >= 0 && (s.Layer == 0 || g.work.twin[id]):
		carries := t.carries
		if s.Layer != 0 {
			carries *= .55
		}
		k.strength, k.stability, k.sittings, k.stays = clamp(carries+.08*r.NormFloat64(), .05, .95), 30, 8, .4
	}
	return k
}

func (g *Gradual) knowPairs() {
	for p, f := range g.work.Pairs {
		a, b := g.work.Strokes[p.Prev], g.work.Strokes[p.ID]
		if b.Board == 1 {
			g.pairs[p] = 3e5 * f
		} else if a.Layer == 0 && b.Layer == 0 {
			g.pairs[p] = min(10, 2e3*f)
		}
	}
}

// Work implements Typist.
func (g *Gradual) Work() *Work { return g.work }

// kept is the share of a stroke's strength that is left at a time.
func (g *Gradual) kept(k *trace, at time.Time) float64 {
	stays := min(.85, g.traits.stays+k.stays)
	return stays + (1-stays)*math.Pow(1+days(k.last, at)/k.stability, -g.traits.fades)
}

// strength of a stroke at a time, with what its finger and layer share.
func (g *Gradual) strength(id int, at time.Time) float64 {
	k, s := &g.strokes[id], &g.work.Strokes[id]
	group := .5*g.fingers[s.Board][s.Hand][s.Finger] + .5*g.layers[s.Board][s.Layer]
	return 1 - (1-k.strength*g.kept(k, at))*(1-g.traits.shared*group)
}

// level is the latency without context and noise, and the chance of a slip.
func (g *Gradual) level(id int, at time.Time) (ms, wrong float64) {
	missing := 1 - g.strength(id, at)
	return g.reach[id] * math.Exp(g.strokes[id].unknown*missing), min(.9, g.traits.slips+g.traits.unknownErr*math.Pow(missing, 1.8))
}

// entryMS is what the way into the stroke's layer takes.
func (g *Gradual) entryMS(id int) float64 {
	s, t := &g.work.Strokes[id], &g.traits
	return t.speed * (t.entry + t.entryGain*math.Pow(1+g.entries[s.Board][s.Layer], -t.entryPower))
}

// pairMS is what a pair takes until it was practised itself.
func (g *Gradual) pairMS(p Pair) float64 {
	return g.traits.speed * 60 * math.Pow(1+g.pairs[p], -.35)
}

// Press implements Typist.
func (g *Gradual) Press(id, prev int, now time.Time) Press {
	seconds, onBoard := g.sitting.begin(g.work.Strokes[id].Board, now)
	ms, chance := g.level(id, now)
	bad := g.rand.Float64() < chance
	ms = max(40, g.noisy((ms+g.context(id, prev))*g.shape(seconds, onBoard)))
	p := Press{MS: ms, Got: id}
	weight := 1.0
	if bad {
		habit := 0.0
		if g.work.Strokes[id].Other >= 0 {
			habit = .8 * (1 - g.strength(id, now))
		}
		p.Got, p.Slip = g.work.wrong(id, habit, g.rand)
		p.MS = max(40, .9*ms)
		weight = .8
	}
	g.practise(id, weight, now)
	g.slipped = bad
	return p
}

// context is what the stroke before adds, and practises the way from it.
func (g *Gradual) context(id, prev int) (ms float64) {
	if prev < 0 {
		g.entries[g.work.Strokes[id].Board][g.work.Strokes[id].Layer]++
		return g.entryMS(id) + 180
	}
	s, before := &g.work.Strokes[id], &g.work.Strokes[prev]
	switch {
	case before.Layer != s.Layer || before.Board != s.Board:
		ms = g.entryMS(id)
		g.entries[s.Board][s.Layer]++
	case before.Hand == s.Hand && before.Finger == s.Finger && prev != id:
		ms = 40 * g.traits.speed
	case before.Hand != s.Hand:
		ms = -8 * g.traits.speed
	}
	ms += g.pairMS(Pair{prev, id})
	g.pairs[Pair{prev, id}]++
	return ms
}

// shape is the factor of warming up, of getting used to the board, of tiring, and of a slip.
func (g *Gradual) shape(seconds, onBoard float64) float64 {
	t := &g.traits
	f := 1 + t.warmUp*math.Exp(-seconds/t.warmSeconds) + .08*math.Exp(-onBoard/30)
	if seconds > t.tiresAfter {
		f += t.tires * (seconds - t.tiresAfter) / 60
	}
	if g.slipped {
		f *= 1.12
	}
	return f
}

// lapseMS is the mean length of a moment's absence.
const lapseMS = 1200

func (g *Gradual) noisy(ms float64) float64 {
	ms *= math.Exp(g.traits.noise * g.rand.NormFloat64())
	if g.rand.Float64() < g.traits.lapse {
		ms += lapseMS * g.rand.ExpFloat64()
	}
	return ms
}

// practise is what a try leaves behind.
func (g *Gradual) practise(id int, weight float64, now time.Time) {
	k, s := &g.strokes[id], &g.work.Strokes[id]
	k.strength *= g.kept(k, now)
	fresh := 1.0
	if !k.last.IsZero() {
		fresh -= .65 * math.Exp(-now.Sub(k.last).Seconds()/g.traits.massed)
	}
	k.strength += weight * k.learns * fresh * (1 - k.strength)
	if k.met.IsZero() || now.Sub(k.met) > 6*time.Hour {
		g.meet(k, s.Board, now)
	}
	k.last = now
	share := func(skill float64) float64 { return skill + weight*.0012*(1-skill) }
	f := &g.fingers[s.Board][s.Hand][s.Finger]
	*f = share(*f)
	g.layers[s.Board][s.Layer] = share(g.layers[s.Board][s.Layer])
	if s.Other >= 0 && g.competes(id) {
		g.strokes[s.Other].strength *= 1 - g.traits.weakens*weight
	}
}

// meet counts a day on which a stroke was met.
func (g *Gradual) meet(k *trace, board int, now time.Time) {
	k.sittings++
	k.stability = g.traits.stability * math.Pow(k.sittings, 1.25)
	if board == 1 {
		k.stability = max(k.stability, 60)
	}
	k.stays = max(k.stays, .02*k.sittings)
	k.met = now
}

// competes tells whether the symbol lies elsewhere on the other board.
func (g *Gradual) competes(id int) bool {
	s := g.work.Strokes[id]
	o := g.work.Strokes[s.Other]
	return s.Layer > 0 && !g.work.twin[id] || s.Hand != o.Hand || s.Finger != o.Finger || s.Row != o.Row
}

// Expect implements Typist.
func (g *Gradual) Expect(id int, at time.Time) Truth {
	ms, wrong := g.level(id, at)
	pair := 40 * g.traits.speed
	if before := g.work.before[id]; len(before) > 0 {
		pair = 0
		for _, b := range before {
			pair += b.p * g.pairMS(Pair{b.prev, id})
		}
	}
	noise := g.traits.noise
	ms += pair + g.work.Strokes[id].Switch*g.entryMS(id)
	mean := ms * math.Exp(noise*noise/2) // of a log-normal distribution with that median
	return Truth{ms, mean, wrong, mean + wrong*RepairMS(mean) + g.traits.lapse*lapseMS}
}
