package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"underlay/cmd/underlay/session"
	"underlay/drills"
	"underlay/drills/board"
)

// plain is a sitting line by line: for screen readers, pipes and slow links.
// It drives the same state machine as the screen. What a line cannot hold is
// told instead of drilled; errors and a line's time count, single latencies do
// not.
type plain struct {
	practice *practice
	model    *session.Model
	planner  *lineOnly
	in       *bufio.Reader
	out      io.Writer
	last     time.Time // of the latest event that the model got
	unsaved  error
	left     bool
	strokes  int // typed so far
}

// plainly runs the sitting line by line until its time is up or the input
// ends. With an empty input it shows what there is to do, and writes nothing.
func (p *practice) plainly() error {
	switch k := drills.Kind(p.wish.kind); k {
	case drills.Chord, drills.Navigation, drills.Unseen:
		return misuse("--kind %s: a line of input cannot hold such keys", k).hinted("practise them on a terminal, without --plain")
	}
	planner := &lineOnly{Planner: p.course}
	s := p.settings()
	s.Wrong = "wait" // what is wrong in a line is found when the line is there
	l := &plain{practice: p, planner: planner, in: bufio.NewReader(p.env.Stdin), out: p.env.Stdout, last: p.started}
	l.model = session.New(planner, session.Options{Session: sessionName(p.started), Settings: s, Now: p.started, Reports: true, Lines: true})
	l.head()
	l.send(session.Key{Symbol: board.Enter, At: l.last})
	for !l.left {
		if err := l.step(); err != nil {
			return err
		}
	}
	if l.unsaved != nil {
		return failure("not all was saved: %w", l.unsaved)
	}
	return nil
}

// head shows what is planned, and what to know before the first time.
func (l *plain) head() {
	v := l.model.View()
	fmt.Fprintf(l.out, "underlay, %s\n\n", board.Safe(v.Today.Board.Name))
	writePlan(l.out, v.Today.Plan, l.practice.env.width())
	if n := l.practice.notice(); n != "" {
		fmt.Fprintf(l.out, "\n  %s\n", board.Safe(n))
	}
	for i, line := range v.Today.Caution {
		if i == 0 {
			fmt.Fprintln(l.out)
		}
		fmt.Fprintln(l.out, "  "+line)
	}
	fmt.Fprintln(l.out, "\n  Type each line and press Enter. An empty line passes on; the end of input (Control+d) leaves.")
	fmt.Fprintln(l.out, "  Slips count, and the time of a line. Single keys have no times here: they come a line at a time.")
}

// step shows where the sitting is, and takes a line for it.
func (l *plain) step() error {
	v := l.view()
	if v.Notice.Text != "" {
		fmt.Fprintf(l.out, "\n%s\n", board.Safe(v.Notice.Text))
	}
	switch {
	case v.Drill != nil && v.Drill.Over == nil:
		return l.drill(v)
	case v.Drill != nil:
		l.say(v.Title, v.Drill.Over)
	case v.Rest != nil && !v.Rest.Between:
		writeRest(l.out, v.Rest)
		l.stop()
		return nil
	case v.Rest != nil:
		writeRest(l.out, v.Rest)
	case v.Page != nil:
		l.say(strings.TrimSuffix(v.Title+", "+v.Aside, ", "), v.Page.Lines)
	default:
		l.say(v.Title, []string{"This is shown on a screen only. Escape goes back."})
	}
	return l.choose(v.Keys)
}

// say prints text that is to be read.
func (l *plain) say(title string, lines []string) {
	fmt.Fprintf(l.out, "\n%s\n", title)
	for _, line := range lines {
		fmt.Fprintln(l.out, strings.TrimRight("  "+line, " "))
	}
}

// choose takes one of the keys that a place offers, by its name; a line without one
// of them is Enter.
func (l *plain) choose(keys []session.Hint) error {
	for _, k := range keys {
		if _, _, chord := board.Symbol(k.Key).Chord(); !chord && canBeNamed(k.Key) {
			fmt.Fprintf(l.out, "  %s: %s\n", k.Key, k.Does)
		}
	}
	text, err := l.line()
	if err != nil {
		return l.end(err)
	}
	key := board.Enter
	for _, k := range keys {
		if k.Key == strings.TrimSpace(text) {
			key = board.Symbol(k.Key)
		}
	}
	l.last = later(l.last, l.practice.env.Now())
	l.send(session.Key{Symbol: key, At: l.last})
	return nil
}

