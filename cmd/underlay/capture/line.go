package capture

import (
	"unicode/utf8"

	"underlay/drills/board"
)

// line is a line of text being typed.
type line struct{ text string }

// longest is how many bytes a line may have.
const longest = 60

func (l *line) edit(s board.Symbol) {
	switch {
	case s == board.Backspace || s == "Control+h":
		_, n := utf8.DecodeLastRuneInString(l.text)
		l.text = l.text[:len(l.text)-n]
	case s == "Control+u":
		l.text = ""
	case s == board.Space:
		l.add(" ")
	case s.IsCharacter():
		l.add(string(s))
	}
}

func (l *line) add(text string) {
	if len(l.text)+len(text) <= longest {
		l.text += text
	}
}

// sensible reports whether a line is an entry of a board file or a word that
// the line takes.
func sensible(text string) bool {
	return text == "back" || text == "rest" || text != "" && board.CheckEntry(text) == nil
}
