package drills

import (
	"strings"
	"testing"
	"time"

	"underlay/drills/board"
)

// typist sends keys to a Grader, each some milliseconds after the one before.
type typist struct {
	*Grader
	now time.Time
	out Outcome
}

var noon = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)

func newTypist(t *testing.T, text string, how Treatment) *typist {
	t.Helper()
	b := load(t, "split-38")
	g := &Generator{board: b, asks: asks(b, Options{})}
	d := g.drill(Line, symbolsOf(text), true)
	if len(d.Keys) != len([]rune(text)) {
		t.Fatalf("%q cannot be typed on %s", text, b.Name)
	}
	return &typist{Grader: NewGrader(d, GraderOptions{Treatment: how, Board: b, Shown: noon}), now: noon}
}

// keys types a text; "<" is Backspace. Keys are 200 ms apart.
func (p *typist) keys(text string) *typist {
	for _, r := range text {
		s := board.SymbolOf(r)
		if r == '<' {
			s = board.Backspace
		}
		p.key(s, 200)
	}
	return p
}

func (p *typist) key(s board.Symbol, ms int) *typist {
	p.now = p.now.Add(time.Duration(ms) * time.Millisecond)
	p.out = p.Key(s, p.now)
	return p
}

func (p *typist) stands() string {
	var b strings.Builder
	for _, s := range p.Typed() {
		r, _ := s.Symbol.Rune()
		b.WriteRune(r)
	}
	return b.String()
}

// The published input stream "the quix<ck brown" (see TestRatesPublished),
// typed as at work, gives the published counts.
func TestInputStreamPublished(t *testing.T) {
	p := newTypist(t, "the quick brown", AsAtWork).keys("the quix<ck brown")
	f := p.Figures()
	if f.C != 15 || f.INF != 0 || f.IF != 1 || f.F != 1 {
		t.Errorf("C, INF, IF, F = %d, %d, %d, %d, want 15, 0, 1, 1", f.C, f.INF, f.IF, f.F)
	}
	near(t, "KSPC", f.KSPC(), 17.0/15, 1e-9)
	if !p.Done() {
		t.Error("the line is typed, and not done")
	}
}

// Under Wait the program mends: the definitions then have a wrong key as IF
// (in the input, not in the text), no editing key, and nothing not fixed.
func TestFiguresUnderWait(t *testing.T) {
	p := newTypist(t, "the quick", Wait).keys("the quixck")
	f := p.Figures()
	if f.C != 9 || f.INF != 0 || f.IF != 1 || f.F != 0 {
		t.Errorf("C, INF, IF, F = %d, %d, %d, %d, want 9, 0, 1, 0", f.C, f.INF, f.IF, f.F)
	}
	near(t, "total error rate", f.TotalErrorRate(), .1, 1e-9)
	near(t, "KSPC", f.KSPC(), 10.0/9, 1e-9)
}

// Backspace after a slip under Wait is habit: a keystroke (F), no slip.
func TestBackspaceUnderWait(t *testing.T) {
	p := newTypist(t, "abc", Wait).keys("ax<bc")
	f := p.Figures()
	if f.C != 3 || f.IF != 1 || f.F != 1 || len(p.Tries()) != 3 {
		t.Errorf("%+v with %d tries, want C 3, IF 1, F 1 and 3 tries", f, len(p.Tries()))
	}
}

// Speed counts from the first key to the last: 15 symbols in 14 gaps of
// 5/14 s are 33.6 words a minute (check of the definition in TestWPM).
func TestSpeedOfALine(t *testing.T) {
	p := newTypist(t, "the quick brown", Wait)
	p.key("t", 900)
	for _, r := range "he quick brown" {
		p.now = p.now.Add(5 * time.Second / 14)
		p.Key(board.SymbolOf(r), p.now)
	}
	near(t, "WPM", p.Figures().WPM(), 33.6, 1e-6)
}

