package session_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"underlay/cmd/underlay/session"
	"underlay/cmd/underlay/session/sessiontest"
	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
	"underlay/scheduler/journal"
)

// trial is a sitting driven by hand: it saves what it is asked to, or fails to.
type trial struct {
	*testing.T
	m       *session.Model
	p       *sessiontest.Planner
	at      time.Time
	saved   []journal.Drill
	fail    error // of every save
	left    bool
	stopped int
	set     []session.Settings
	boards  []*board.Board // of saved
	layout  string         // asked for with the last of them
}

func start(t *testing.T, p *sessiontest.Planner) *trial {
	s := session.Settings{Minutes: 8, Boards: []string{"trial-42"}, Aim: "speed", Colours: "auto", Wrong: "auto",
		AllBoards: []session.Choice{{Name: "ansi-61"}, {Name: "trial-42"}}, Mix: []session.Weight{{Table: "go", Share: 1}}, AllTables: []string{"go"}}
	return &trial{T: t, p: p, at: sessiontest.Noon(), m: session.New(p, session.Options{Session: "s1", Settings: s, Reports: true, Now: sessiontest.Noon()})}
}

func (x *trial) send(e session.Event) {
	for _, effect := range append([]session.Effect(nil), x.m.Update(e)...) {
		switch e := effect.(type) {
		case session.Record:
			if x.fail == nil {
				x.saved, x.boards = append(x.saved, e.Drill), append(x.boards, e.Board)
			}
			x.send(session.Saved{Err: x.fail, At: x.at})
		case session.Configure:
			x.set, x.layout = append(x.set, e.Settings), e.Layout
		case session.Suspend:
			x.stopped++
		case session.Leave:
			x.left = true
		}
	}
}

// after sends a key that comes some ms after the last event.
func (x *trial) after(ms int, k board.Symbol) {
	x.at = x.at.Add(time.Duration(ms) * time.Millisecond)
	x.send(session.Key{Symbol: k, At: x.at})
}

func (x *trial) press(keys ...board.Symbol) {
	for _, k := range keys {
		x.after(200, k)
	}
}

func (x *trial) text(s string) {
	for _, r := range s {
		x.press(board.SymbolOf(r))
	}
}

// settle waits until keys are no longer taken for ones that were on their way.
func (x *trial) settle() { x.at = x.at.Add(time.Second) }

func (x *trial) wait(d time.Duration) {
	x.at = x.at.Add(d)
	x.send(session.Tick{At: x.at})
}

func (x *trial) title(want string) {
	x.Helper()
	if got := x.m.View().Title; got != want {
		x.Fatalf("the sitting is at %q, want %q", got, want)
	}
}

func one(t *testing.T, tasks ...session.Task) *sessiontest.Planner {
	return &sessiontest.Planner{On: []*board.Board{sessiontest.Trial(t)}, Known: sessiontest.Standing(scheduler.Steady, 200), Tasks: tasks}
}

func line(b *board.Board, text string) session.Task {
	return session.Task{Block: scheduler.Lines, Drill: sessiontest.Line(b, drills.Line, text)}
}

func TestDrillIsRecordedAsTyped(t *testing.T) {
	b := sessiontest.Trial(t)
	x := start(t, one(t, line(b, "a[b")))
	x.press(board.Enter)
	x.after(300, "a")
	x.after(250, "{") // a slip: the column beside
	x.after(400, "[")
	x.after(150, "b")
	if len(x.saved) != 1 {
		t.Fatalf("%d drills recorded, want 1", len(x.saved))
	}
	d := x.saved[0]
	if d.Session != "s1" || d.Board != "trial-42" || d.Hash != b.Hash() || d.Kind != "line" || d.Block != "lines" || d.Treatment != "wait" {
		t.Errorf("recorded as %+v", d)
	}
	if want := sessiontest.Noon().Add(200 * time.Millisecond); !d.At.Equal(want) {
		t.Errorf("began %v, want %v", d.At, want)
	}
	want := []journal.Key{
		{Symbol: "a", Stroke: "r2c2", MS: 300, Flags: journal.First},
		{Symbol: "[", Stroke: "r4c2:hold r3c3", Got: "{", Slip: "column", MS: 250, Lost: 400, Flags: journal.Switch},
		{Symbol: "b", Stroke: "r3c6", MS: 150, Flags: journal.Switch | journal.AfterSlip},
	}
	for i, k := range d.Keys {
		if i >= len(want) || k != want[i] {
			t.Errorf("key %d: %+v, want %+v", i, k, want[min(i, len(want)-1)])
		}
	}
	if len(x.p.Learned) != 1 {
		t.Errorf("the planner learned %d drills, want 1", len(x.p.Learned))
	}
	x.title("done")
}

