package session

import "underlay/drills/board"

// stop is a place that can be gone to with one key, or by its name.
type stop struct {
	key  board.Symbol
	name string
	does string
	to   func(*Model)
}

// stops lists the places that are open from Today, a pause and Rest.
func stops(m *Model) []stop {
	all := []stop{
		{"b", "boards", "which boards, and which is being learned", (*Model).toBoards},
		{"m", "map", "every layer, and how its strokes stand", (*Model).toMap},
		{"f", "find", "where a symbol is", (*Model).toFind},
		{"s", "settings", "minutes, mix, aim, colours, slips", (*Model).toSettings},
		{"?", "help", "keys, slips, and care for the hands", (*Model).toHelp},
		{"q", "leave", "all that was practised is kept", (*Model).leave},
	}
	if m.o.Reports {
		p := stop{"p", "progress", "learning curves and readiness", (*Model).toProgress}
		all = append(all[:3], append([]stop{p}, all[3:]...)...)
	}
	return all
}

// wander goes where a key leads to, and tells whether it led anywhere.
func (m *Model) wander(k board.Symbol) bool {
	switch k {
	case "/":
		m.toPicker()
		return true
	case "Control+c":
		m.leave()
		return true
	case "Control+l":
		m.do(Redraw{})
		return true
	case "Control+z":
		m.do(Suspend{})
		return true
	}
	for _, s := range stops(m) {
		if s.key == k {
			s.to(m)
			return true
		}
	}
	return false
}

// tellStops tells the places that are open: those to look at, then the keys
// that work at all of them.
func (m *Model) tellStops(v *View) {
	v.Keys = append(v.Keys, Hint{"/", "by name"})
	for _, s := range stops(m) {
		h := Hint{string(s.key), s.name}
		if s.name == "help" || s.name == "leave" {
			v.Keys = append(v.Keys, h)
		} else {
			v.Places = append(v.Places, h)
		}
	}
}
