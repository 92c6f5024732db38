package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode"

	"underlay/cmd/underlay/session"
	"underlay/drills"
	"underlay/drills/board"
)

// tellWhere says in words where the strokes of a drill are that are not steady
// yet, layer by layer: the underlay without a picture.
func (l *plain) tellWhere(d *session.DrillView, w writing) {
	b := d.Board
	if l.planner.drill.Kind == drills.Probe {
		return // typed unaided
	}
	seen := map[board.Symbol]bool{}
	layer := ""
	for _, name := range b.Layers() {
		for _, s := range w.asked {
			st, ok := b.Drilled(s)
			if !ok || seen[s] || st.Layer != name || l.known(s) {
				continue
			}
			seen[s] = true
			if layer != name {
				fmt.Fprintf(l.out, "  on the %s layer:\n", board.Safe(name))
				layer = name
			}
			fmt.Fprintf(l.out, "    %s: %s\n", spoken(s), spokenWords(b.Words(st)))
		}
	}
	for _, k := range l.planner.untold {
		fmt.Fprintf(l.out, "  not asked for in a line: %s, %s\n", spoken(k.Symbol), spokenWords(b.Words(k.Stroke)))
	}
	l.planner.untold = nil
}

// known tells whether a stroke needs no words any more.
func (l *plain) known(s board.Symbol) bool {
	return l.planner.Standing(l.planner.board, s, l.last).State.String() == "steady"
}

// spoken writes a symbol so that a screen reader says it, which may pass over
// marks: "{ left curly bracket".
func spoken(s board.Symbol) string {
	if s == board.Space {
		return "space"
	}
	text := board.Safe(string(s))
	if r, ok := s.Rune(); ok && !unicode.IsLetter(r) && !unicode.IsDigit(r) {
		if names := s.Names(); len(names) > 0 {
			text += " " + names[0]
		}
	}
	return text
}

// spokenWords writes the words for a stroke without signs.
func spokenWords(words string) string {
	return strings.ReplaceAll(board.Safe(words), " · ", ", ")
}

// writing is what a drill asks for, as a line of text.
type writing struct {
	asked []board.Symbol
	gaps  []bool // a gap for the eye stands before it, which may be typed or not
}

// newWriting takes what is still to be typed.
func newWriting(d *session.DrillView) writing {
	var w writing
	for i, c := range d.Prompt {
		if i < d.Cursor {
			continue
		}
		s := board.Symbol(c.Text)
		if c.Blank {
			s = board.Space
		}
		w.asked, w.gaps = append(w.asked, s), append(w.gaps, c.Gap && len(w.gaps) > 0)
	}
	return w
}

// equal returns the writing of an equal form of the drill, "d$" for "D", that a
// line is, to the letter; false where there is none.
func equal(d drills.Drill, line string) (writing, bool) {
	for i := range d.Also {
		form := d.With(i)
		var w writing
		for k, c := range form.Prompt {
			w.asked, w.gaps = append(w.asked, form.Keys[k].Symbol), append(w.gaps, c.Gap && k > 0)
		}
		if w.is(line) {
			return w, true
		}
		if w, ok := equal(form, line); ok {
			return w, true
		}
	}
	return writing{}, false
}

// is tells whether a line is what is asked for, with or without its gaps.
func (w writing) is(line string) bool {
	typed := symbolsIn(line)
	gapped, _ := w.gapped()
	return slices.Equal(typed, w.asked) || slices.Equal(typed, gapped)
}

// symbolsIn returns the symbols of a line that was typed.
func symbolsIn(line string) []board.Symbol {
	var typed []board.Symbol
	for _, r := range line {
		if r == openBox {
			r = ' '
		}
		typed = append(typed, board.SymbolOf(r))
	}
	return typed
}

func (w writing) prompt() string {
	var b strings.Builder
	for i, s := range w.asked {
		if w.gaps[i] {
			b.WriteByte(' ')
		}
		r, _ := s.Rune()
		if s == board.Space && w.grouped() {
			r = openBox
		}
		b.WriteRune(r)
	}
	return b.String()
}