func TestHesitationShowsTheStrokeAndCountsAsHelped(t *testing.T) {
	x := start(t, one(t, line(sessiontest.Trial(t), "ab")))
	x.press(board.Enter)
	if w := x.m.View().Drill.Target.Words; w != "" {
		t.Errorf("a steady stroke is told at once: %q", w)
	}
	// 200 ms is this stroke's time; two and a half of them are under the least patience.
	if wake, want := x.m.Wake(), x.at.Add(900*time.Millisecond); !wake.Equal(want) {
		t.Errorf("wakes at %v, want %v", wake, want)
	}
	x.wait(900 * time.Millisecond)
	if w := x.m.View().Drill.Target.Words; w == "" {
		t.Error("after a hesitation the stroke is not told")
	}
	x.press("a", "b")
	keys := x.saved[0].Keys
	if !keys[0].Flags.Has(journal.Helped) || keys[1].Flags.Has(journal.Helped) {
		t.Errorf("helped: %v and %v, want only the first", keys[0].Flags, keys[1].Flags)
	}
}

func TestPatienceSuitsThePerson(t *testing.T) {
	for _, c := range []struct {
		ms   float64
		want time.Duration
	}{{150, 900 * time.Millisecond}, {600, 1500 * time.Millisecond}, {3000, 4 * time.Second}} {
		p := one(t, line(sessiontest.Trial(t), "a"))
		p.Known = sessiontest.Standing(scheduler.Steady, c.ms)
		x := start(t, p)
		x.press(board.Enter)
		if got := x.m.Wake().Sub(x.at); got != c.want {
			t.Errorf("at %.0f ms a stroke is shown after %v, want %v", c.ms, got, c.want)
		}
	}
}

func TestUnmetIsShownFirst(t *testing.T) {
	b := sessiontest.Trial(t)
	p := one(t, session.Task{Block: scheduler.NewStrokes, Drill: sessiontest.Drill(b, drills.Position, "^", "a", "~"), Wanted: []board.Symbol{"^", "~"}, Unmet: true})
	p.Known = sessiontest.Standing(scheduler.Unmet, 900)
	x := start(t, p)
	x.press(board.Enter)
	x.title("new: shown first")
	if v := x.m.View().Drill; len(v.Prompt) != 2 || v.Target.Words == "" {
		t.Errorf("shown: %d strokes, in words %q", len(v.Prompt), v.Target.Words)
	}
	x.text("^~")
	x.title("new: alone")
	x.text("^^~~^~^~")
	x.title("new")
	x.text("^a~")
	if len(x.saved) != 3 || len(x.saved[0].Keys) != 2 || len(x.saved[1].Keys) != 8 || len(x.saved[2].Keys) != 3 {
		t.Fatalf("recorded %+v", x.saved)
	}
	for _, k := range x.saved[0].Keys {
		if !k.Flags.Has(journal.Helped) {
			t.Errorf("%s was shown and is not recorded as helped", k.Symbol)
		}
	}
}

