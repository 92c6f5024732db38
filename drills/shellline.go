package drills

import (
	"slices"
	"strings"

	"underlay/corpus"
	"underlay/corpus/code"
)

// What a line of the shell means hangs on words at its ends and on spaces,
// which what follows what does not tell. So lines of the shell are tried.

// shellCommand tells whether a line stands by itself in a script: it neither goes on
// a line before nor is gone on with, opens no document, and its compound
// commands are whole.
func shellCommand(line []corpus.Token) bool {
	first, last := line[0].Text, line[len(line)-1].Text
	switch {
	case strings.Trim(first, "|&;)<>.,:-+=/]") == "" || first == corpus.Body || first == corpus.AnyNumber:
		return false
	case strings.Trim(last, "|&\\,<>-=+") == "" || last == ";;" || last == "in" && first != "case":
		return false
	case len(line) == 1 && first == corpus.UpperName: // the end of a document
		return false
	case first == "(" && (len(line) == 1 || line[1].Text == ")"):
		return false
	}
	return compound(line, first, last) && !slices.ContainsFunc(line, func(t corpus.Token) bool { return strings.Contains(t.Text, "<<") }) &&
		shellBrackets(line)
}

// compound tells whether a compound command has its other words.
func compound(line []corpus.Token, first, last string) bool {
	count := func(words ...string) (n int) {
		for _, t := range line {
			if slices.Contains(words, t.Text) {
				n++
			}
		}
		return n
	}
	switch first {
	case "if", "elif":
		return len(line) > 3 && (last == "then" || last == "fi") && count("then") == 1 && count("do", "done", ";;") == 0
	case "for", "select":
		return len(line) > 4 && line[1].Text == corpus.AnyName && line[2].Text == "in" && (last == "do" || last == "done") && count("do") == 1
	case "while", "until":
		return len(line) > 3 && (last == "do" || last == "done") && count("do") == 1
	case "case":
		return len(line) > 2 && last == "in"
	}
	return count("then", "do", "done", "fi", "esac", "in", ";;", "elif", "else") == 0
}

// shellBrackets tells whether brackets stand where the shell knows them: round ones
// behind a dollar sign, by themselves or empty behind a name; square ones as a
// test with space inside, or as an index in curly ones; curly ones behind a
// dollar sign, or with space.
func shellBrackets(line []corpus.Token) bool {
	var open string
	for i, t := range line {
		before := ""
		if i > 0 && !t.Spaced {
			before = line[i-1].Text
		}
		dollar := strings.HasSuffix(before, "$")
		switch t.Text {
		case "(":
			empty := i+1 < len(line) && line[i+1].Text == ")"
			if !dollar && !t.Spaced && i > 0 && !strings.HasSuffix(before, "=") && before != "(" && !empty {
				return false
			}
			open += t.Text
		case "[":
			index := strings.HasSuffix(open, "{") && operandClass(before)
			if before != "" && before != "[" && !index || !index && i+1 < len(line) && line[i+1].Text != "[" && !line[i+1].Spaced {
				return false
			}
			open += t.Text
		case "{":
			if before != "" && !dollar {
				return false
			}
			open += t.Text
		case ")", "]", "}":
			open = open[:max(len(open)-1, 0)]
		default:
			if strings.HasSuffix(open, "{") && t.Spaced && !line[lastOpen(line[:i])].Spaced && i > 0 && dollarBefore(line, i) {
				return false // a space where a parameter is expanded
			}
		}
	}
	return !strings.HasSuffix(open, "{") || !dollarBefore(line, len(line))
}

// lastOpen is the index of the last curly bracket that opens.
func lastOpen(line []corpus.Token) int {
	for i := len(line) - 1; i > 0; i-- {
		if line[i].Text == "{" {
			return i
		}
	}
	return 0
}

// dollarBefore tells whether the last curly bracket before i opens the
// expansion of a parameter.
func dollarBefore(line []corpus.Token, i int) bool {
	at := lastOpen(line[:i])
	return at > 0 && !line[at].Spaced && strings.HasSuffix(line[at-1].Text, "$")
}

// flag makes the letters of an option where one stands for the token of index
// i: those of a test where a test is open.
func (t *teller) flag(line []corpus.Token, i int) (string, bool) {
	if t.grammar.Form != code.Commands || i == 0 || line[i].Spaced || line[i-1].Text != "-" && line[i-1].Text != "+" || i > 1 && !line[i-1].Spaced {
		return "", false
	}
	tests := []string{"f", "d", "e", "n", "r", "s", "x", "z"}
	test := slices.ContainsFunc(line[:i], func(t corpus.Token) bool { return t.Text == "[" || t.Text == "test" })
	switch {
	case test && i > 2 && line[i-2].Text != "[" && line[i-2].Text != "test" && line[i-2].Text != "!":
		tests = []string{"eq", "ne", "lt", "gt", "le", "ge"}
	case !test:
		return string(t.spell(1, t.rng)), true
	}
	return tests[t.rng.IntN(len(tests))], true
}

// commands tells whether the token of index i is the name of what a command runs.
func commands(line []corpus.Token, i int) bool {
	if i+1 < len(line) && !line[i+1].Spaced {
		return false
	}
	if i == 0 {
		return true
	}
	switch line[i-1].Text {
	case "|", "&&", "||", ";", "then", "do", "if", "!", "(", "{", "while", "until", "exec":
		return true
	}
	return false
}
