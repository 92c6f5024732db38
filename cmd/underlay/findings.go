package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"underlay/drills/board"
)

// tellFindings prints a line for each finding, in the order of the file, and
// its hint below.
func (e *Env) tellFindings(list board.Findings) {
	for _, f := range list {
		fmt.Fprintf(e.Stderr, "%s: %s%s\n", place(f), levelWord(f.Level), safe(f.Message))
		if f.Hint != "" {
			fmt.Fprintf(e.Stderr, "  hint: %s\n", safe(f.Hint))
		}
	}
}

// inShort is an error on a line of a list, with its hint: of faults in a file
// the first, and how many there are besides.
func inShort(err error) (text, hint string) {
	if f, ok := errors.AsType[*board.FaultError](err); ok {
		list := slices.DeleteFunc(slices.Clone(f.Findings), func(x board.Finding) bool { return x.Level != board.Fault })
		text = place(list[0]) + ": " + safe(list[0].Message)
		if more := len(list) - 1; more > 0 {
			text += fmt.Sprintf(" (and %d more)", more)
		}
		return text, list[0].Hint
	}
	if p, ok := errors.AsType[*problem](err); ok {
		hint = p.hint
	}
	text, _, _ = strings.Cut(err.Error(), "\n")
	return text, hint
}

// writeFault writes the fault of a line of a list, and its hint below.
func (e *Env) writeFault(text, hint string) {
	fmt.Fprintf(e.Stdout, "  at fault: %s\n", safe(text))
	if hint != "" {
		fmt.Fprintf(e.Stdout, "  hint: %s\n", safe(hint))
	}
}

// place is where a finding is: file:line:column as far as it is known.
func place(f board.Finding) string {
	switch {
	case f.Line == 0:
		return safe(f.File)
	case f.Col == 0:
		return fmt.Sprintf("%s:%d", safe(f.File), f.Line)
	}
	return fmt.Sprintf("%s:%d:%d", safe(f.File), f.Line, f.Col)
}

func levelWord(l board.Level) string {
	if l == board.Fault {
		return ""
	}
	return l.String() + ": "
}