func TestPauseAndLeaveWhereTheirKeysAreAskedFor(t *testing.T) {
	b := sessiontest.Trial(t)
	task := session.Task{Block: scheduler.Lines, Drill: sessiontest.Drill(b, drills.Motion, board.Escape, "Control+c", "a")}
	hints := func(x *trial) string {
		var out []string
		for _, h := range x.m.View().Keys {
			out = append(out, h.Key+" "+h.Does)
		}
		return strings.Join(out, ", ")
	}
	x := start(t, one(t, task))
	x.press(board.Enter)
	if got := hints(x); got != "Control+p pause, Control+c leave" {
		t.Errorf("while Escape is asked for: %s", got)
	}
	x.press("Control+p")
	if x.m.View().Drill.Over == nil {
		t.Error("the second key does not pause")
	}
	x.press(board.Enter, board.Escape) // on, and the answer
	if got := hints(x); got != "Escape pause, Escape q leave" {
		t.Errorf("while Control+c is asked for: %s", got)
	}
	x.press("Control+c")
	if x.left {
		t.Fatal("the answer left the sitting")
	}
	x.press(board.Escape)
	if x.m.View().Drill.Over == nil {
		t.Error("Escape does not pause where it is not asked for")
	}
	x.press(board.Enter, "Control+c")
	if !x.left {
		t.Error("Control+c does not leave")
	}
	if len(x.saved) != 1 || len(x.saved[0].Keys) != 2 {
		t.Errorf("on leaving, recorded %+v; want the two strokes that were typed", x.saved)
	}
}

func TestBreaksAreNoLatency(t *testing.T) {
	b := sessiontest.Trial(t)
	for name, away := range map[string]func(x *trial){
		"pause":     func(x *trial) { x.press(board.Escape); x.at = x.at.Add(time.Minute) },
		"focus":     func(x *trial) { x.send(session.Focus{At: x.at}); x.at = x.at.Add(time.Minute) },
		"paste":     func(x *trial) { x.send(session.Paste{Runes: 1 << 20, At: x.at}) },
		"too small": func(x *trial) { x.send(session.Fits{At: x.at}); x.send(session.Fits{OK: true, At: x.at}) },
		"stopped":   func(x *trial) { x.press("Control+z"); x.send(session.Resumed{At: x.at}) },
		"idle":      func(x *trial) { x.wait(31 * time.Second) },
	} {
		t.Run(name, func(t *testing.T) {
			x := start(t, one(t, line(b, "abc")))
			x.press(board.Enter, "a")
			away(x)
			if x.m.View().Drill.Over == nil {
				t.Fatal("the drill is not paused")
			}
			x.settle()
			x.press(board.Enter, "b", "c")
			k := x.saved[0].Keys
			if !k[1].Flags.Has(journal.Paused) || k[1].MS != 0 || k[1].Symbol != "b" || k[1].Wrong() {
				t.Errorf("the stroke after the break: %+v", k[1])
			}
			if k[2].Flags.Has(journal.Paused) || k[2].MS != 200 {
				t.Errorf("the stroke after that: %+v", k[2])
			}
		})
	}
}

func TestMinutesArePractised(t *testing.T) {
	b := sessiontest.Trial(t)
	p := one(t, line(b, "abcd"))
	p.Repeat = true
	x := start(t, p)
	x.press(board.Enter)
	for i := 0; x.m.View().Drill != nil; i++ {
		if i > 4000 {
			t.Fatal("the sitting does not end")
		}
		x.press("a", "b")
		if i == 3 { // ten minutes of pause are not practice
			x.press(board.Escape)
			x.at = x.at.Add(10 * time.Minute)
			x.press(board.Enter)
		}
		x.press("c", "d")
	}
	x.title("done")
	got := x.m.View().Rest.Length
	if got < 8*time.Minute || got > 8*time.Minute+2*time.Second {
		t.Errorf("practised %v of 8 minutes", got)
	}
}

func TestANightEndsInRest(t *testing.T) {
	b := sessiontest.Trial(t)
	for name, doze := range map[string]func(x *trial){
		"in a drill": func(x *trial) {},
		"in a pause": func(x *trial) { x.press(board.Escape) },
	} {
		t.Run(name, func(t *testing.T) {
			x := start(t, one(t, line(b, "abc")))
			x.press(board.Enter, "a")
			doze(x)
			x.at = x.at.Add(9 * time.Hour)
			x.press("b")
			x.title("done")
			if len(x.saved) != 1 || len(x.saved[0].Keys) != 1 {
				t.Errorf("recorded %+v, want the one stroke before the night", x.saved)
			}
		})
	}
}

