package capture

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"underlay/drills/board"
)

// person presses keys on a capture, with a clock of its own.
type person struct {
	*Capture
	t       *testing.T
	now     time.Time
	effects []Effect
}

func sit(t *testing.T, c *Capture) *person {
	p := &person{Capture: c, t: t, now: time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)}
	p.wait(0)
	return p
}

func (p *person) press(keys ...board.Symbol) {
	for _, k := range keys {
		p.now = p.now.Add(300 * time.Millisecond)
		p.effects = p.Update(Key{Symbol: k, At: p.now})
	}
}

func (p *person) wait(d time.Duration) {
	p.now = p.now.Add(d)
	p.effects = p.Update(Tick{At: p.now})
}

// write types a line and enters it.
func (p *person) write(text string) {
	for _, r := range text {
		p.press(board.SymbolOf(r))
	}
	p.press(board.Enter)
}

// silent tells what a key that sends nothing does.
func (p *person) silent(text string) {
	p.wait(Reading)
	p.wait(Surprise)
	p.write(text)
}

// saved returns the board that was last asked to be saved.
func (p *person) save() (Save, *board.Board) {
	p.t.Helper()
	for _, e := range p.effects {
		if s, ok := e.(Save); ok {
			b, found := board.Read(s.Name+".toml", s.Source)
			if b == nil {
				p.t.Fatalf("%v\n%s", found.Err(), s.Source)
			}
			return s, b
		}
	}
	p.t.Fatalf("nothing to be saved in %v; %s", p.effects, p.View().Wrong)
	return Save{}, nil
}

// small sets a board of eight keys up: two rows of two, one thumb key a side
// would be six; here split 2x2+1 has ten keys.
func small(t *testing.T) *person {
	p := sit(t, New())
	p.write("split 2x2+1")
	p.write("tiny")
	p.write("de")
	if v := p.View(); v.Stage != Pressing || v.Total != 10 || v.Wrong != "" {
		t.Fatalf("%+v", v)
	}
	return p
}

func TestCaptureWritesABoard(t *testing.T) {
	p := small(t)
	p.press("q", "w", "u", "i", "a", "s", "j", "k")
	p.press(board.Space)
	p.silent("Shift")
	// Space does something else when held.
	p.press(board.Space, board.Enter)
	p.write("marks:hold")
	p.press(board.Enter)
	if v := p.View(); v.Title != "layer marks" {
		t.Fatalf("%+v", v)
	}
	p.press("(", ")", board.ArrowLeft, "Control+w", "a")
	p.silent("<pair-1>")
	p.silent("")
	p.silent("rest")
	if v := p.View(); v.Stage != Review || v.Found.Err() != nil {
		t.Fatalf("%+v", v)
	}
	p.press(board.Enter)
	s, b := p.save()
	want := `name      = "tiny"
os-layout = "de"

[shape]
kind = "split"

[[layer]]
name = "base"
keys = '''
  q                w                || u                i
  a                s                || j                k
                   Space/marks:hold || Shift
'''

[[layer]]
name = "marks"
keys = '''
  (         )         || ArrowLeft Control+w
  ..        <pair-1>  || --        ..
            --        || ..
'''
`
	if string(s.Source) != want || s.Over {
		t.Errorf("got\n%swant\n%s", s.Source, want)
	}
	if st, ok := b.Drilled("("); !ok || st.String() != "r3c1:hold r1c1" {
		t.Errorf("( by %s", st)
	}
	p.effects = p.Update(Saved{})
	if len(p.effects) != 1 || p.effects[0].(Keep).State != nil || p.View().Stage != Finished {
		t.Errorf("%v %+v", p.effects, p.View())
	}
}

