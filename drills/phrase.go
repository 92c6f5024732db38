package drills

import (
	"slices"
	"strings"

	"underlay/corpus"
)

// This file finds the expressions in the lines of a table, by what most
// languages have in common: operands with calls, indices and members behind
// them, joined by operators with spaces around. A slot is a place for an
// expression, a phrase an expression that stands in one.

// span is a part of a line or a text: from, to (not included).
type span struct{ from, to int }

// spans finds the slots of a line. None are found in a line that declares
// something: what stands in its brackets are no expressions.
func spans(line []corpus.Token) []span {
	if declares(line) {
		return nil
	}
	var out []span
	first := lastAssignment(line) + 1
	for i := max(first, 1); i < len(line); i++ {
		if !opensSlot(line, i-1) || line[i].Text == "(" && conditions(line[i-1].Text) {
			continue
		}
		if to := expression(line, i); to > i && endsSlot(line, to) {
			out = append(out, span{i, to})
		}
	}
	return out
}

// conditions tells whether brackets behind a word hold its condition, and are no
// expression of their own.
func conditions(s string) bool {
	return slices.Contains([]string{"if", "while", "for", "switch", "catch", "elseif", "until", "match", "unless", "synchronized"}, s)
}

// declares tells whether a line declares or names something.
func declares(line []corpus.Token) bool {
	return slices.ContainsFunc(line[:min(len(line), 3)], func(t corpus.Token) bool {
		switch t.Text {
		case "func", "fn", "def", "function", "class", "struct", "interface", "type", "enum", "trait", "impl", "module",
			"package", "import", "use", "from", "namespace", "using", "template", "typedef", "extends", "throws", "catch", "void",
			"mod", "macro_rules", "data", "newtype", "instance", "deriving", "where", "goto", "#", "export", "local", "create", "drop", "alter", "grant", "revoke", "public", "private", "protected", "static", "extern", "pub":
			return true
		}
		return false
	})
}

// atomWord reports whether a word of a language is an operand.
func atomWord(s string) bool {
	switch s {
	case "nil", "true", "false", "null", "None", "True", "False", "undefined", "this", "self", "super", "NULL", "nullptr", "iota":
		return true
	}
	return false
}

// word reports whether a token is a word of the language, none of the classes.
func word(s string) bool {
	c := s[0]
	return !operandClass(s) && (c == '_' || 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z')
}

func operandClass(s string) bool {
	return s == corpus.AnyName || s == corpus.CapitalName || s == corpus.UpperName || s == corpus.AnyNumber
}

// assigns reports whether a token parts what is given a value from the value.
func assigns(s string) bool {
	switch s {
	case "==", "!=", "<=", ">=", "===", "!==", "/=":
		return false
	}
	return strings.HasSuffix(s, "=")
}

// lastAssignment returns the index of the last assignment outside brackets.
func lastAssignment(line []corpus.Token) int {
	depth, last := 0, -1
	for i, t := range line {
		switch {
		case isOpener(t.Text):
			depth++
		case isCloser(t.Text):
			depth--
		case depth == 0 && assigns(t.Text):
			last = i
		}
	}
	return last
}

// opensSlot tells whether an expression may follow the token of index i.
func opensSlot(line []corpus.Token, i int) bool {
	s := line[i].Text
	switch {
	case s == "(" || s == "[":
		return true
	case s == ",", s == ";", s == ":":
		return true
	}
	return assigns(s) || word(s) && !atomWord(s) && !names(s)
}

// names tells whether a name, and no expression, follows a word.
func names(s string) bool {
	switch s {
	case "as", "into", "from", "join", "table", "view", "update", "user", "new", "goto":
		return true
	}
	return false
}

// endsSlot tells whether an expression may end before the token of index i.
func endsSlot(line []corpus.Token, i int) bool {
	if i == len(line) {
		return true
	}
	switch t := line[i]; t.Text {
	case ")", "]", ",", ";", ":":
		return true
	case "{":
		return t.Spaced
	}
	return false
}

// expression returns the end of the expression that begins at i, -1 where
// there is none.
func expression(line []corpus.Token, i int) int {
	for i < len(line) && prefix(line, i) {
		i++
	}
	i = operand(line, i)
	for i > 0 {
		next := behind(line, i)
		if next < 0 {
			break
		}
		i = next
	}
	if i > 0 && i+1 < len(line) && joins(line, i) {
		if to := expression(line, i+1); to > 0 {
			return to
		}
	}
	return i
}

// prefix reports whether an operator before its operand stands at i.
func prefix(line []corpus.Token, i int) bool {
	switch line[i].Text {
	case "!", "-", "*", "&", "~", "not":
		return i+1 < len(line) && (!line[i+1].Spaced || line[i].Text == "not")
	}
	return false
}

// joins reports whether an operator between two operands stands at i.
func joins(line []corpus.Token, i int) bool {
	return joinsTokens(line[i], line[i+1])
}

func joinsTokens(op, next corpus.Token) bool {
	if !op.Spaced || !next.Spaced {
		return false
	}
	switch op.Text {
	case "+", "-", "*", "/", "%", "&&", "||", "==", "!=", "<", ">", "<=", ">=", "&", "|", "^", "<<", ">>", "===", "!==", "and", "or", "in", "is", "..", "~=", "++", "<>":
		return true
	}
	return false
}

func operand(line []corpus.Token, i int) int {
	switch {
	case i >= len(line):
		return -1
	case operandClass(line[i].Text) || atomWord(line[i].Text):
		return i + 1
	case isQuote(line[i].Text):
		return quoted(line, i)
	case line[i].Text == "(" || line[i].Text == "[":
		return list(line, i)
	}
	return -1
}

// quoted returns the end of the string that begins at i.
func quoted(line []corpus.Token, i int) int {
	for j := i + 1; j < len(line) && j <= i+2; j++ {
		if line[j].Text == line[i].Text {
			return j + 1
		}
	}
	return -1
}

// behind returns the end of a member, a call or an index that stands behind an
// operand at i, -1 where there is none.
func behind(line []corpus.Token, i int) int {
	switch {
	case i >= len(line) || line[i].Spaced:
		return -1
	case line[i].Text == "(" || line[i].Text == "[":
		return list(line, i)
	case i+1 < len(line) && (line[i].Text == "." || line[i].Text == "->" || line[i].Text == "::" || line[i].Text == ":") && operandClass(line[i+1].Text) && !line[i+1].Spaced:
		return i + 2
	}
	return -1
}

// list returns the end of what stands in brackets, from the opening one at i.
func list(line []corpus.Token, i int) int {
	closer := closerOf(line[i].Text)
	for i++; i < len(line); i++ {
		if line[i].Text == closer {
			return i + 1
		}
		i = expression(line, i)
		if i > 0 && i < len(line) && line[i].Text == "=" && !line[i].Spaced { // a named argument
			i = expression(line, i+1)
		}
		if i < 0 || i >= len(line) {
			return -1
		}
		if line[i].Text == closer {
			return i + 1
		}
		if line[i].Text != "," {
			return -1
		}
	}
	return -1
}