// openBox, U+2423, shows a space to type where there are gaps besides.
const openBox = '␣'

func (w writing) grouped() bool { return slices.Contains(w.gaps, true) }

// feed turns a line into the symbols that a keyboard would have sent for it,
// each mistake followed by the right symbol, so that the rest of the line is
// graded by itself. Which is which comes from an alignment of least distance.
// It is false for a line that has little to do with what was asked for.
func (w writing) feed(line string) ([]board.Symbol, bool) {
	typed := symbolsIn(line)
	asked, index := w.asked, []int(nil)
	distance := drills.MSD(asked, typed)
	if gapped, at := w.gapped(); drills.MSD(gapped, typed) < distance {
		asked, index, distance = gapped, at, drills.MSD(gapped, typed)
	}
	if distance > 1+2*len(asked)/3 {
		return nil, false
	}
	var out []board.Symbol
	for _, step := range drills.Alignments(asked, typed, 1)[0] {
		out = append(out, sent(asked, typed, step, index)...)
	}
	return out, true
}

// gapped returns the symbols with spaces in the gaps, and for each the index of
// the symbol that was asked for, or -1 for a gap.
func (w writing) gapped() (symbols []board.Symbol, index []int) {
	for i, s := range w.asked {
		if w.gaps[i] {
			symbols, index = append(symbols, board.Space), append(index, -1)
		}
		symbols, index = append(symbols, s), append(index, i)
	}
	return symbols, index
}

// sent is what one step of the alignment stands for.
func sent(asked, typed []board.Symbol, step drills.Step, index []int) []board.Symbol {
	gap := step.P >= 0 && index != nil && index[step.P] < 0
	switch {
	case gap && (step.T < 0 || typed[step.T] == board.Space):
		return nil
	case gap || step.P < 0:
		return []board.Symbol{typed[step.T]}
	case step.T < 0:
		return []board.Symbol{nothing, asked[step.P]}
	case typed[step.T] == asked[step.P]:
		return []board.Symbol{asked[step.P]}
	}
	return []board.Symbol{typed[step.T], asked[step.P]}
}

// nothing stands for a symbol that was left out.
const nothing board.Symbol = "Unidentified"

// verdict tells how a line went.
func verdict(strokes int, wrong []string, took time.Duration) string {
	head := fmt.Sprintf("%d strokes in %.1f s", strokes, took.Seconds())
	if took > 0 {
		if speed := float64(strokes) / took.Minutes(); speed < 2000 {
			head += fmt.Sprintf(", %.0f a minute", speed)
		}
	}
	if len(wrong) == 0 {
		return head + ", all right."
	}
	seen := map[string]bool{}
	var text strings.Builder
	text.WriteString(head + fmt.Sprintf(", %d wrong:", len(wrong)))
	for _, s := range wrong {
		if !seen[s] {
			seen[s] = true
			text.WriteString("\n    " + board.Safe(s))
		}
	}
	return text.String()
}

// writeRest tells how a sitting or a part of it went.
func writeRest(out io.Writer, r *session.RestView) {
	fmt.Fprintf(out, "\nrest, after %s\n", clock(r.Length))
	fmt.Fprintf(out, "  %d strokes\n", r.Strokes)
	for _, s := range r.Slips {
		fmt.Fprintf(out, "  %s\n", board.Safe(s.Words()))
	}
	for _, g := range r.Gains.Quicker {
		fmt.Fprintf(out, "  quicker: %s, %.0f to %.0f ms\n", spoken(g.Symbol), g.Before, g.After)
	}
	for _, back := range r.Gains.Returns {
		var names []string
		for _, s := range back.Symbols {
			names = append(names, spoken(s))
		}
		when := "tomorrow"
		if back.Days > 1 {
			when = fmt.Sprintf("in about %d days", back.Days)
		}
		fmt.Fprintf(out, "  comes back %s: %s\n", when, strings.Join(names, ", "))
	}
	for _, line := range append(r.Next, r.Care...) {
		fmt.Fprintf(out, "  %s\n", line)
	}
}
