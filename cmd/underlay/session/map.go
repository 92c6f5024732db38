package session

import (
	"fmt"

	"underlay/drills/board"
	"underlay/scheduler"
)

// mapped shows a layer of a board, and how its strokes stand.
type mapped struct {
	at   int // which board
	view MapView
}

func (m *Model) toMap() {
	x := &mapped{}
	x.turn(m, 0, 0)
	m.push(x)
}

// turn shows another layer of a board.
func (x *mapped) turn(m *Model, at, layer int) {
	b := m.boardAt(at)
	if b == nil {
		return
	}
	layers := b.Layers()
	layer = (layer + len(layers)) % len(layers)
	x.at = at
	x.view = MapView{Board: b, Layers: layers, Layer: layer}
	whole := wholePicture(m.engraved(at))
	x.view.Keys = whole.under(layers[layer])
	counts := map[scheduler.State]int{}
	for i, l := range whole.of(layers[layer]) {
		if l.symbol == "" {
			continue
		}
		st := m.planner.Standing(at, l.symbol, m.now)
		counts[st.State]++
		x.view.Keys[i].Bar = bar(st)
	}
	for s := scheduler.Unmet; s <= scheduler.Fading; s++ {
		if counts[s] > 0 {
			x.view.Counts = append(x.view.Counts, Count{s, counts[s]})
		}
	}
}

// StateSign is what stands for a state on the map.
func StateSign(s scheduler.State) string {
	switch s {
	case scheduler.Building:
		return "◔"
	case scheduler.Steady:
		return "●"
	case scheduler.Fading:
		return "◌"
	}
	return "·"
}

// bar is the sign of a stroke's state, with its latency once there are tries enough.
func bar(st Standing) string {
	if st.State == scheduler.Unmet || st.Level.Tries < shownFrom {
		return StateSign(st.State)
	}
	return fmt.Sprintf("%s%.0f", StateSign(st.State), st.Level.MS)
}

func (x *mapped) key(m *Model, k Key) {
	switch k.Symbol {
	case board.ArrowRight, board.Space, "l", "n":
		x.turn(m, x.at, x.view.Layer+1)
	case board.ArrowLeft, "h", "p":
		x.turn(m, x.at, x.view.Layer-1)
	case "o":
		if n := len(m.planner.Boards()); n > 1 {
			x.turn(m, (x.at+1)%n, 0)
		}
	case board.Escape, board.Enter, "q", "m":
		m.back()
	case "Control+c":
		m.leave()
	}
}

func (x *mapped) show(m *Model, v *View) {
	v.Title = "map: " + board.Safe(x.view.Layers[x.view.Layer])
	v.Aside = fmt.Sprintf("%s, layer %d of %d", board.Safe(x.view.Board.Name), x.view.Layer+1, len(x.view.Layers))
	v.Map = &x.view
	v.Keys = append(v.Keys, Hint{"Space", "next layer"}, Hint{"p", "layer before"})
	if len(m.planner.Boards()) > 1 {
		v.Keys = append(v.Keys, Hint{"o", "other board"})
	}
	v.Keys = append(v.Keys, Hint{"Escape", "back"})
}

// shownFrom is how many tries a latency has to rest on before it is shown.
const shownFrom = 10
