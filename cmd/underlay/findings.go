package main

import (
	"fmt"

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
