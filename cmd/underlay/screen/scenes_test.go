package screen

import (
	"errors"
	"testing"
	"time"

	"underlay/cmd/underlay/session"
	"underlay/cmd/underlay/session/sessiontest"
	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
)

// trialPlanner plans a few invented drills on two boards.
func trialPlanner(t testing.TB) *sessiontest.Planner {
	b, other := sessiontest.Trial(t), sessiontest.Standard(t)
	p := &sessiontest.Planner{
		On:    []*board.Board{b, other},
		Known: sessiontest.Standing(scheduler.Building, 420),
		Standings: map[board.Symbol]session.Standing{
			"^": sessiontest.Standing(scheduler.Unmet, 900),
			"~": sessiontest.Standing(scheduler.Unmet, 900),
		},
		ThePast: session.Past{Today: 4 * time.Minute, Week: 21 * time.Minute, Days: 5, Ever: true},
	}
	for _, r := range "abcdefghijklmnopqrstuvwxyz" {
		p.Standings[board.Symbol(r)] = sessiontest.Standing(scheduler.Steady, 210)
	}
	for _, s := range []board.Symbol{board.Space, "[", "]", "(", ")", "1", "2"} {
		p.Standings[s] = sessiontest.Standing(scheduler.Steady, 260)
	}
	p.ThePlan = session.Plan{Last: "Last time } and = got quicker.", Blocks: []session.Block{
		{Kind: scheduler.WarmUp, Length: 40 * time.Second, Note: "what the hands know"},
		{Kind: scheduler.ComingBack, Length: 130 * time.Second, About: []session.Reason{
			{Symbol: ">", Words: "6 days ago, about 780 ms, common in your Go"},
			{Symbol: "{", Words: "slower than its neighbours: 640 ms"},
			{Symbol: "=", Words: "2 slips in 9 tries"},
		}},
		{Kind: scheduler.NewStrokes, Length: time.Minute, About: []session.Reason{{Symbol: "^", Words: "right index finger, bottom row"}}},
		{Kind: scheduler.Lines, Length: 200 * time.Second, Note: "from your own code"},
		{Kind: scheduler.Upkeep, Board: 1, Length: 50 * time.Second, Note: "ansi-61, the standard board"},
	}}
	p.Tasks = []session.Task{
		{Block: scheduler.ComingBack, Drill: sessiontest.Line(b, drills.Line, "if err != nil && n > 0 {")},
		{Block: scheduler.NewStrokes, Drill: sessiontest.Drill(b, drills.Position, "^", "~", "^", "~"), Wanted: []board.Symbol{"^", "~"}, Unmet: true},
		{Block: scheduler.Lines, Drill: sessiontest.Drill(b, drills.Motion, board.Escape, "d", "2", "w", "Control+c", board.ArrowLeft)},
		{Block: scheduler.Upkeep, Board: 1, Drill: sessiontest.Line(other, drills.Line, "m[k] = 'l'")},
	}
	p.TheGains = session.Gains{
		Quicker: []session.Gain{{Symbol: "}", Before: 710, After: 640}, {Symbol: "=", Before: 1120, After: 980}},
		Returns: []session.Return{{Symbols: []board.Symbol{"{", "~", "^"}, Days: 1}, {Symbols: []board.Symbol{">"}, Days: 4}},
		States:  []session.Count{{State: scheduler.Steady, N: 22}, {State: scheduler.Building, N: 6}, {State: scheduler.Unmet, N: 2}},
	}
	return p
}

func settings() session.Settings {
	return session.Settings{Minutes: 8, Boards: []string{"trial-42", "ansi-61"}, Aim: "speed", Colours: "auto", Wrong: "auto",
		Mix: []session.Weight{{Table: "go", Share: 3}, {Table: "shell", Share: 1}}, Keeps: []string{"F11"},
		AllBoards: []session.Choice{{Name: "ansi-61", Title: "The standard board"}, {Name: "trial-42", Title: "A split for trials"}},
		AllTables: []string{"c", "go", "shell"}}
}

