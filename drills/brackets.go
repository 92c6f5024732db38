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

// closingWord is the word that closes a block which words open and close. Such
// a block has a letter for a mark, which stands beside the brackets that a line
// opens and closes.
func closingWord(mark byte) string {
	switch mark {
	case 'i':
		return "fi"
	case 'd':
		return "done"
	case 'c':
		return "esac"
	}
	return "end"
}

// wordOpens returns the mark of the block that words open in a line of a
// language, "" for none.
func wordOpens(language string, line []corpus.Token) string {
	has := func(words ...string) bool {
		return slices.ContainsFunc(line, func(t corpus.Token) bool { return slices.Contains(words, t.Text) })
	}
	first, last := line[0].Text, line[len(line)-1].Text
	switch {
	case language == "shell" && !has("fi", "done", "esac"):
		return map[string]string{"if": "i", "for": "d", "while": "d", "until": "d", "case": "c"}[first]
	case language == "lua" && !has("end") && (last == "then" && first != "elseif" || last == "do" || has("function") && last == ")"):
		return "e"
	case language == "ruby" && !has("end") && (has("do") || slices.Contains([]string{"if", "unless", "while", "until", "def", "class", "module", "case", "begin"}, first)):
		return "e"
	}
	return ""
}

// wordCloses returns the mark of the block that a line closes with its first
// word, "" for none.
func wordCloses(language string, line []corpus.Token) string {
	switch first := line[0].Text; {
	case language == "shell" && (first == "fi" || first == "done" || first == "esac"):
		return map[string]string{"fi": "i", "done": "d", "esac": "c"}[first]
	case (language == "lua" || language == "ruby") && first == "end":
		return "e"
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

func isQuote(s string) bool { return s == `"` || s == "'" || s == "`" }
