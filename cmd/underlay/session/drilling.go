package session

import (
	"strings"
	"time"

	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
)

// idle is the time without a key after which a drill pauses by itself.
const idle = 30 * time.Second

// drilling is one drill under way.
type drilling struct {
	task   Task
	board  *board.Board
	grader *drills.Grader
	begun  time.Time // when the drill appeared
	asked  time.Time // when what is asked for now was first waited for
	last   time.Time // the latest key, or when the drill went on after a break

	known    []Standing // of each ask, when the drill began
	lit      bool       // the stroke is shown
	recorded int        // tries that are on the journal already
	slip     string
	stage    stage
	picture  picture
	view     DrillView
	told     int    // the cursor that view.Target is for
	left     string // the time that is left, in words
	leftFor  int    // the minutes that they say
}

func (m *Model) newDrilling(t Task) *drilling {
	d := &drilling{task: t, board: m.boardAt(t.Board), stage: firstStage(t)}
	d.picture = newPicture(m, t.Board, d.unaided())
	d.open(m)
	return d
}

// unaided tells whether the picture is kept away until it is needed.
func (d *drilling) unaided() bool {
	return d.task.Block == scheduler.Probe || d.task.Drill.Kind == drills.Probe
}

// open starts the drill of the present stage.
func (d *drilling) open(m *Model) {
	drill := d.stage.drill(d.task)
	d.grader = drills.NewGrader(drill, drills.GraderOptions{
		Treatment: m.treatment(drill.Kind), Board: d.board, Other: m.otherThan(d.task.Board), Shown: m.now,
	})
	d.begun, d.last, d.recorded, d.slip = m.now, m.now, 0, ""
	d.view = DrillView{Block: d.task.Block, Board: d.board, Note: strings.Join(drill.Notes, " · ")}
	d.read(m)
	d.await(m)
}

// read takes over what the drill asks for. It may change under way, when an
// equal form is begun.
func (d *drilling) read(m *Model) {
	drill := d.grader.Drill()
	d.view.Prompt = cellsOf(drill)
	d.known = d.known[:0]
	for _, k := range drill.Keys {
		d.known = append(d.known, m.planner.Standing(d.task.Board, k.Symbol, d.begun))
	}
}

// treatment returns what a wrong key does in a kind of drill.
func (m *Model) treatment(k drills.Kind) drills.Treatment {
	switch m.settings.Wrong {
	case "wait":
		return drills.Wait
	case "as-at-work":
		return drills.AsAtWork
	}
	if k == drills.OwnLine || k == drills.Probe {
		return drills.AsAtWork
	}
	return drills.Wait
}

// await turns to the stroke that is asked for now.
func (d *drilling) await(m *Model) {
	d.asked, d.lit = m.now, false
	if ask, ok := d.grader.Asked(); ok {
		d.lit = !d.unaided() && d.shown(d.standing().State)
		if d.lit && d.standing().State == scheduler.Unmet {
			d.grader.Help()
		}
		d.picture.point(ask, d.lit)
	}
}

// shown tells whether a stroke in a state is shown before anybody hesitates.
func (d *drilling) shown(s scheduler.State) bool { return s != scheduler.Steady }

func (d *drilling) standing() Standing {
	if i := d.grader.At(); i < len(d.known) {
		return d.known[i]
	}
	return Standing{}
}

func (d *drilling) symbol() board.Symbol {
	return d.ask().Symbol
}

// ask is what is asked for; the zero Ask at the end.
func (d *drilling) ask() drills.Ask {
	ask, _ := d.grader.Asked()
	return ask
}

// awaited is the symbol that has to arrive: what is asked for, or, where no
// program sees that, what answers for it.
func (d *drilling) awaited() board.Symbol {
	return d.ask().Arrives()
}

func (d *drilling) key(m *Model, k Key) {
	switch commandOf(k.Symbol, d.ask(), d.board) {
	case pausing:
		m.pause("")
	case leaving:
		m.leave()
	case stopping:
		d.away(m, "")
		m.do(Suspend{})
	case missing:
		m.keepOut(d.symbol())
	default:
		d.answer(m, k)
	}
}

// answer takes a key as what was typed.
func (d *drilling) answer(m *Model, k Key) {
	d.spend(m)
	m.steps.add(k.At)
	if k.Vague {
		d.grader.Interrupt()
	}
	first, then := heard(k.Symbol, d.awaited())
	d.take(m, first, k.At)
	if then != "" && !d.grader.Done() {
		d.grader.Interrupt() // both came as one
		d.take(m, then, k.At)
	}
	if d.grader.Done() && m.place() == place(d) {
		d.close(m)
	}
}

// take gives one symbol to the grader and shows what became of it.
func (d *drilling) take(m *Model, s board.Symbol, at time.Time) {
	before := d.grader.At()
	out := d.grader.Key(s, at)
	if out.Ignored {
		return
	}
	d.slip = ""
	if out.Wrong {
		d.slip = out.Slip.Words()
	}
	m.mixup(d, s, out.Slip)
	if len(d.task.Drill.Also) > 0 {
		d.read(m)
	}
	switch {
	case d.grader.At() != before:
		d.await(m)
	case out.Wrong:
		d.help(m) // the try is over, so that showing the stroke does no harm
	}
}

// help shows the stroke that is asked for.
func (d *drilling) help(m *Model) {
	ask, ok := d.grader.Asked()
	if !ok || d.lit {
		return
	}
	d.lit = true
	d.grader.Help()
	d.picture.point(ask, true)
}

// spend counts the time since the last key as practised, a long gap as a short one.
func (d *drilling) spend(m *Model) {
	m.sitting.used += min(max(0, m.now.Sub(d.last)), drills.LongPause)
	d.last = m.now
}

// close goes on after the last stroke of the drill.
func (d *drilling) close(m *Model) {
	d.record(m)
	if next := d.stage.next(d.task); next != stageOver {
		d.stage = next
		d.open(m)
		return
	}
	if !m.careFor() {
		m.advance()
	}
}

// away stops the clock: what is waited for has no latency.
func (d *drilling) away(m *Model, why string) {
	d.spend(m)
	d.grader.Interrupt()
	m.pause(why)
	m.interrupt()
}

// goOn continues after a pause.
func (d *drilling) goOn(m *Model) {
	if d.grader.Done() {
		d.close(m)
		return
	}
	d.grader.Interrupt()
	d.asked, d.last = m.now, m.now
}

// tick shows what is hesitated over, and pauses when nobody is there.
func (d *drilling) tick(m *Model) {
	if m.o.Lines {
		return
	}
	if m.now.Sub(d.last) >= idle {
		d.away(m, "No key for a while. Nothing of that time counts.")
		return
	}
	if !d.lit && m.now.Sub(d.asked) >= d.patience() {
		d.help(m)
	}
}

// wake is when the next of these comes due.
func (d *drilling) wake(m *Model) time.Time {
	at := d.last.Add(idle)
	if never := d.last.Add(neverAfter); m.now.Before(never) {
		at = never
	}
	if h := d.asked.Add(d.patience()); !d.lit && h.Before(at) {
		at = h
	}
	return at
}

// patience is how long a hesitation lasts before the stroke is shown: two and
// a half times what this person usually takes for it, within reason.
func (d *drilling) patience() time.Duration {
	ms := d.standing().Level.MS
	p := time.Duration(2.5 * ms * float64(time.Millisecond))
	p = min(max(p, 900*time.Millisecond), 4*time.Second)
	if d.unaided() {
		p *= 2
	}
	return p
}
