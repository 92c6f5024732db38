package session

import "underlay/drills/board"

// paused lies over a drill until somebody goes on.
type paused struct {
	drill *drilling
	why   string
}

// pause stops the drill under way, if there is one.
func (m *Model) pause(why string) {
	if d, ok := m.place().(*drilling); ok {
		d.spend(m)
		m.push(&paused{drill: d, why: why})
	}
}

func (p *paused) key(m *Model, k Key) {
	switch k.Symbol {
	case board.Enter, board.Escape, "Control+p":
		m.back()
		p.drill.goOn(m)
	case "e":
		m.endSitting("")
	case "n":
		m.back()
		p.drill.goOn(m)
		m.keepOut(p.drill.symbol())
	default:
		m.wander(k.Symbol)
	}
}

func (p *paused) show(m *Model, v *View) {
	p.drill.show(m, v)
	v.Drill.Over = []string{"Paused. The clock stands still.", ""}
	if p.why != "" {
		v.Drill.Over = []string{p.why, ""}
	}
	v.Keys = append(v.Keys[:0], Hint{"Enter", "go on"}, Hint{"n", "this key never arrives"}, Hint{"e", "end here"},
		Hint{"m", "map"}, Hint{"?", "help"}, Hint{"q", "leave"})
}