func TestUncorrectedIsINF(t *testing.T) {
	tests := []struct {
		typed           string
		c, inf, wrongIF int
	}{
		{"abcdef", 6, 0, 0},
		{"abxdef", 5, 1, 0},  // one replaced
		{"abcxdef", 6, 1, 0}, // one too many: max(6,7)-1
		{"abdef", 5, 1, 0},   // one left out
		{"abdcef", 4, 2, 0},  // two exchanged
		{"abx<cdef", 6, 0, 1},
		{"axy<<bcdef", 6, 0, 2},
		{"abxd<<cdef", 6, 0, 2}, // the right d was taken back with the x
	}
	for _, c := range tests {
		p := newTypist(t, "abcdef", AsAtWork).keys(c.typed)
		f := p.Figures()
		if f.C != c.c || f.INF != c.inf || f.IF != c.wrongIF {
			t.Errorf("%s: C, INF, IF = %d, %d, %d, want %d, %d, %d", c.typed, f.C, f.INF, f.IF, c.c, c.inf, c.wrongIF)
		}
		if !p.Done() {
			t.Errorf("%s: not done", c.typed)
		}
	}
}

// One key too many, too few or exchanged is one slip and does not make the
// rest of the line wrong.
func TestAlignmentWhileTyping(t *testing.T) {
	for _, typed := range []string{"abcxdef", "abdef", "abdcef", "abxdef"} {
		p := newTypist(t, "abcdef", AsAtWork).keys(typed)
		wrong := 0
		for _, try := range p.Tries() {
			if try.Wrong {
				wrong++
			}
		}
		if wrong != 1 {
			t.Errorf("%s: %d slips, want 1", typed, wrong)
		}
	}
}

func TestTries(t *testing.T) {
	p := newTypist(t, "abcd", Wait)
	p.key("a", 500).key("x", 300).key("b", 400).key("c", 250)
	p.Help()
	p.key("d", 350)
	tries := p.Tries()
	if len(tries) != 4 {
		t.Fatalf("%d tries, want one a stroke", len(tries))
	}
	a, b, c, d := tries[0], tries[1], tries[2], tries[3]
	if !a.First || a.MS != 500 {
		t.Errorf("first: %+v, want First after 500 ms", a)
	}
	if !b.Wrong || b.MS != 300 || b.Lost != 400 || b.Got != "x" || b.Slip.Kind == "" {
		t.Errorf("slip: %+v, want wrong after 300 ms with 400 ms of repair", b)
	}
	if !c.AfterSlip || c.MS != 250 || c.Wrong {
		t.Errorf("after the slip: %+v, want AfterSlip with 250 ms", c)
	}
	if d.AfterSlip || !d.Helped || c.Helped {
		t.Errorf("helped: %+v, want Helped alone", d)
	}
}

// All time between the prompt and the last key is in MS or in Lost.
func TestTimeIsKept(t *testing.T) {
	for _, how := range []Treatment{Wait, AsAtWork} {
		p := newTypist(t, "abcdef", how)
		p.keys("abx<")
		p.key("c", 5000).keys("dd").Interrupt()
		p.key("e", 700).key("x", 40).key("x", 40).key("x", 30).keys("<f")
		sum := 0.0
		for _, try := range p.Tries() {
			sum += try.MS + try.Lost
		}
		near(t, how.String()+": time", sum, milliseconds(p.now.Sub(noon)), 1e-6)
	}
}

func TestNoLatency(t *testing.T) {
	p := newTypist(t, "abcd", Wait)
	p.key("a", 3500).key("b", 2900)
	p.Interrupt()
	p.key("c", 500).key("d", 300)
	for i, paused := range []bool{true, false, true, false} {
		try := p.Tries()[i]
		if try.Paused != paused || paused == (try.MS > 0) {
			t.Errorf("%s: paused %v with %v ms, want %v", try.Ask.Symbol, try.Paused, try.MS, paused)
		}
	}
	f := p.Figures()
	if f.Timed != 2 || f.Seconds != 3.2 {
		t.Errorf("%d symbols in %v s, want 2 in 3.2: pauses are left out", f.Timed, f.Seconds)
	}
}

func TestPromptUnseen(t *testing.T) {
	g := NewGrader(newTypist(t, "ab", Wait).Drill(), GraderOptions{})
	g.Key("a", noon)
	if try := g.Tries()[0]; !try.Paused || try.MS != 0 {
		t.Errorf("%+v: without the time of the prompt there is no latency", try)
	}
}

