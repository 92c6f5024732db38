package board

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Level says how grave a finding is.
type Level int8

const (
	// Note is something that could be better.
	Note Level = iota
	// Warning is something that will probably be missed.
	Warning
	// Fault makes the board unusable until it is mended.
	Fault
)

func (l Level) String() string { return [...]string{"note", "warning", "fault"}[l] }

// Finding is something about a board file worth telling its author.
type Finding struct {
	File      string
	Line, Col int // from 1; Col counts characters; 0 where there is no place
	Level     Level
	Entry     string // the text in question, as written; may be empty
	Message   string
	Hint      string // what to do about it; may be empty
}

// String gives the place, the level and the message on one line, safe for a terminal.
func (f Finding) String() string {
	place := Safe(f.File)
	if f.Line > 0 {
		place += fmt.Sprintf(":%d:%d", f.Line, max(f.Col, 1))
	}
	return fmt.Sprintf("%s: %s: %s", place, f.Level, Safe(f.Message))
}

// Findings are in the order of their places.
type Findings []Finding

// Err returns nil where no finding is a Fault, else an error that lists all faults.
func (f Findings) Err() error {
	var lines []string
	for _, x := range f {
		if x.Level != Fault {
			continue
		}
		line := x.String()
		if x.Hint != "" {
			line += "\n  " + Safe(x.Hint)
		}
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		return nil
	}
	return &FaultError{Findings: f, text: strings.Join(lines, "\n")}
}

// FaultError is a board file with faults.
type FaultError struct {
	Findings Findings
	text     string
}

func (e *FaultError) Error() string { return e.text }

func (f Findings) sort() {
	slices.SortStableFunc(f, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
}
