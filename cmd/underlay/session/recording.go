package session

import (
	"time"

	"underlay/drills"
	"underlay/scheduler/journal"
)

// record puts on the journal what has not been put there. Who wanted to leave
// and goes on makes two records of one drill.
func (d *drilling) record(m *Model) {
	all := d.grader.Tries()
	before := all[:min(d.recorded, len(all))] // a held key may have taken one back
	tries := all[len(before):]
	if len(tries) == 0 {
		return
	}
	d.recorded = len(all)
	drill := d.grader.Drill()
	keys := keysOf(tries)
	if m.sitting.switched {
		keys[0].Flags |= journal.BoardSwitch
		m.sitting.switched = false
	}
	m.record(journal.Drill{
		At: d.begun.Add(taken(before)), Session: m.o.Session, Board: d.board.Name, Hash: d.board.Hash(),
		Kind: string(drill.Kind), Block: string(d.task.Block), Language: drill.Language,
		Treatment: treatmentName(m.treatment(drill.Kind)), Keys: keys,
		Unordered: drill.Kind == drills.OwnLine, // so that nobody's text can be read from the journal
	}, d.board)
	m.sitting.tally.add(tries)
	m.sitting.part.add(tries)
	m.care.add(tries, d.known)
}

// taken is the time from when a drill was shown to the end of its first tries.
func taken(tries []drills.Try) time.Duration {
	var ms float64
	for _, t := range tries {
		ms += t.MS + t.Lost
	}
	return time.Duration(ms * float64(time.Millisecond))
}

func treatmentName(t drills.Treatment) string {
	if t == drills.AsAtWork {
		return "as-at-work"
	}
	return "wait"
}

func keysOf(tries []drills.Try) []journal.Key {
	out := make([]journal.Key, len(tries))
	for i, t := range tries {
		k := journal.Key{
			Symbol: string(t.Ask.Symbol), Stroke: t.Ask.Stroke.String(), MS: t.MS, Lost: t.Lost, Flags: flagsOf(t),
		}
		if t.Wrong {
			k.Got, k.Slip = string(t.Got), string(t.Slip.Kind)
		}
		out[i] = k
	}
	return out
}

func flagsOf(t drills.Try) journal.Flags {
	var f journal.Flags
	for _, b := range []struct {
		on   bool
		flag journal.Flags
	}{
		{t.First, journal.First}, {t.AfterSlip, journal.AfterSlip}, {t.Helped, journal.Helped},
		{t.Paused, journal.Paused}, {t.Switch, journal.Switch}, {t.SameFinger, journal.SameFinger}, {t.Repair, journal.Repair},
	} {
		if b.on {
			f |= b.flag
		}
	}
	return f
}

// passOver leaves the drill in hand as it is and goes on to the next.
func (m *Model) passOver() {
	if d, ok := m.place().(*drilling); ok {
		d.record(m)
		m.advance()
	}
}
