package drills

import (
	"slices"
	"strings"

	"underlay/corpus"
	"underlay/corpus/code"
)

// sound tells whether a line makes sense by itself, where that can be told.
func (l *language) sound(line []corpus.Token) bool {
	first, last := line[0].Text, line[len(line)-1].Text
	if slices.Contains(l.grammar.Leads, first) || slices.Contains(l.grammar.Trails, last) {
		return false
	}
	switch l.grammar.Form {
	case code.Commands:
		return shellCommand(line)
	case code.Markup:
		return tagged(line)
	case code.Prose:
		return prose(line)
	}
	return true
}

// prose tells whether a line of Markdown reads like one: what is set off by marks
// is so on both sides, and between words there are few marks.
func prose(line []corpus.Token) bool {
	words, marks, pairs := 0, 0, map[string]int{}
	for i, t := range line {
		switch {
		case operandClass(t.Text) || word(t.Text) || t.Text == corpus.Body:
			words++
		case i == 0: // a heading, an item, a fence
		case strings.ContainsAny(t.Text, "*_`"):
			pairs[t.Text]++
		case i+1 < len(line):
			marks++
		}
	}
	for _, n := range pairs {
		if n%2 != 0 {
			return false
		}
	}
	return 2*marks <= words || words <= 1
}

// tagged tells whether every tag of a line of HTML is closed before the next,
// and begins with its name.
func tagged(line []corpus.Token) bool {
	open := false
	for i, t := range line {
		if operandClass(t.Text) || word(t.Text) || t.Text == corpus.Body {
			continue
		}
		for _, r := range t.Text {
			if r == '<' && open || r == '>' && !open && !strings.HasSuffix(t.Text, "->") && !strings.HasSuffix(t.Text, "=>") {
				return false
			}
			open = r == '<' || open && r != '>'
		}
		last := t.Text[len(t.Text)-1]
		if (last == '<' || strings.HasSuffix(t.Text, "</")) && (i+1 == len(line) || line[i+1].Spaced || !operandClass(line[i+1].Text) && !word(line[i+1].Text)) {
			return false
		}
	}
	return !open
}