func TestFailedSavesAreToldAndTriedAgain(t *testing.T) {
	b := sessiontest.Trial(t)
	x := start(t, one(t, line(b, "a"), line(b, "b"), line(b, "c")))
	x.press(board.Enter)
	x.fail = errors.New("no space left on device")
	x.press("a")
	if n := x.m.View().Notice; !n.Urgent || !strings.Contains(n.Text, "no space left on device") {
		t.Fatalf("told: %+v", n)
	}
	x.press("b") // practice goes on
	x.fail = nil
	x.wait(time.Second)
	if len(x.saved) != 0 {
		t.Error("tried again at once")
	}
	x.wait(3 * time.Second)
	if len(x.saved) != 2 || x.saved[0].Keys[0].Symbol != "a" || x.saved[1].Keys[0].Symbol != "b" {
		t.Errorf("recorded %+v, want a and b in order", x.saved)
	}
	if n := x.m.View().Notice; n.Urgent {
		t.Errorf("still told: %+v", n)
	}
}

func TestLeavingWithSomethingUnsavedAsks(t *testing.T) {
	b := sessiontest.Trial(t)
	x := start(t, one(t, line(b, "a"), line(b, "b")))
	x.press(board.Enter)
	x.fail = errors.New("read-only file system")
	x.press("a", "Control+c")
	x.title("not saved")
	if x.left {
		t.Fatal("left without asking")
	}
	x.press(board.Enter) // fails again
	x.title("not saved")
	x.fail = nil
	x.press(board.Enter)
	if !x.left || len(x.saved) != 1 {
		t.Errorf("left %v with %d drills saved, want true and 1", x.left, len(x.saved))
	}
}

// Who wants to leave, cannot, and goes on makes two records of one drill. The
// second begins where the first ended.
func TestDrillInTwoPartsKeepsItsTimes(t *testing.T) {
	b := sessiontest.Trial(t)
	x := start(t, one(t, line(b, "a[b]")))
	x.press(board.Enter)
	x.fail = errors.New("read-only file system")
	x.after(300, "a")
	x.after(250, "{") // a slip
	x.after(400, "[")
	x.press("Control+c", board.Escape)
	x.fail = nil
	x.after(500, "b")
	pressed := x.at
	x.after(220, "]")
	x.wait(4 * time.Second) // saving is tried again
	if len(x.saved) != 2 || len(x.saved[0].Keys) != 2 || len(x.saved[1].Keys) != 2 {
		t.Fatalf("recorded %+v", x.saved)
	}
	if at := x.saved[1].End(0); at.Sub(pressed).Abs() > time.Millisecond {
		t.Errorf("the second part has its first key at %v, pressed %v", at, pressed)
	}
	if last := x.saved[1].End(1); last.Sub(pressed) != 220*time.Millisecond {
		t.Errorf("the second part has its last key %v after its first", last.Sub(pressed))
	}
}

func TestStopSavesAndAsksNothing(t *testing.T) {
	b := sessiontest.Trial(t)
	for _, fail := range []error{nil, errors.New("no space left on device")} {
		x := start(t, one(t, line(b, "ab")))
		x.press(board.Enter, "a")
		x.fail = fail
		x.send(session.Stop{At: x.at})
		if !x.left {
			t.Errorf("with %v as the disk's answer the program does not end", fail)
		}
		if fail == nil && (len(x.saved) != 1 || len(x.saved[0].Keys) != 1) {
			t.Errorf("recorded %+v", x.saved)
		}
	}
}

func TestOtherBoardIsWaitedFor(t *testing.T) {
	b, other := sessiontest.Trial(t), sessiontest.Standard(t)
	p := one(t, line(b, "a"), session.Task{Block: scheduler.Upkeep, Board: 1, Drill: sessiontest.Line(other, drills.Line, "{b")}, line(b, "c"))
	p.On = append(p.On, other)
	x := start(t, p)
	x.press(board.Enter, "a")
	if v := x.m.View(); v.Page == nil || !strings.Contains(v.Page.Lines[0], "Now take the standard board, ansi-61.") {
		t.Fatalf("the board is not asked for: %+v", v.Page)
	}
	x.press("{", "b") // nothing yet
	x.after(60_000, board.Enter)
	x.text("{b")
	if v := x.m.View(); v.Page == nil || !strings.Contains(v.Page.Lines[0], "Now take trial-42.") {
		t.Fatalf("the first board is not asked for: %+v", v.Page)
	}
	x.settle()
	x.press(board.Enter, "c")
	if len(x.saved) != 3 || x.saved[1].Board != "ansi-61" || x.saved[1].Keys[0].Stroke == x.saved[0].Keys[0].Stroke {
		t.Errorf("recorded %+v", x.saved)
	}
	if k := x.saved[1].Keys[0]; k.MS != 200 {
		t.Errorf("the wait for the board is in the latency: %+v", k)
	}
	for i, d := range x.saved {
		for n, k := range d.Keys {
			if first := i > 0 && n == 0; k.Flags.Has(journal.BoardSwitch) != first {
				t.Errorf("drill %d, key %d: the flag for another board is %v", i, n, !first)
			}
		}
	}
}

