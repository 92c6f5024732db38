package session

import (
	"fmt"
	"time"

	"underlay/scheduler"
)

// show fills in the view of a drill.
func (d *drilling) show(m *Model, v *View) {
	w := &d.view
	w.Left = m.sitting.left()
	w.Cursor = d.grader.At()
	w.Slip = d.slip
	w.Over = nil
	w.Typed = w.Typed[:0]
	for _, t := range d.grader.Typed() {
		w.Typed = append(w.Typed, typedCell(t))
	}
	d.showTarget()
	w.Layer, w.Keys = d.picture.layer, d.picture.caps
	v.Drill = w
	v.Title = d.title()
	v.Aside = leftWords(w.Left)
	if s := d.symbol(); d.waitsLong(m) {
		v.Keys = append(v.Keys, Hint{string(keyFor(missing, s)), "this key never arrives"})
	}
	v.Keys = append(v.Keys, Hint{string(keyFor(pausing, d.symbol())), "pause"}, Hint{string(keyFor(leaving, d.symbol())), "leave"})
}

func (d *drilling) title() string {
	if d.stage == stageShow {
		return string(scheduler.NewStrokes) + ": shown first"
	}
	return string(d.task.Block)
}

func (d *drilling) showTarget() {
	ask, ok := d.grader.Asked()
	if !ok {
		d.view.Target = Target{}
		return
	}
	if d.view.Target.Symbol != ask.Symbol {
		d.view.Target = Target{Symbol: ask.Symbol, Label: label(ask.Symbol)}
	}
	d.view.Target.Words = ""
	if d.lit {
		d.view.Target.Words = d.board.Words(ask.Stroke)
	}
}

// waitsLong tells whether it is time to say how a key is reported that never arrives.
func (d *drilling) waitsLong(m *Model) bool { return m.now.Sub(d.last) >= neverAfter }

// neverAfter is how long a key may fail to come before the way out is told.
const neverAfter = 6 * time.Second

// leftWords says the time that is left, calmly: in minutes.
func leftWords(left time.Duration) string {
	switch n := int((left + 30*time.Second) / time.Minute); {
	case left < 30*time.Second:
		return "nearly done"
	case n <= 1:
		return "1 minute left"
	default:
		return fmt.Sprintf("%d minutes left", n)
	}
}
