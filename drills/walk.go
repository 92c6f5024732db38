package drills

import (
	"math/rand/v2"

	"underlay/corpus"
)

// walk goes from token to token, as they follow each other in lines that are
// none of the shapes, and keeps the brackets and quotes in order.
func (l *language) walk(rng *rand.Rand) (shape, bool) {
	const longest = 24
	w := walker{}
	for before := corpus.LineBreak; len(w.line) < longest; {
		t, ok := w.step(l.next[before], rng)
		if !ok {
			return shape{}, false
		}
		if t.Text == corpus.LineBreak {
			return shape{line: w.line, opens: w.open}, len(w.line) > 0
		}
		w.take(t)
		before = t.Text
	}
	return shape{}, false
}

// walker is a line in the making.
type walker struct {
	line  []corpus.Token
	open  string // brackets
	quote string // the quote that is open
	body  bool   // a body was just given: the quote has to follow
}

// step draws a token that fits; false where none was found.
func (w *walker) step(f *follow, rng *rand.Rand) (corpus.Token, bool) {
	if f == nil {
		return corpus.Token{}, false
	}
	for range 12 {
		if i := f.draw(rng); i >= 0 && w.fits(f.tokens[i]) {
			return f.tokens[i], true
		}
	}
	return corpus.Token{}, false
}

func (w *walker) fits(t corpus.Token) bool {
	switch {
	case w.quote != "":
		return t.Text == w.quote && !t.Spaced || t.Text == corpus.Body && !w.body
	case t.Text == corpus.Body:
		return false
	case isCloser(t.Text):
		return w.open != "" && closerOf(w.open[len(w.open)-1:]) == t.Text
	case t.Text == corpus.LineBreak:
		return w.open == "" || isOpener(w.line[len(w.line)-1].Text)
	}
	return true
}

func (w *walker) take(t corpus.Token) {
	w.line = append(w.line, t)
	w.body = t.Text == corpus.Body
	switch {
	case isQuote(t.Text) && w.quote == "":
		w.quote = t.Text
	case t.Text == w.quote:
		w.quote = ""
	case isOpener(t.Text):
		w.open += t.Text
	case isCloser(t.Text):
		w.open = w.open[:len(w.open)-1]
	}
}
