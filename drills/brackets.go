package drills

import (
	"slices"
	"strings"

	"underlay/corpus"
)

const openers, closers = "([{", ")]}"

func isOpener(s string) bool { return len(s) == 1 && strings.Contains(openers, s) }
func isCloser(s string) bool { return len(s) == 1 && strings.Contains(closers, s) }

func closerOf(opener string) string {
	if i := strings.Index(openers, opener); i >= 0 {
		return closers[i : i+1]
	}
	return opener // the mark of a block of words
}

// A block that words open and close has a letter for a mark, which stands beside
// the brackets that a line opens and closes: a for the first of the grammar.

// closingWord is the word that closes the block of a mark.
func (l *language) closingWord(mark byte) string { return l.grammar.Blocks[mark-'a'].Close }

// wordOpens returns the mark of the block that words open in a line, "" for
// none.
func (l *language) wordOpens(line []corpus.Token) string {
	first, last := line[0].Text, line[len(line)-1].Text
	for i, b := range l.grammar.Blocks {
		if slices.Contains(b.First, first) || slices.Contains(b.Last, last) || has(line, b.Inside...) {
			if has(line, b.Close) {
				return ""
			}
			return string(rune('a' + i))
		}
	}
	return ""
}

// wordCloses returns the mark of the block that a line closes with its first
// word, "" for none.
func (l *language) wordCloses(line []corpus.Token) string {
	for i, b := range l.grammar.Blocks {
		if line[0].Text == b.Close {
			return string(rune('a' + i))
		}
	}
	return ""
}

// closersOf returns what closes the brackets that are open, innermost first.
func closersOf(open string) string {
	var b strings.Builder
	for i := len(open) - 1; i >= 0; i-- {
		b.WriteString(closerOf(open[i : i+1]))
	}
	return b.String()
}

// has tells whether a word is in a line.
func has(line []corpus.Token, words ...string) bool {
	return slices.ContainsFunc(line, func(t corpus.Token) bool { return slices.Contains(words, t.Text) })
}

func isQuote(s string) bool { return s == `"` || s == "'" || s == "`" }