// TestCaptureOfEveryEmbeddedBoard presses what each key of an embedded board
// sends, layer by layer, and gets strokes for the same symbols. Layers come in
// the order of the file; what opens them is told.
func TestCaptureOfEveryEmbeddedBoard(t *testing.T) {
	for _, name := range []string{"split-34", "split-38", "split-42", "split-56", "grid-48"} {
		b, err := board.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		p := sit(t, New())
		p.write(name)
		p.write("again")
		p.write("us")
		for range b.Layers() {
			pressLayer(p, b)
			finishHolds(p, b)
		}
		if p.Stage == Joining {
			if name == "split-38" {
				p.write("functions = marks + cursor")
				pressLayer(p, b)
			}
			p.press(board.Enter)
		}
		if p.Stage != Review {
			t.Fatalf("%s: %+v", name, p.View())
		}
		p.press(board.Enter)
		_, again := p.save()
		for _, s := range b.Symbols() {
			if _, key, chord := s.Chord(); chord && key.IsCharacter() {
				continue
			}
			if x, ok := again.Drilled(s); !ok && len(b.Combos()) == 0 {
				t.Errorf("%s: %s is lost", name, s)
			} else if y, _ := b.Drilled(s); ok && !x.Equal(y) && len(b.Combos()) == 0 {
				t.Errorf("%s: %s by %s, was %s", name, s, x, y)
			}
		}
	}
}

func pressLayer(p *person, b *board.Board) {
	layer := p.Layers[p.Layer].Name
	for p.Stage == Pressing && !p.left && p.Layers[p.Layer].Name == layer {
		k := p.keys[p.At]
		s, ok := b.Gives(layer, k.Position)
		l := b.Legend(layer, k.Position)
		before := p.At
		switch {
		case ok && !s.Unseen():
			p.press(s)
		case l.Through && p.Layer > 0:
			p.silent("..")
		case l.Hold != "" && l.Tap == "" && !board.Symbol(l.Hold).IsModifier():
			p.silent(l.Hold + ":hold")
		case l.Hold != "" && l.Tap == "":
			p.silent(l.Hold)
		case ok:
			p.silent(string(s))
		case strings.Contains(l.Tap, " "):
			p.silent(strings.Replace(l.Tap, " ", ":", 1))
		default:
			p.silent("")
		}
		if p.Stage == Pressing && p.At == before && p.Layers[p.Layer].Name == layer {
			p.t.Fatalf("stuck at %s of %s: %+v", k.Position, layer, p.View())
		}
	}
}

func finishHolds(p *person, b *board.Board) {
	if p.Stage != Holding {
		return
	}
	base := b.Layers()[0]
	for _, k := range b.Keys() {
		l := b.Legend(base, k.Position)
		s, ok := b.Gives(base, k.Position)
		if !ok || l.Hold == "" {
			continue
		}
		switch {
		case s == board.Enter || s == board.Backspace:
			p.write(string(s))
		default:
			p.press(s, board.Enter)
		}
		if board.Symbol(l.Hold).IsModifier() {
			p.write(l.Hold)
		} else {
			p.write(l.Hold + ":hold")
		}
	}
	p.press(board.Enter)
}

func TestTakingBack(t *testing.T) {
	p := small(t)
	p.press("q", "x")
	p.wait(Moment)
	p.wait(Surprise)
	p.press(board.Backspace)
	if v := p.View(); v.Done != 1 || !v.Keys[1].Lit {
		t.Fatalf("%+v", v)
	}
	p.press("w")
	p.wait(Moment)
	p.wait(Surprise)
	p.write("back")
	p.press("W")
	if got := p.Layers[0].Entries[:2]; !slices.Equal(got, []string{"q", "W"}) {
		t.Errorf("%v", got)
	}
}

func TestNothingRunsOnWhileAway(t *testing.T) {
	p := small(t)
	p.press("q")
	for range 100 {
		p.wait(time.Minute)
	}
	if v := p.View(); v.Done != 1 || !v.Open || v.Line != "" {
		t.Errorf("%+v", v)
	}
}

func TestALineIsTakenWithoutEnterInTheEnd(t *testing.T) {
	p := small(t)
	p.wait(Reading)
	p.wait(Surprise)
	for _, r := range "Control" {
		p.press(board.SymbolOf(r))
	}
	p.wait(Patience)
	if p.Layers[0].Entries[0] != "Control" || p.At != 1 {
		t.Errorf("%v", p.Layers[0].Entries)
	}
	p.wait(Moment)
	p.wait(Surprise)
	for _, r := range "Contr" {
		p.press(board.SymbolOf(r))
	}
	p.wait(Patience)
	if p.At != 1 {
		t.Errorf("half a word was taken: %v", p.Layers[0].Entries)
	}
}