func TestMixUpOfBoardsIsAsked(t *testing.T) {
	b, other := sessiontest.Trial(t), sessiontest.Standard(t)
	p := one(t, line(b, "aaaaaaaaaa"))
	p.On = append(p.On, other)
	x := start(t, p)
	x.press(board.Enter, "a")
	x.press("F13") // neither board has it
	if x.m.View().Drill.Over != nil {
		t.Fatal("one odd key is no mix-up")
	}
	// The standard board has Meta and a function key; trial-42 has no Control+Meta chord.
	alien := onlyOn(t, other, b)
	x.press(alien, alien)
	if over := x.m.View().Drill.Over; len(over) == 0 || !strings.Contains(over[0], "ansi-61") {
		t.Fatalf("two symbols of the other board alone (%s) are not noticed: %q", alien, over)
	}
	x.settle()
	x.press("o")
	if v := x.m.View(); v.Page == nil || !strings.Contains(v.Page.Lines[0], "Now take trial-42.") {
		t.Errorf("the drill does not begin again on the right board: %+v", v.Page)
	}
	if len(x.saved) != 0 {
		t.Errorf("strokes of the wrong board were recorded: %+v", x.saved)
	}
}

// onlyOn returns a symbol that one board has and the other has not.
func onlyOn(t *testing.T, has, hasNot *board.Board) board.Symbol {
	for _, s := range has.Symbols() {
		_, there := hasNot.Drilled(s)
		if _, here := has.Drilled(s); here && !there {
			return s
		}
	}
	t.Fatal("no such symbol")
	return ""
}

func TestHabitSlipsAreAMixUp(t *testing.T) {
	// On ansi-61 the apostrophe is right of the semicolon; where trial-42 has the
	// same places, what comes is a habit only if the other board has the symbol there.
	b, other := sessiontest.Trial(t), sessiontest.Standard(t)
	task := line(b, "[[[[[[[[")
	p := one(t, task)
	p.On = append(p.On, other)
	x := start(t, p)
	x.press(board.Enter)
	habit := habitOf(t, b, other, task.Drill.Keys[0])
	for range 6 {
		x.press(habit, "[")
	}
	if x.m.View().Drill.Over == nil {
		t.Errorf("six habit slips (%s for [) are not noticed", habit)
	}
}

// habitOf returns what comes when a stroke is made where the other board has it.
func habitOf(t *testing.T, b, other *board.Board, ask drills.Ask) board.Symbol {
	for _, s := range b.Symbols() {
		if d := drills.Diagnose(drills.Where{Board: b, Other: other, Asked: ask, Got: s}); d.Kind == drills.HabitSlip {
			return s
		}
	}
	t.Fatal("no habit slip is possible")
	return ""
}

func TestStopIsSuggestedOnce(t *testing.T) {
	b := sessiontest.Trial(t)
	p := one(t, line(b, "a"), line(b, "b"), line(b, "c"), line(b, "d"), line(b, "e"), line(b, "f"))
	p.ThePast = session.Past{Today: 19 * time.Minute, Ever: true}
	x := start(t, p)
	x.press(board.Enter)
	p.ThePast.Today = 20 * time.Minute
	x.press("a")
	x.title("a good place to stop")
	x.after(100, "c")
	x.after(100, board.Enter) // still on their way to the drill
	x.title("a good place to stop")
	x.settle()
	x.press("c", "b")
	x.title("lines")
	x.press(board.Escape, "e")
	x.title("done")

	again := start(t, p) // the program, on the same day
	if got := again.m.View().Today.Caution; len(got) != 1 || !strings.Contains(got[0], "enough for a day") {
		t.Errorf("Today says %q of the time that was practised", got)
	}
	again.press(board.Enter, "d")
	again.title("lines")
	again.press(board.Escape, "e", "t")
	again.wait(12 * time.Hour)
	again.press(board.Enter, "f")
	again.title("a good place to stop")
}

