package session

import (
	"fmt"
	"time"

	"underlay/drills"
	"underlay/drills/board"
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
	v.Aside = d.leftWords()
	ask := d.ask()
	if d.waitsLong(m) {
		v.Keys = append(v.Keys, Hint{keyFor(missing, ask, d.board), "this key never arrives"})
	}
	v.Keys = append(v.Keys, Hint{keyFor(pausing, ask, d.board), "pause"}, Hint{keyFor(leaving, ask, d.board), "leave"})
}

func (d *drilling) title() string {
	switch d.stage {
	case stageShow:
		return string(scheduler.NewStrokes) + ": shown first"
	case stageAlone:
		return string(scheduler.NewStrokes) + ": alone"
	}
	return string(d.task.Block)
}

func (d *drilling) showTarget() {
	ask, ok := d.grader.Asked()
	if !ok {
		d.view.Target = Target{}
		return
	}
	if d.view.Target.Symbol != ask.Symbol || d.view.Cursor != d.told {
		d.told = d.view.Cursor
		d.view.Target = Target{Symbol: ask.Symbol, Label: label(ask.Symbol)}
	}
	switch t := &d.view.Target; {
	case !d.lit:
		t.Words = ""
	case t.Words == "":
		t.Words = strokeWords(d.board, ask)
	}
}

// strokeWords says in words how a stroke is made. Of a key that no program sees
// the position is pressed without the hold.
func strokeWords(b *board.Board, a drills.Ask) string {
	if a.Answer != "" {
		return b.KeyWords(a.Stroke.Final().Position) + ", without a hold"
	}
	return b.Words(a.Stroke)
}

// waitsLong tells whether it is time to say how a key is reported that never arrives.
func (d *drilling) waitsLong(m *Model) bool { return m.now.Sub(d.last) >= neverAfter }

// neverAfter is how long a key may fail to come before the way out is told.
const neverAfter = 6 * time.Second

// leftWords says the time that is left; the words are kept while they hold.
func (d *drilling) leftWords() string {
	if n := roundMinutes(d.view.Left); d.left == "" || n != d.leftFor {
		d.left, d.leftFor = leftWords(d.view.Left), n
	}
	return d.left
}

// roundMinutes is 0 when a sitting is nearly done.
func roundMinutes(left time.Duration) int { return int((left + 30*time.Second) / time.Minute) }

// leftWords says the time that is left, calmly: in minutes.
func leftWords(left time.Duration) string {
	switch n := roundMinutes(left); n {
	case 0:
		return "nearly done"
	case 1:
		return "1 minute left"
	default:
		return fmt.Sprintf("%d minutes left", n)
	}
}
