package board

import "math"

// Effort of a stroke. It is a scale of our own, after common practice, and
// serves only to compare strokes of one board: 1 is the home position of the
// index or middle finger. Its parts are added.
const (
	effortRing    = 0.2 // the ring finger is less able,
	effortLittle  = 0.4 // the little finger least
	effortThumb   = 0.0
	effortTop     = 0.3 // a row up from home is easier than a row down
	effortBottom  = 0.5
	effortNumber  = 0.8
	effortFar     = 1.4  // the function row
	effortReach   = 0.4  // for each column away from the finger's own
	effortHeld    = 0.7  // share that a key costs which is held
	effortMore    = 0.5  // a second key is held, and each after it
	effortSame    = 0.3  // a finger is held on the hand that strikes,
	effortThumbs  = 0.15 // or its thumb
	effortClash   = 2.5  // the finger that holds has to strike, too
	effortWaiting = 0.3  // a tap-and-hold key takes time to tell
	effortLatch   = 0.2
	effortLock    = 1.0 // the layer has to be closed again
	effortStay    = 2.0
	effortCombo   = 0.4 // keys have to go down together
)

// effort adds up the steps of one stroke.
func (b *Board) effort(steps []step) float64 {
	total := 0.0
	held := make([]*Key, 0, 4)
	for i, s := range steps {
		k := &b.keys[s.key]
		cost := reachEffort(k)
		switch s.as {
		case AsHold:
			if b.twofold[s.key] {
				cost += effortWaiting
			}
			if i < len(steps)-1 {
				cost = cost*effortHeld + effortMore*float64(min(len(held), 1))
			}
		case AsLatch:
			cost += effortLatch
		case AsLock:
			cost += effortLock
		case AsStay:
			cost += effortStay
		case AsCombo:
			cost = cost*effortHeld + effortCombo/2
		}
		total += cost + togetherEffort(held, k)
		if s.as == AsHold {
			held = append(held, k)
		} else if s.as != AsCombo {
			held = held[:0]
		}
	}
	return float64(int(total*1000+0.5)) / 1000
}

// reachEffort is what it costs to get a finger onto a key.
func reachEffort(k *Key) float64 {
	cost := 1.0
	switch k.Finger {
	case Ring:
		cost += effortRing
	case Little:
		cost += effortLittle
	case Thumb:
		cost += effortThumb
	}
	switch k.Row {
	case TopRow:
		cost += effortTop
	case BottomRow:
		cost += effortBottom
	case NumberRow:
		cost += effortNumber
	case FunctionRow:
		cost += effortFar
	}
	if k.Finger == Thumb {
		return cost
	}
	return cost + effortReach*float64(max(k.Reach, -k.Reach))
}

// togetherEffort is what it costs to strike k while others are held.
func togetherEffort(held []*Key, k *Key) float64 {
	cost := 0.0
	for _, h := range held {
		switch {
		case h.Hand != k.Hand:
		case h.Finger == k.Finger:
			cost += effortClash
		case h.Finger == Thumb:
			cost += effortThumbs
		default:
			cost += effortSame
		}
	}
	return cost
}

// Effort is the effort of a stroke of these presses on b, for one that its
// layers do not have; it is +Inf where a position is none of the board's.
func (b *Board) Effort(keys []Press) float64 {
	steps := make([]step, len(keys))
	for i, p := range keys {
		n := b.index(p.Position)
		if n < 0 {
			return math.Inf(1)
		}
		steps[i] = step{n, p.As, p.Symbol}
	}
	return b.effort(steps)
}