// sitting drives a model by hand.
type sitting struct {
	m  *session.Model
	at time.Time
}

func sit(t testing.TB, p *sessiontest.Planner) *sitting {
	return &sitting{m: session.New(p, session.Options{Session: "s1", Settings: settings(), Reports: true, Now: sessiontest.Noon()}), at: sessiontest.Noon()}
}

// firstStart begins a first start, with nothing answered.
func firstStart(t testing.TB) *sitting {
	small := []session.Choice{{Name: "trial-42", Title: "A split for trials", Shape: "42 keys"},
		{Name: "trial-grid", Title: "One piece for trials", Shape: "48 keys"}}
	standard := []session.Choice{{Name: "ansi-61", Title: "Standard, 61 keys", Shape: "61 keys"},
		{Name: "iso-62-de", Title: "German", Shape: "62 keys"}}
	o := session.Options{Session: "s1", Settings: settings(), Reports: true, Now: sessiontest.Noon(),
		Offer: &session.Offer{Boards: append(small, standard[0]), Others: append(standard, small...)}}
	return &sitting{m: session.New(trialPlanner(t), o), at: sessiontest.Noon()}
}

// press sends keys, each after a quarter of a second, and answers what is asked
// for at once: all is saved.
func (s *sitting) press(keys ...board.Symbol) *sitting {
	for _, k := range keys {
		s.at = s.at.Add(250 * time.Millisecond)
		s.send(session.Key{Symbol: k, At: s.at})
	}
	return s
}

func (s *sitting) send(e session.Event) *sitting {
	for _, effect := range append([]session.Effect(nil), s.m.Update(e)...) {
		switch effect.(type) {
		case session.Record:
			s.send(session.Saved{At: s.at})
		case session.Report:
			s.send(session.Reported{Lines: []string{"Marks layer: 22 of 30 strokes steady."}, At: s.at})
		}
	}
	return s
}

// settle waits until keys are no longer taken for ones that were on their way.
func (s *sitting) settle() *sitting {
	s.at = s.at.Add(time.Second)
	return s
}

func (s *sitting) wait(d time.Duration) *sitting {
	s.at = s.at.Add(d)
	return s.send(session.Tick{At: s.at})
}

// typeText presses what a text asks for.
func (s *sitting) typeText(text string) *sitting {
	for _, r := range text {
		s.press(board.SymbolOf(r))
	}
	return s
}

// slowly types a text in the time after which a rest is due.
func (s *sitting) slowly(text string) *sitting {
	for _, r := range text {
		s.at = s.at.Add(2500 * time.Millisecond)
		s.send(session.Key{Symbol: board.SymbolOf(r), At: s.at})
	}
	return s
}

// drilled does the first n of the trial tasks without a slip.
func (s *sitting) drilled(n int) *sitting {
	s.press(board.Enter)
	steps := []func(){
		func() { s.typeText("if err != nil && n > 0 {") },
		func() { s.typeText("^~^~^~") },
		func() { s.press(board.Escape, "d", "2", "w", "Control+c", board.ArrowLeft) },
		func() { s.settle().press(board.Enter).typeText("m[k] = 'l'") },
	}
	for _, step := range steps[:n] {
		step()
	}
	return s
}

// scene is a sitting brought to a place.
type scene struct {
	name  string
	model func(t *testing.T) *sitting
}

func (sc scene) view(t *testing.T) session.View { return sc.model(t).m.View() }

