package session

import (
	"unicode/utf8"

	"underlay/drills/board"
)

// query is a line of text that narrows a list, and the place in that list.
type query struct {
	text string
	at   int
}

// edit takes a key for the query or for the place in the list of n, and tells
// whether it took it.
func (q *query) edit(k board.Symbol, n int) bool {
	switch k {
	case board.ArrowDown, "Control+n", board.Tab:
		q.at = min(q.at+1, max(0, n-1))
	case board.ArrowUp, "Control+p", "Shift+Tab":
		q.at = max(q.at-1, 0)
	case board.Backspace, "Control+h":
		_, size := utf8.DecodeLastRuneInString(q.text)
		q.text, q.at = q.text[:len(q.text)-size], 0
	case "Control+u":
		q.text, q.at = "", 0
	case board.Space:
		q.text, q.at = q.text+" ", 0
	default:
		if !k.IsCharacter() || len(q.text) > 60 {
			return false
		}
		q.text, q.at = q.text+string(k), 0
	}
	return true
}
