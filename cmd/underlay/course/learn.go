package course

import (
	"strings"
	"time"

	"underlay/drills/board"
	"underlay/scheduler"
	"underlay/scheduler/journal"
)

// Observe learns from a drill as the journal will have it.
func (c *Course) Observe(d journal.Drill) {
	d, err := d.Written()
	if err != nil {
		return // the journal does not take it either, and says so
	}
	if b := c.boardOf(d); b >= 0 {
		for _, k := range d.Keys {
			id, ok := c.strokes.spelled[spelled{b, k.Symbol, k.Stroke}]
			if _, met := c.before[id]; ok && !met {
				c.before[id] = c.scheduler.Level(id, c.begin)
			}
		}
	}
	c.learn(d, nil)
}

// learn is the one way from a record to skill, for drills just typed and for
// those of the journal. Strokes that are not known go to missing.
func (c *Course) learn(d journal.Drill, missing map[old]time.Time) {
	c.past.add(d)
	b := c.boardOf(d)
	if b < 0 {
		return // of a board that is not in use now
	}
	at, prev := d.At, -1
	for i := range d.Keys {
		k := &d.Keys[i]
		name := spelled{b, k.Symbol, k.Stroke}
		id, ok := c.strokes.spelled[name]
		if !ok {
			id = -1
			if missing != nil {
				missing[old{name, d.Hash}] = d.At
			}
		}
		at = at.Add(milliseconds(k.MS))
		if ok && !k.Flags.Has(journal.Repair) {
			c.scheduler.Observe(c.try(id, prev, at, k, d.Unordered))
		}
		at = at.Add(milliseconds(k.Lost))
		prev = id
	}
}

func (c *Course) try(id, prev int, at time.Time, k *journal.Key, unordered bool) scheduler.Try {
	if unordered || k.Flags.Has(journal.First) {
		prev = -1
	}
	t := scheduler.Try{
		ID: id, Prev: prev, At: at, MS: k.MS, Wrong: k.Wrong(), Pressed: id,
		First:      k.Flags.Has(journal.First),
		AfterSlip:  k.Flags.Has(journal.AfterSlip),
		Switch:     k.Flags.Has(journal.Switch),
		SameFinger: k.Flags.Has(journal.SameFinger),
		Helped:     k.Flags.Has(journal.Helped),
		Paused:     k.Flags.Has(journal.Paused),
	}
	if t.Wrong {
		t.Pressed = -1
		if came, ok := c.strokes.drilled[place{c.strokes.all[id].Board, board.Symbol(k.Got)}]; ok {
			t.Pressed = came
		}
	}
	return t
}

// boardOf returns the index of the board that a drill was typed on, or -1. A
// board is known by its content, whatever it is called now, else by name, else
// by that of the same board on a computer set to another OS layout: strokes
// that are the same on both keep their skill; and else by a name that it had before.
func (c *Course) boardOf(d journal.Drill) int {
	for i, b := range c.config.Boards {
		if b.Hash() == d.Hash {
			return i
		}
	}
	if i := c.named(d.Board); i >= 0 {
		return i
	}
	if i, ok := c.past.Called[d.Board]; ok {
		return i
	}
	return -1
}

// named returns the index of the board that has a name now, or -1.
func (c *Course) named(name string) int {
	for i, b := range c.config.Boards {
		if b.Name == name {
			return i
		}
	}
	for i, plain := range c.plain {
		if strings.HasPrefix(name, plain) && board.PlainName(name) == plain {
			return i
		}
	}
	return -1
}

func milliseconds(ms float64) time.Duration { return time.Duration(ms * float64(time.Millisecond)) }

// add keeps what is remembered besides skill.
func (p *past) add(d journal.Drill) {
	p.Hash[d.Board] = d.Hash
	p.Names[d.Board] = p.Names[d.Board].with(d)
	if d.Session != p.Last.Session {
		p.Last = sitting{Session: d.Session, At: d.At}
	}
	spent := 0.0
	for i := range d.Keys {
		k := &d.Keys[i]
		spent += min(k.MS, longest) + min(k.Lost, longest)
		if !k.Flags.Has(journal.Repair) {
			p.Last.Strokes++
			if k.Wrong() {
				p.Last.Slips++
			}
		}
	}
	p.Days[d.At.Format(time.DateOnly)] += spent
}

// longest is what one stroke counts for at most in the time practised, in ms:
// who looks away does not practise.
const longest = 5000
