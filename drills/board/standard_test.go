package board_test

import (
	"fmt"
	"strings"
	"testing"

	"underlay/drills/board"
)

// isoGrid is the grid of ISO/IEC 9995-1 with W3C UI Events codes and what they
// give under the us layout, plain and with Shift. Source: w3c/uievents-code and
// Unicode CLDR's list of ISO positions, cross-checked with X.Org's symbols/us.
const isoGrid = "E00 Backquote ` ~\nE01 Digit1 1 !\nE02 Digit2 2 @\nE03 Digit3 3 #\nE04 Digit4 4 $\nE05 Digit5 5 %\nE06 Digit6 6 ^\n" +
	"E07 Digit7 7 &\nE08 Digit8 8 *\nE09 Digit9 9 (\nE10 Digit0 0 )\nE11 Minus - _\nE12 Equal = +\n" +
	"D01 KeyQ q Q\nD02 KeyW w W\nD03 KeyE e E\nD04 KeyR r R\nD05 KeyT t T\nD06 KeyY y Y\nD07 KeyU u U\nD08 KeyI i I\nD09 KeyO o O\nD10 KeyP p P\n" +
	"D11 BracketLeft [ {\nD12 BracketRight ] }\nD13 Backslash \\ |\n" +
	"C01 KeyA a A\nC02 KeyS s S\nC03 KeyD d D\nC04 KeyF f F\nC05 KeyG g G\nC06 KeyH h H\nC07 KeyJ j J\nC08 KeyK k K\nC09 KeyL l L\nC10 Semicolon ; :\nC11 Quote ' \"\n" +
	"B01 KeyZ z Z\nB02 KeyX x X\nB03 KeyC c C\nB04 KeyV v V\nB05 KeyB b B\nB06 KeyN n N\nB07 KeyM m M\nB08 Comma , <\nB09 Period . >\nB10 Slash / ?\n"

func TestStandardBoardsHaveTheGridOfISO9995(t *testing.T) {
	for _, name := range []string{"ansi-61", "iso-62"} {
		b := standard(t, name, "us")
		for line := range strings.Lines(isoGrid) {
			f := strings.Fields(line)
			if name == "iso-62" && f[1] == "Backslash" {
				f[0] = "C12" // 0x32 of the HID tables: the same code in the home row
			}
			for level, char := range f[2:] {
				s, _ := b.Drilled(board.Symbol(char))
				if s.Final().Code == "IntlBackslash" {
					s = b.Strokes(board.Symbol(char))[1] // us has < and > there as well
				}
				p := s.Final()
				if p.Grid != f[0] || p.Code != f[1] || s.Level != level {
					t.Errorf("%s: %s is on %s %s level %d, want %s %s level %d", name, char, p.Grid, p.Code, s.Level, f[0], f[1], level)
				}
				if level == 1 && (len(s.Keys) != 2 || s.Keys[0].As != board.AsHold || s.Keys[0].Symbol != board.Shift) {
					t.Errorf("%s: %s is %v, want Shift held", name, char, s.Keys)
				}
			}
		}
		if p, _ := b.Drilled(board.Space); p.Final().Grid != "A03" || p.Final().Code != "Space" {
			t.Errorf("%s: Space is on %v", name, p.Final())
		}
	}
	b := standard(t, "iso-62", "us")
	for _, k := range b.Keys() {
		if k.Code == "IntlBackslash" && k.Grid != "B00" {
			t.Errorf("IntlBackslash is on %s", k.Grid)
		}
	}
}

// TestGridNamesFollowTheRows: the letter of a grid name is the row of
// ISO/IEC 9995-1 (A the space bar's, B, C, D, E upwards), and numbers grow from
// left to right.
func TestGridNamesFollowTheRows(t *testing.T) {
	letters := map[board.Row]string{board.ThumbRow: "A", board.BottomRow: "B", board.HomeRow: "C", board.TopRow: "D", board.NumberRow: "E"}
	for _, name := range []string{"ansi-61", "iso-62"} {
		last := ""
		for _, k := range standard(t, name, "us").Keys() {
			if k.Grid == "" {
				continue
			}
			if k.Grid[:1] != letters[k.Row] {
				t.Errorf("%s: %s (%s) is in the %s", name, k.Code, k.Grid, k.Row)
			}
			if last != "" && last[:1] == k.Grid[:1] && k.Grid <= last {
				t.Errorf("%s: %s stands right of %s", name, k.Grid, last)
			}
			last = k.Grid
		}
	}
}

// TestRowStaggerIsThatOfTheStandardBoard: a quarter and a half key from row to
// row, and fifteen keys wide (ANSI INCITS 154 boards; common practice).
func TestRowStaggerIsThatOfTheStandardBoard(t *testing.T) {
	for _, name := range []string{"ansi-61", "iso-62"} {
		x := map[string]float64{}
		right := map[board.Row]float64{}
		for _, k := range standard(t, name, "us").Keys() {
			x[k.Code] = k.X
			right[k.Row] = max(right[k.Row], k.X+k.W)
		}
		got := fmt.Sprint(x["KeyQ"]-x["Digit1"], x["KeyA"]-x["KeyQ"], x["KeyZ"]-x["KeyA"])
		if got != "0.5 0.25 0.5" {
			t.Errorf("%s: the rows are shifted by %s", name, got)
		}
		for row, r := range right {
			// The upper part of a two-row Enter belongs to the home row here.
			if r != 15 && !(name == "iso-62" && row == board.TopRow && r == 13.5) {
				t.Errorf("%s: the %s is %v keys wide", name, row, r)
			}
		}
	}
}

func TestTouchTypingFingers(t *testing.T) {
	// The columns of touch typing (common practice).
	want := map[string]string{
		"left little": "QAZ", "left ring": "WSX", "left middle": "EDC", "left index": "RFVTGB",
		"right index": "YHNUJM", "right middle": "IK", "right ring": "OL", "right little": "P",
	}
	for _, name := range board.Embedded() {
		b, _ := board.Load(name)
		for who, letters := range want {
			for _, l := range letters {
				s, _ := b.Drilled(board.Symbol(strings.ToLower(string(l))))
				k, _ := b.KeyAt(s.Final().Position)
				if got := k.Hand.String() + " " + k.Finger.String(); got != who {
					t.Errorf("%s: %c is struck by the %s finger, want %s", name, l, got, who)
				}
			}
		}
	}
}