func TestSlowKeysAreTakenAllTheSame(t *testing.T) {
	p := small(t)
	p.wait(Reading)
	p.press(board.ArrowLeft)
	p.wait(Moment)
	p.wait(Surprise)
	p.write("x")
	if got := p.Layers[0].Entries[:2]; !slices.Equal(got, []string{"ArrowLeft", "x"}) {
		t.Errorf("%v", got)
	}
}

// A key that was on its way when the line opened is the lit one's.
func TestAKeyOnItsWayIsTheLitOnes(t *testing.T) {
	p := small(t)
	p.wait(Reading)
	p.press("x") // 300 ms after the line has opened
	p.press("y")
	if got := p.Layers[0].Entries[:2]; !slices.Equal(got, []string{"x", "y"}) || p.View().Open {
		t.Errorf("%v, open %v", got, p.View().Open)
	}
}

// The first key of a layer waits until the screen is read; one after it may be
// silent, and is asked for sooner.
func TestTheFirstKeyOfALayerWaitsLonger(t *testing.T) {
	p := small(t)
	p.wait(2 * Moment)
	if p.View().Open {
		t.Error("the line opened while the screen was read")
	}
	p.press("q")
	p.wait(Moment)
	if !p.View().Open {
		t.Error("the line did not open for a silent key")
	}
}

func TestWrongWordsAreTold(t *testing.T) {
	p := small(t)
	p.silent("Contrl")
	if v := p.View(); !strings.Contains(v.Wrong, "did you mean Control?") || v.Done != 0 {
		t.Errorf("%q", v.Wrong)
	}
	p.write("..")
	if v := p.View(); !strings.Contains(v.Wrong, "nothing under it") {
		t.Errorf("%q", v.Wrong)
	}
}

func TestWhatATerminalCannotTellIsSaid(t *testing.T) {
	p := small(t)
	p.press(board.Tab)
	if v := p.View(); !strings.Contains(v.Note, "cannot tell it from Control+i") {
		t.Errorf("%q", v.Note)
	}
}

func TestControlCLeavesOnTheSecondTime(t *testing.T) {
	p := small(t)
	p.press("Control+c")
	if v := p.View(); v.Done != 1 || !strings.Contains(v.Note, "once more leaves") {
		t.Fatalf("%+v", v)
	}
	p.press("Control+c")
	if len(p.effects) != 2 || p.effects[1] != (Leave{}) || p.Layers[0].Entries[0] != "" {
		t.Errorf("%v %v", p.effects, p.Layers[0].Entries)
	}
}

func TestAFileIsNotWrittenOverUnasked(t *testing.T) {
	p := small(t)
	p.silent("rest")
	p.press(board.Enter, board.Enter)
	s, _ := p.save()
	if s.Over || s.Name != "tiny" {
		t.Fatalf("%+v", s)
	}
	p.effects = p.Update(Exists{})
	if v := p.View(); v.Stage != Over || !strings.Contains(v.Title, "tiny") {
		t.Fatalf("%+v", v)
	}
	p.write("other")
	if s, _ := p.save(); s.Over || s.Name != "other" {
		t.Errorf("%+v", s)
	}
	p.effects = p.Update(Exists{})
	p.write("yes")
	if s, _ := p.save(); !s.Over || s.Name != "other" {
		t.Errorf("%+v", s)
	}
	p.effects = p.Update(Saved{Err: errors.New("disk full")})
	if v := p.View(); v.Stage != Review || !strings.Contains(v.Wrong, "disk full") {
		t.Errorf("%+v", v)
	}
}

func TestDefaultsServeWhenEnterIsJustPressed(t *testing.T) {
	p := sit(t, New())
	p.press(board.Enter, board.Enter, board.Enter)
	if v := p.View(); v.Stage != Pressing || p.Name != defaultName || p.Layout != "us" || v.Total < 30 {
		t.Errorf("%+v", v)
	}
}

// A board for one hand is written so that it is read as one.
func TestCaptureOfOneHand(t *testing.T) {
	for shape, hand := range map[string]board.Hand{"left 2x3+1": board.Left, "right 2x3+1": board.Right} {
		p := sit(t, New())
		p.write(shape)
		p.press(board.Enter, board.Enter)
		p.press("q", "w", "e", "a", "s", "d", board.Space)
		p.press(board.Enter, board.Enter)
		_, b := p.save()
		for _, k := range b.Keys() {
			if k.Hand != hand {
				t.Errorf("%s: %s is for the %s hand\n%s", shape, k.Position, k.Hand, b.Source())
			}
		}
		if len(b.Keys()) != 7 {
			t.Errorf("%s has %d keys", shape, len(b.Keys()))
		}
	}
}