func scenes() []scene {
	with := func(name string, bring func(s *sitting)) scene {
		return scene{name, func(t *testing.T) *sitting {
			s := sit(t, trialPlanner(t))
			bring(s)
			return s.wait(session.Surprise)
		}}
	}
	return []scene{
		with("today", func(s *sitting) {}),
		with("drill", func(s *sitting) { s.press(board.Enter).typeText("if err !") }),
		with("drill-steady", func(s *sitting) { s.press(board.Enter) }),
		with("drill-hesitated", func(s *sitting) { s.press(board.Enter).wait(time.Second) }),
		with("drill-slip", func(s *sitting) { s.press(board.Enter).typeText("if err !.") }),
		with("drill-long-wait", func(s *sitting) { s.press(board.Enter).typeText("if err ").wait(6 * time.Second) }),
		with("new", func(s *sitting) { s.drilled(1) }),
		with("motion", func(s *sitting) { s.drilled(2) }),
		with("motion-chord", func(s *sitting) { s.drilled(2).press(board.Escape, "d", "2", "w") }),
		with("take-board", func(s *sitting) { s.drilled(3) }),
		with("upkeep", func(s *sitting) { s.drilled(3).settle().press(board.Enter).typeText("m[k] = ") }),
		with("paused", func(s *sitting) { s.press(board.Enter).typeText("if").press(board.Escape) }),
		with("paste", func(s *sitting) { s.press(board.Enter).send(session.Paste{Runes: 1 << 20, At: s.at}) }),
		with("rest", func(s *sitting) {
			s.press(board.Enter).typeText("if err !.").typeText("= nil").press(board.Escape, "e")
		}),
		with("not-saved", func(s *sitting) { notSaved(s) }),
		with("leave-unsaved", func(s *sitting) { notSaved(s); s.m.Update(session.Key{Symbol: "Control+c", At: s.at}) }),
		with("boards-mixed-up", func(s *sitting) { s.press(board.Enter).press("F13", "Meta+d", "Meta+d") }),
		with("between", func(s *sitting) { s.press(board.Enter).slowly("if err != nil && n > 0 {") }),
		with("map", func(s *sitting) { s.press("m", board.Space) }),
		with("map-base", func(s *sitting) { s.press("m") }),
		with("find", func(s *sitting) { s.press("f").typeText("tilde") }),
		with("picker", func(s *sitting) { s.press("/").typeText("se") }),
		with("boards", func(s *sitting) { s.press("b", "j") }),
		with("settings", func(s *sitting) { s.press("s", "j") }),
		with("help", func(s *sitting) { s.press("?") }),
		with("progress", func(s *sitting) { s.press("p") }),
		{"first-start", func(t *testing.T) *sitting {
			p := trialPlanner(t)
			p.ThePast = session.Past{}
			p.ThePlan.Last = ""
			return sit(t, p)
		}},
		{"first-board", func(t *testing.T) *sitting { return firstStart(t) }},
		{"first-board-search", func(t *testing.T) *sitting { return firstStart(t).typeText("grid") }},
		{"first-other", func(t *testing.T) *sitting { return firstStart(t).press(board.Tab, board.Enter) }},
		{"first-unusable", func(t *testing.T) *sitting {
			s := firstStart(t).press(board.Enter)
			return s.send(session.Configured{Settings: settings(), Err: errors.New("row 2 has 9 keys, row 1 has 10"), At: s.at})
		}},
		{"enough", func(t *testing.T) *sitting {
			p := trialPlanner(t)
			s := sit(t, p)
			p.ThePast.Today = 20 * time.Minute
			return s.drilled(1).wait(session.Surprise)
		}},
		{"today-enough", func(t *testing.T) *sitting {
			p := trialPlanner(t)
			p.ThePast.Today = 20 * time.Minute
			return sit(t, p)
		}},
	}
}

// notSaved fails to save the first drill.
func notSaved(s *sitting) {
	s.press(board.Enter)
	for _, r := range "if err != nil && n > 0 {" {
		s.at = s.at.Add(200 * time.Millisecond)
		s.m.Update(session.Key{Symbol: board.SymbolOf(r), At: s.at})
	}
	s.m.Update(session.Saved{Err: errors.New("no space left on device"), At: s.at})
}
