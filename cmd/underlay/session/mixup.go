package session

import (
	"fmt"
	"math/bits"

	"underlay/drills"
	"underlay/drills/board"
)

// A mix-up of boards is likely when this many of the last strokes were habit
// slips, or symbols that only the other board can make.
const (
	mixupWindow = 20
	mixupHabits = 6
	mixupAlien  = 2
)

// mixups remembers the last strokes of a sitting.
type mixups struct {
	habit, alien uint32 // one bit a stroke, the latest lowest
	asked        bool
}

// mixup looks at one stroke and asks when the boards seem to be mixed up.
func (m *Model) mixup(d *drilling, got board.Symbol, slip drills.Slip) {
	x, other := &m.sitting.mixups, m.otherThan(d.task.Board)
	if other == nil || x.asked {
		return
	}
	x.habit = shift(x.habit, slip.Kind == drills.HabitSlip)
	_, here := d.board.Drilled(got)
	_, there := other.Drilled(got)
	x.alien = shift(x.alien, !here && there)
	if ones(x.habit) >= mixupHabits || ones(x.alien) >= mixupAlien {
		x.asked = true
		d.grader.Interrupt()
		m.push(&mixed{drill: d})
		m.interrupt()
	}
}

func shift(window uint32, one bool) uint32 {
	window = window << 1 & (1<<mixupWindow - 1)
	if one {
		window |= 1
	}
	return window
}

// mixed asks which board is under the hands.
type mixed struct{ drill *drilling }

func (x *mixed) key(m *Model, k Key) {
	switch k.Symbol {
	case board.Enter, board.Escape:
		m.back()
		x.drill.goOn(m)
	case "o":
		m.home(&taking{task: x.drill.task}) // what was typed of it says nothing
	case "e":
		m.endSitting("")
	default:
		m.wander(k.Symbol)
	}
}

func (x *mixed) show(m *Model, v *View) {
	x.drill.show(m, v)
	other := m.otherThan(x.drill.task.Board)
	v.Drill.Over = []string{
		fmt.Sprintf("Is %s under your hands? These strokes look like %s.", theBoard(m, x.drill.task.Board), board.Safe(other.Name)), ""}
	v.Keys = append(v.Keys[:0], Hint{"Enter", "yes, go on"}, Hint{"o", "no: begin this drill again on the right one"}, Hint{"e", "end here"})
}

func ones(x uint32) int { return bits.OnesCount32(x) }
