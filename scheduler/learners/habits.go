package learners

import "math/rand/v2"

// habits are what differs between people.
type habits struct {
	speed, noise float64
	slips        float64 // of hands that know
	mistimes     float64 // slips by the hold, at first

	answers  float64 // chance that a link answers
	learns   float64 // chance of a link from finding it, after a search
	repeats  float64 // chance of one more from knowing it
	disturbs float64 // chance that a new link breaks one that is like it
	hasty    float64 // chance to guess instead of looking

	thinks  float64 // ms to the answer of one link
	looks   float64 // ms a key that is looked at
	ahead   float64 // ms of thinking that pass behind the stroke before
	hands   float64 // exponent of movements
	way     float64 // ms of the way into a layer, when practised
	learnIn float64 // ms more at first
	enters  float64 // exponent of it

	cold, coldRare        float64 // share that the first meeting of a sitting takes more
	tiresAfter, tires     float64
	wanders, returns      float64 // chance a stroke
	absent, absentMS, dim float64 // while wandering: chance and length of a pause, factor
	overnight             float64 // chance that a new link outlasts the night
	loses                 float64 // exponent of the loss of old ones
}

func drawHabits(r *rand.Rand) habits {
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	return habits{
		speed: about(r, 1, .2), noise: between(.15, .23), slips: about(r, .011, .4), mistimes: about(r, .05, .4),
		answers: between(.45, .7), learns: between(.18, .4), repeats: between(.05, .12), disturbs: between(.1, .3), hasty: between(.15, .4),
		thinks: about(r, 380, .2), looks: about(r, 38, .25), ahead: between(60, 140), hands: between(.3, .5),
		way: about(r, 70, .3), learnIn: about(r, 260, .3), enters: between(.2, .35),
		cold: between(.09, .17), coldRare: between(.15, .35), tiresAfter: between(720, 1100), tires: between(.005, .02),
		wanders: between(.0025, .005), returns: between(.03, .05), absent: between(.3, .45), absentMS: about(r, 600, .2), dim: between(1.3, 1.5),
		overnight: between(.55, .8), loses: between(.09, .24),
	}
}