func TestHeldKey(t *testing.T) {
	for _, how := range []Treatment{Wait, AsAtWork} {
		p := newTypist(t, "abcd", how).key("a", 300)
		p.key("a", 500) // the first repetition: not to be told from a slip yet
		if !p.out.Wrong {
			t.Errorf("%v: %+v, want a wrong key", how, p.out)
		}
		p.key("a", 33).key("a", 33)
		if !p.out.Ignored || len(p.Tries()) != 1 || p.stands() != "a" {
			t.Errorf("%v: %d tries and %q, want the repetitions taken back", how, len(p.Tries()), p.stands())
		}
		p.keys("bcd")
		if f := p.Figures(); f.C != 4 || f.IF != 0 || f.INF != 0 {
			t.Errorf("%v: %+v, want four right", how, f)
		}
		if b := p.Tries()[1]; b.Wrong || !b.Paused || b.AfterSlip {
			t.Errorf("%v: %+v, want a right key without a latency", how, b)
		}
	}
}

// A rate of ten a second is known by the third of a kind.
func TestHeldKeySlowly(t *testing.T) {
	p := newTypist(t, "abcd", Wait).key("a", 300).key("a", 500).key("a", 100).key("a", 100).keys("bcd")
	for _, try := range p.Tries() {
		if try.Wrong {
			t.Errorf("%+v, want no slip", try)
		}
	}
}

// What was before an interruption has been taken over already, and stands.
func TestHeldKeyOverAnInterruption(t *testing.T) {
	p := newTypist(t, "abcd", Wait).key("a", 300).key("a", 500)
	before := len(p.Tries())
	p.Interrupt()
	if p.key("a", 33); len(p.Tries()) < before {
		t.Errorf("%d tries, want the %d from before", len(p.Tries()), before)
	}
}

// A key that bounces is no slip.
func TestBounce(t *testing.T) {
	p := newTypist(t, "abc", Wait).key("a", 300).key("a", 20)
	if !p.out.Ignored {
		t.Errorf("%+v, want it ignored", p.out)
	}
	if p.keys("bc"); p.Figures().IF != 0 || p.Tries()[1].Wrong {
		t.Errorf("%+v, want no slip", p.Figures())
	}
}

// What one too many explains is explained again after a Backspace.
func TestAlignmentAfterBackspace(t *testing.T) {
	p := newTypist(t, "abcdef", AsAtWork).keys("abxc<")
	if p.keys("c"); !p.out.Right {
		t.Errorf("%+v, want right: only x is one too many", p.out)
	}
	if p.keys("def"); !p.Done() || p.Figures().INF != 1 {
		t.Errorf("done %v, %+v", p.Done(), p.Figures())
	}
}

// A symbol that is asked for twice may come fast.
func TestDoubleSymbol(t *testing.T) {
	p := newTypist(t, "a==b", Wait).key("a", 300).key("=", 300).key("=", 30).key("b", 200)
	if !p.Done() || p.Tries()[2].Wrong {
		t.Errorf("at %d, %+v, want both taken", p.At(), p.Tries())
	}
}

func TestRepairIsGraded(t *testing.T) {
	p := newTypist(t, "abc", AsAtWork).keys("ax").key(board.Backspace, 450).keys("bc")
	tries := p.Tries()
	if len(tries) != 4 {
		t.Fatalf("%d tries, want 3 and the Backspace", len(tries))
	}
	r := tries[2]
	if !r.Repair || r.MS != 450 || r.Ask.Symbol != board.Backspace || len(r.Ask.Stroke.Keys) == 0 || !r.AfterSlip || r.Wrong {
		t.Errorf("repair: %+v", r)
	}
	if r.Lost != 200 {
		t.Errorf("typing it again took %v ms, want 200 lost", r.Lost)
	}
	if c := tries[3]; c.Ask.Symbol != "c" || c.Wrong || c.Repair {
		t.Errorf("after it: %+v", c)
	}
}

