package session

import (
	"slices"
	"unicode/utf8"

	"github.com/sahilm/fuzzy"

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

// like returns those of all whose words are like the text of a query, the
// likest first; all of them, in their order, while there is no text. The
// result is the caller's.
func like[T any](text string, all []T, words func(T) string) []T {
	if text == "" {
		return slices.Clone(all)
	}
	var hits []T
	for _, h := range fuzzy.FindFrom(text, worded[T]{all, words}) {
		hits = append(hits, all[h.Index])
	}
	return hits
}

// worded is what a list says, for the search.
type worded[T any] struct {
	all   []T
	words func(T) string
}

func (w worded[T]) String(i int) string { return w.words(w.all[i]) }
func (w worded[T]) Len() int            { return len(w.all) }