func TestStopIsSuggestedWhenTired(t *testing.T) {
	b := sessiontest.Trial(t)
	run := func(late int, slips bool) string {
		p := one(t, line(b, "abcdefghij"))
		p.Repeat = true
		x := start(t, p)
		x.press(board.Enter)
		for n := range 40 {
			if x.m.View().Drill == nil {
				break
			}
			ms := 200
			if n >= 25 {
				ms = late
			}
			for i, r := range "abcdefghij" {
				if slips && n >= 25 && i%4 == 0 {
					x.after(ms, "/")
				}
				x.after(ms, board.SymbolOf(r))
			}
		}
		return x.m.View().Title
	}
	if got := run(260, true); got != "a good place to stop" {
		t.Errorf("slower by 30 %% with slips: %q", got)
	}
	if got := run(260, false); got != "lines" {
		t.Errorf("slower without slips: %q", got)
	}
	if got := run(200, true); got != "lines" {
		t.Errorf("slips without getting slower: %q", got)
	}
}

func TestKeyThatNeverArrivesIsKeptOut(t *testing.T) {
	b := sessiontest.Trial(t)
	x := start(t, one(t, session.Task{Block: scheduler.Lines, Drill: sessiontest.Drill(b, drills.Navigation, "F5", "F6")}, session.Task{Block: scheduler.Lines, Drill: sessiontest.Drill(b, drills.Navigation, "F5")}, line(b, "a")))
	x.press(board.Enter)
	x.wait(7 * time.Second)
	if h := x.m.View().Keys[0]; h.Key != "Control+n" {
		t.Errorf("after a long wait the way out is not told: %+v", h)
	}
	x.press("Control+n")
	if len(x.set) != 1 || len(x.set[0].Keeps) != 1 || x.set[0].Keeps[0] != "F5" {
		t.Fatalf("settings: %+v", x.set)
	}
	if s := x.m.View().Drill.Target.Symbol; s != "a" {
		t.Errorf("%s is asked for next, want a: the drill of F5 alone is passed over", s)
	}
}

func TestSettingsAreChangedOneAtATime(t *testing.T) {
	x := start(t, one(t))
	x.press("s", "l", "l", "l")
	if len(x.set) != 1 || x.set[0].Minutes != 9 {
		t.Fatalf("asked for %+v, want one change to 9 minutes", x.set)
	}
	x.send(session.Configured{Settings: x.set[0], At: x.at})
	if len(x.set) != 2 || x.set[1].Minutes != 11 {
		t.Fatalf("then asked for %+v, want 11 minutes", x.set)
	}
	x.send(session.Configured{Settings: x.set[1], At: x.at})
	x.press(board.Escape)
	if got := x.m.View().Today.Plan.Length; got != 11*time.Minute {
		t.Errorf("today is planned for %v", got)
	}
}

// Settings that could not be written are told apart from those that cannot be used.
func TestSettingsThatFailAreTold(t *testing.T) {
	x := start(t, one(t))
	for _, c := range []struct {
		planner session.Planner
		minutes int
		told    string
	}{
		{x.p, 9, "holds for now, but is not written: a full disk"},
		{nil, 8, "cannot be used: a full disk"},
	} {
		set := session.Settings{Minutes: c.minutes}
		x.press("s", "l")
		x.send(session.Configured{Settings: set, Planner: c.planner, Err: errors.New("a full disk"), At: x.at})
		if n := x.m.View().Notice; !n.Urgent || !strings.Contains(n.Text, c.told) {
			t.Errorf("told %+v, want %q", n, c.told)
		}
		x.press(board.Escape)
		if got := x.m.View().Today.Plan.Length; got != time.Duration(c.minutes)*time.Minute {
			t.Errorf("planned for %v, want %d minutes", got, c.minutes)
		}
	}
}