// view is what there is to show. A place that takes keys only after a moment, for
// fear that they were meant for the one before, has had that moment: lines are
// not typed by mistake.
func (l *plain) view() session.View {
	v := l.model.View()
	if v.Drill == nil || v.Drill.Over != nil {
		l.last = l.last.Add(session.Surprise)
		l.send(session.Tick{At: l.last})
		v = l.model.View()
	}
	return v
}

// drill shows a drill and grades the line that is typed for it.
func (l *plain) drill(v session.View) error {
	w := newWriting(v.Drill)
	fmt.Fprintf(l.out, "\n%s, %s\n\n  %s\n\n", v.Title, v.Aside, w.prompt())
	if v.Drill.Note != "" {
		fmt.Fprintf(l.out, "  %s\n\n", spokenWords(v.Drill.Note))
	}
	if strings.ContainsRune(w.prompt(), openBox) {
		fmt.Fprintf(l.out, "  %c stands for a space.\n", openBox)
	}
	l.tellWhere(v.Drill, w)
	shown := l.practice.env.Now() // the model's time may be ahead of it
	text, err := l.line()
	if err != nil {
		return l.end(err)
	}
	if text == "" {
		return l.pass()
	}
	if form, ok := equal(l.planner.drill, text); ok && v.Drill.Cursor == 0 {
		w = form
	}
	typed, near := w.feed(text)
	if !near {
		fmt.Fprintln(l.out, "  That is far from the line; nothing of it counts.")
		return l.pass()
	}
	took := l.practice.env.Now().Sub(shown)
	wrong := l.answer(typed, took)
	fmt.Fprintln(l.out, "  "+verdict(len(w.asked), wrong, took))
	return nil
}

// canBeNamed tells whether a key can be chosen by typing its name in a line.
func canBeNamed(key string) bool { return !strings.ContainsAny(key, " /?") }

// answer gives the model the symbols of a line, spread over the time that it
// took, and returns what went wrong in words.
func (l *plain) answer(symbols []board.Symbol, took time.Duration) []string {
	const least, most = 150 * time.Millisecond, 3 * time.Second // so that none looks like a held key, or like a pause
	each := min(max(took/time.Duration(max(1, len(symbols))), least), most)
	if gone := took - each*time.Duration(len(symbols)); gone > 0 {
		l.last = l.last.Add(gone)
		l.send(session.Tick{At: l.last})
	}
	var wrong []string
	for _, s := range symbols {
		if v := l.model.View(); v.Drill == nil || v.Drill.Over != nil {
			break
		}
		l.last = l.last.Add(each)
		l.send(session.Key{Symbol: s, At: l.last, Vague: true})
		wrong = append(wrong, l.slip(s)...)
		l.strokes++
	}
	return wrong
}

// slip says what was wrong with the symbol that was just sent, if anything.
func (l *plain) slip(sent board.Symbol) []string {
	v := l.model.View()
	switch {
	case v.Drill == nil || v.Drill.Slip == "":
		return nil
	case sent == nothing:
		return []string{"left out: " + v.Drill.Target.Label}
	}
	return []string{v.Drill.Slip}
}

// pass goes on to the next drill without an answer to this one.
func (l *plain) pass() error {
	l.last = later(l.last, l.practice.env.Now())
	l.send(session.Pass{At: l.last})
	return nil
}

// line reads a line of input, without its end. One that is far longer than any
// prompt is cut: it is a paste or a mistake.
func (l *plain) line() (string, error) {
	const longest = 2000
	var b strings.Builder
	for {
		part, more, err := l.in.ReadLine()
		if err != nil {
			return "", err
		}
		if room := longest - b.Len(); room > 0 {
			b.Write(part[:min(room, len(part))])
		}
		if !more {
			return strings.TrimRight(b.String(), "\r"), nil
		}
	}
}

// end leaves when the input has ended.
func (l *plain) end(err error) error {
	l.stop()
	if errors.Is(err, io.EOF) {
		return nil
	}
	return failure("read the input: %w", err)
}

func (l *plain) stop() {
	l.last = later(l.last, l.practice.env.Now())
	l.send(session.Stop{At: l.last})
	l.left = true
}

// send gives the model an event and does what it asks for.
func (l *plain) send(e session.Event) {
	for _, effect := range append([]session.Effect(nil), l.model.Update(e)...) {
		switch effect := effect.(type) {
		case session.Record:
			l.unsaved = l.practice.Record(effect)
			l.send(session.Saved{Err: l.unsaved, At: l.last})
		case session.Report:
			r := l.practice.Report(effect.Width)
			r.At = l.last
			l.send(r)
		case session.Configure:
			c := l.practice.Configure(effect)
			c.At = l.last
			l.send(c)
		case session.Leave:
			l.left = true
		}
	}
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}
