package session_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"underlay/cmd/underlay/session"
	"underlay/cmd/underlay/session/sessiontest"
	"underlay/drills/board"
)

// first begins a first start.
func first(t *testing.T, learn string) *trial {
	x := start(t, one(t))
	s := session.Settings{Minutes: 8, Boards: []string{"trial-42", "ansi-61"}}
	x.m = session.New(x.p, session.Options{Session: "s1", Settings: s, Now: sessiontest.Noon(), Offer: &session.Offer{Learn: learn,
		Boards:  []session.Choice{{Name: "split-38", Shape: "38 keys"}, {Name: "grid-48", Shape: "48 keys"}},
		Others:  []session.Choice{{Name: "ansi-61", Set: true}, {Name: "iso-62-de", Title: "German", Set: true}, {Name: "grid-48"}},
		Layouts: []session.Choice{{Name: "us"}, {Name: "de", Title: "German"}},
	}})
	return x
}

// answered gives the choice back as usable.
func (x *trial) answered(err error) {
	used := &sessiontest.Planner{On: []*board.Board{sessiontest.Standard(x.T)}}
	x.send(session.Configured{Settings: x.set[len(x.set)-1], Planner: used, Err: err, At: x.at})
}

// What is typed at a first start, and which boards follow from it.
func TestFirstStartChoosesBoards(t *testing.T) {
	for name, c := range map[string]struct {
		learn string // described just now
		keys  []board.Symbol
		want  []string
	}{
		"Enter alone":        {"", []board.Symbol{"Enter"}, []string{"trial-42", "ansi-61"}},
		"the next one":       {"", []board.Symbol{"Tab", "Enter", "Enter"}, []string{"split-38", "ansi-61"}},
		"by name":            {"", []board.Symbol{"g", "r", "i", "d", "Enter", "Enter"}, []string{"grid-48", "ansi-61"}},
		"by shape and name":  {"", []board.Symbol{"4", "8", "Enter", "g", "e", "r", "m", "a", "n", "Enter"}, []string{"grid-48", "iso-62-de"}},
		"one board alone":    {"", []board.Symbol{"Tab", "Enter", "Tab", "Enter", "Enter"}, []string{"split-38"}},
		"back and another":   {"", []board.Symbol{"Tab", "Enter", "Escape", "g", "r", "i", "d", "Enter", "Enter"}, []string{"grid-48", "ansi-61"}},
		"two small ones":     {"", []board.Symbol{"Tab", "Enter", "g", "r", "i", "d", "Enter", "Enter"}, []string{"split-38", "grid-48"}},
		"back from the last": {"", []board.Symbol{"Tab", "Enter", "Tab", "Enter", "Escape", "Enter"}, []string{"split-38", "ansi-61"}},
		"mine alone":         {"mine", []board.Symbol{"Tab", "Enter"}, []string{"mine"}},
		"one just described": {"mine", []board.Symbol{"Enter"}, []string{"mine", "ansi-61"}},
	} {
		t.Run(name, func(t *testing.T) {
			x := first(t, c.learn)
			x.press(c.keys...)
			if len(x.set) != 1 || !slices.Equal(x.set[0].Boards, c.want) {
				t.Fatalf("chosen: %v, want %v", x.set, c.want)
			}
			x.press(board.Enter, "q") // while the choice is being written nothing is taken
			if len(x.set) != 1 || x.left {
				t.Fatal("keys were taken before the choice was written")
			}
			x.answered(nil)
			v := x.m.View()
			if v.Today == nil || v.Today.Board.Name != "ansi-61" || v.Notice.Text != "" {
				t.Errorf("at %q with notice %q", v.Title, v.Notice.Text)
			}
		})
	}
}

// What the computer is set to is asked where no board says so, and goes along
// with the boards.
func TestFirstStartAsksForTheLayout(t *testing.T) {
	x := first(t, "")
	x.press("Tab", "Enter", "Tab", "Enter")
	if v := x.m.View(); v.Title != "what is the computer set to?" || len(x.set) != 0 {
		t.Fatalf("at %q, chosen %v", v.Title, x.set)
	}
	x.text("germ")
	x.press("Enter")
	if len(x.set) != 1 || x.layout != "de" {
		t.Errorf("chosen %v on %q", x.set, x.layout)
	}
}

// A description that was interrupted is offered first, to be gone on with.
func TestFirstStartOffersToGoOn(t *testing.T) {
	x := start(t, one(t))
	x.m = session.New(x.p, session.Options{Session: "s1", Settings: session.Settings{Boards: []string{"trial-42"}}, Now: sessiontest.Noon(),
		Offer: &session.Offer{Begun: "mine"}})
	if it := x.m.View().List.Items[0]; it.Name != "go on" || !strings.Contains(it.About, "mine") {
		t.Errorf("%+v", it)
	}
	if x.press(board.Enter); !x.left || x.m.Describing() != session.GoOn {
		t.Errorf("left %v, to describe %v", x.left, x.m.Describing())
	}
}

// No board is offered to be kept up besides itself.
func TestFirstStartOffersNoBoardTwice(t *testing.T) {
	x := first(t, "grid-48")
	for _, it := range x.m.View().List.Items {
		if it.Name == "grid-48" {
			t.Error("grid-48 is offered besides itself")
		}
	}
}

// A choice that could not be written holds all the same, and that is told; one
// that cannot be used is asked for again.
func TestFirstStartThatFails(t *testing.T) {
	x := first(t, "")
	x.press(board.Enter)
	x.answered(errors.New("permission denied"))
	if v := x.m.View(); v.Today == nil || !v.Notice.Urgent || !strings.Contains(v.Notice.Text, "permission denied") {
		t.Errorf("at %q, told %q", v.Title, v.Notice.Text)
	}

	x = first(t, "")
	x.press(board.Tab, board.Enter, board.Enter)
	x.send(session.Configured{Err: errors.New("row 2 is short"), At: x.at,
		Settings: session.Settings{Minutes: 8, Boards: []string{"trial-42", "ansi-61"}}})
	if v := x.m.View(); v.List == nil || !strings.Contains(v.Notice.Text, "row 2 is short") {
		t.Fatalf("at %q, told %q", v.Title, v.Notice.Text)
	}
	x.press(board.Enter)
	if got := x.set[len(x.set)-1].Boards; len(x.set) != 2 || !slices.Equal(got, []string{"trial-42", "ansi-61"}) {
		t.Errorf("then chosen: %v", x.set)
	}
}

// Escape puts the question off: nothing is written.
func TestFirstStartIsPutOff(t *testing.T) {
	x := first(t, "")
	x.press(board.Escape)
	if x.title("underlay"); len(x.set) > 0 || x.m.Describing() != session.NotDescribing {
		t.Errorf("%v", x.set)
	}
}

// A board of one's own is described outside the sitting, which ends for it.
func TestFirstStartDescribes(t *testing.T) {
	x := first(t, "")
	x.text("press")
	x.press(board.Enter)
	if !x.left || x.m.Describing() != session.Anew {
		t.Errorf("left %v, to describe %v", x.left, x.m.Describing())
	}
	x = first(t, "")
	x.press("Control+c")
	if !x.left || x.m.Describing() != session.NotDescribing {
		t.Errorf("left %v, to describe %v", x.left, x.m.Describing())
	}
}