// The board that is kept up stays when another one is learned.
func TestLearningAnotherBoardKeepsTheOtherUp(t *testing.T) {
	for _, c := range []struct{ had, want string }{
		{"trial-42 iso-62", "ansi-61 iso-62"}, {"trial-42 ansi-61", "ansi-61 trial-42"}, {"trial-42", "ansi-61 trial-42"},
		{"ansi-61 iso-62", ""}, {"ansi-61", ""}, // it is already
	} {
		x := start(t, one(t))
		s := session.Settings{Minutes: 8, Boards: strings.Fields(c.had), AllBoards: []session.Choice{{Name: "ansi-61"}, {Name: "iso-62"}, {Name: "trial-42"}}}
		x.send(session.Configured{Settings: s, At: x.at})
		x.press("b", "k", "k", board.Enter)
		got := ""
		if len(x.set) > 0 {
			got = strings.Join(x.set[0].Boards, " ")
		}
		if got != c.want {
			t.Errorf("%s, then ansi-61 is learned: %q, want %q", c.had, got, c.want)
		}
	}
}

func TestBoardsAreChosen(t *testing.T) {
	x := start(t, one(t))
	x.press("b", "k", "o") // ansi-61 becomes the other
	x.send(session.Configured{Settings: x.set[0], At: x.at})
	x.press(board.Enter) // and then the one being learned
	x.send(session.Configured{Settings: x.set[1], At: x.at})
	if got := strings.Join(x.set[0].Boards, " "); got != "trial-42 ansi-61" {
		t.Errorf("first: %s", got)
	}
	if got := strings.Join(x.set[1].Boards, " "); got != "ansi-61 trial-42" {
		t.Errorf("then: %s", got)
	}
}

func TestAsAtWork(t *testing.T) {
	b := sessiontest.Trial(t)
	x := start(t, one(t, session.Task{Block: scheduler.Probe, Drill: sessiontest.Line(b, drills.Probe, "abc")}))
	x.press(board.Enter, "a", "x")
	if v := x.m.View().Drill; len(v.Typed) != 2 || !v.Typed[1].Wrong {
		t.Fatalf("the wrong key does not stand: %+v", v.Typed)
	}
	x.press(board.Backspace, "b", "c")
	x.title("done")
	if d := x.saved[0]; d.Treatment != "as-at-work" {
		t.Errorf("treated %q", d.Treatment)
	}
}

func TestEveryPlaceIsReachedFromTodayInOneKeyAndByName(t *testing.T) {
	for key, title := range map[board.Symbol]string{"b": "boards", "m": "map: base", "f": "find", "s": "settings", "?": "help", "p": "progress", "/": "go to"} {
		x := start(t, one(t))
		x.press(key)
		x.title(title)
		x.press(board.Escape)
		x.title("underlay")
	}
	for name, title := range map[string]string{"map": "map: base", "boar": "boards", "find": "find", "setti": "settings", "help": "help"} {
		x := start(t, one(t))
		x.press("/")
		x.text(name)
		x.press(board.Enter)
		x.title(title)
	}
}

// The list of boards is narrowed by typing after "/", and Enter takes the first
// that is left.
func TestBoardsAreSearched(t *testing.T) {
	x := start(t, one(t))
	x.press("b", "/")
	x.text("ansi")
	v := x.m.View()
	if len(v.List.Items) != 1 || v.List.Items[0].Name != "ansi-61" || !v.List.Typed || v.List.Query != "ansi" {
		t.Fatalf("list %+v", v.List)
	}
	x.press(board.Enter)
	if len(x.set) != 1 || x.set[0].Boards[0] != "ansi-61" {
		t.Errorf("set %+v", x.set)
	}
	if v := x.m.View(); len(v.List.Items) != 2 || v.List.Typed {
		t.Errorf("the list is still narrowed: %+v", v.List)
	}
	x.press("/")
	x.text("qqq")
	if v := x.m.View(); len(v.List.Items) != 0 {
		t.Errorf("list %+v", v.List)
	}
	x.press(board.Enter) // takes nothing
	x.title("boards")
	if x.press("q"); len(x.set) != 1 {
		t.Errorf("set %+v", x.set)
	}
	x.title("underlay")
}