// Backspace where all is right takes back what was right, and is a slip.
func TestNeedlessBackspace(t *testing.T) {
	p := newTypist(t, "abc", AsAtWork).keys("ab<")
	if !p.out.Wrong || !p.out.Erased || p.stands() != "a" || p.At() != 1 {
		t.Errorf("%+v, %q stands, at %d; want b taken back", p.out, p.stands(), p.At())
	}
	p.keys("bc")
	if !p.Done() || len(p.Tries()) != 3 {
		t.Errorf("done %v with %d tries", p.Done(), len(p.Tries()))
	}
}

func TestEndOfALineAtWork(t *testing.T) {
	p := newTypist(t, "abc", AsAtWork).keys("abx")
	if ask, ok := p.Asked(); p.Done() || !ok || ask.Symbol != board.Backspace {
		t.Errorf("done %v, asked %v: a wrong symbol at the end can be mended", p.Done(), ask.Symbol)
	}
	mended := newTypist(t, "abc", AsAtWork).keys("abx<c")
	left := newTypist(t, "abc", AsAtWork).keys("abx\n")
	if !mended.Done() || !left.Done() {
		t.Errorf("mended %v, left %v: want both done", mended.Done(), left.Done())
	}
	if f := left.Figures(); f.INF != 1 || f.C != 2 {
		t.Errorf("left as it is: %+v, want INF 1", f)
	}
	if out := left.Key("a", left.now); !out.Ignored || !out.Done {
		t.Errorf("%+v after the end, want it ignored", out)
	}
}

// What adds nothing to a text does not stand.
func TestNamedKeyAtWork(t *testing.T) {
	p := newTypist(t, "ab", AsAtWork).key("a", 200).key(board.Escape, 200)
	if !p.out.Wrong || p.stands() != "a" || p.At() != 1 {
		t.Errorf("%+v, %q stands", p.out, p.stands())
	}
	if p.key("b", 200); !p.Done() {
		t.Error("not done")
	}
}

func TestSwitchAndSameFinger(t *testing.T) {
	p := newTypist(t, "a(de", Wait).keys("a(de")
	for i, want := range []struct{ layer, finger bool }{{false, false}, {true, false}, {true, false}, {false, true}} {
		try := p.Tries()[i]
		if try.Switch != want.layer || try.SameFinger != want.finger {
			t.Errorf("%s: switch %v, same finger %v, want %v", try.Ask.Symbol, try.Switch, try.SameFinger, want)
		}
	}
}

func TestEqualForms(t *testing.T) {
	b := load(t, "split-38")
	g := &Generator{board: b, asks: asks(b, Options{})}
	d := g.drill(Motion, symbolsOf("Dx"), false)
	long := g.drill(Motion, symbolsOf("d$"), false)
	d.Also = []Form{{At: 0, Len: 1, Prompt: long.Prompt, Keys: long.Keys}}
	for _, typed := range []string{"Dx", "d$x"} {
		p := &typist{Grader: NewGrader(d, GraderOptions{Board: b, Shown: noon}), now: noon}
		p.keys(typed)
		if f := p.Figures(); !p.Done() || f.IF != 0 || f.C != len(typed) {
			t.Errorf("%s: done %v, %+v", typed, p.Done(), f)
		}
		if got := p.Drill().String(); got != typed {
			t.Errorf("%s: the drill is now %s", typed, got)
		}
	}
	two := g.drill(Motion, symbolsOf("DxDx"), false)
	two.Also = []Form{{At: 0, Len: 1, Prompt: long.Prompt, Keys: long.Keys}, {At: 2, Len: 1, Prompt: long.Prompt, Keys: long.Keys}}
	p2 := &typist{Grader: NewGrader(two, GraderOptions{Board: b, Shown: noon}), now: noon}
	if p2.keys("d$xd$x"); !p2.Done() || p2.Figures().IF != 0 {
		t.Errorf("both by their long form: done %v, %+v", p2.Done(), p2.Figures())
	}
	if d.String() != "Dx" || len(d.Also) != 1 {
		t.Errorf("the drill itself became %s", d)
	}
	p := &typist{Grader: NewGrader(d, GraderOptions{Board: b, Shown: noon}), now: noon}
	if p.keys("dx"); !p.out.Wrong {
		t.Errorf("d then x: %+v, want wrong", p.out)
	}
}