func TestShapesAreRefusedWithAReason(t *testing.T) {
	for _, text := range []string{"split 0x6", "split 9x9", "round 3x3", "split 3x3+3", "ortholinear 4x", "split 3x99"} {
		p := sit(t, New())
		p.write(text)
		if v := p.View(); v.Stage != Shape || v.Wrong == "" {
			t.Errorf("%q: %+v", text, v)
		}
	}
}

// TestResumeAnywhere leaves a capture after any number of keys and goes on from
// what was kept: the board is the same.
func TestResumeAnywhere(t *testing.T) {
	play := func(cut int) string {
		p := sit(t, New())
		n := 0
		step := func(f func()) {
			if n == cut && p.Stage != Shape {
				c, err := Resume(p.keep().State)
				if err != nil {
					t.Fatal(err)
				}
				p.Capture = c
				p.wait(0)
			}
			n++
			f()
		}
		step(func() { p.write("split 2x2+1") })
		step(func() { p.write("tiny") })
		step(func() { p.write("us") })
		for _, s := range "qwuiasjk" {
			step(func() { p.press(board.SymbolOf(s)) })
		}
		step(func() { p.silent("one:hold") })
		step(func() { p.press(board.Space) })
		step(func() { p.press(board.Enter) })
		for _, s := range "1234" {
			step(func() { p.press(board.SymbolOf(s)) })
		}
		step(func() { p.silent("rest") })
		step(func() { p.press(board.Enter) })
		s, _ := p.save()
		return string(s.Source)
	}
	want := play(-1)
	for cut := range 20 {
		if got := play(cut); got != want {
			t.Errorf("left at step %d:\n%s", cut, got)
		}
	}
}

func TestDamagedStatesAreRefused(t *testing.T) {
	p := small(t)
	p.press("q", "w")
	good := p.keep().State
	for _, bad := range []string{"", "{", `{"Version":2}`, strings.Replace(string(good), `"At":2`, `"At":200`, 1),
		strings.Replace(string(good), `"q"`, `"q q"`, 1), strings.Replace(string(good), `"Layer":0`, `"Layer":-1`, 1)} {
		if c, err := Resume([]byte(bad)); err == nil || c != nil {
			t.Errorf("%s: resumed", bad)
		}
	}
}

// TestAnyKeysInAnyOrder: whatever is pressed, there is something to show, the
// kept state can be gone on with, and the file keeps its form.
func TestAnyKeysInAnyOrder(t *testing.T) {
	keys := []board.Symbol{"a", "(", "'", "<", "é", "漢", "\u0301", board.Space, board.Enter, board.Backspace, board.Tab, board.Escape, board.ArrowDown,
		"Control+w", "Control+c", "F5", "x", ":", "m"}
	lines := []string{"rest", "back", "one:hold", "one:lock", "Shift", "--", "..", "two = one + base", "x/one:hold", "yes", "leave", "split 3x3+1", "base"}
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 7))
		p := sit(t, New())
		for range 80 {
			switch r.IntN(6) {
			case 0:
				p.wait(Moment)
			case 1:
				p.write(lines[r.IntN(len(lines))])
			case 2:
				p.wait(Patience)
			default:
				p.press(keys[r.IntN(len(keys))])
			}
			v := p.View()
			for _, text := range []string{v.Title, v.Ask, v.Line, v.Note, v.Wrong} {
				if board.Safe(text) != text {
					t.Fatalf("seed %d: %q", seed, text)
				}
			}
			if v.Title == "" || v.Ask == "" {
				t.Fatalf("seed %d: nothing to show at %s", seed, v.Stage)
			}
			if p.Stage != Shape {
				if _, err := Resume(p.keep().State); err != nil {
					t.Fatalf("seed %d: %v\n%s", seed, err, p.keep().State)
				}
			}
			if p.left {
				break
			}
		}
		if p.Frame.count() > 0 && p.Name != "" {
			if _, found := board.Read("any.toml", p.Source()); strings.Contains(fmt.Sprint(found.Err()), "TOML") {
				t.Fatalf("seed %d: %v\n%s", seed, found.Err(), p.Source())
			}
		}
	}
}
