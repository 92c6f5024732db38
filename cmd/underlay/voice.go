package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"underlay/drills/board"
)

// How the program speaks when something is wrong. Errors go to standard error,
// in lower case, as: what was tried, the value in quotes, the cause. What to do
// about it stands on a line of its own after "hint:". A fault in a file comes
// as file:line:column. Text from files and arguments is made safe by quoting or
// by safe. Nothing else in the program prints an error, and nothing is both
// printed and returned.

// Exit statuses.
const (
	failed  = 1 // what was asked for could not be done
	misused = 2 // the command line or a file of the user's is at fault
)

// problem is an error with advice and an exit status.
type problem struct {
	cause  error
	hint   string
	status int
}

func (p *problem) Error() string { return p.cause.Error() }
func (p *problem) Unwrap() error { return p.cause }

// misuse is an error in how the command was used: exit status 2.
func misuse(format string, args ...any) *problem {
	return &problem{cause: fmt.Errorf(format, args...), status: misused}
}

// failure is an error with exit status 1.
func failure(format string, args ...any) *problem {
	return &problem{cause: fmt.Errorf(format, args...), status: failed}
}

// hinted adds advice to an error and keeps its exit status.
func hinted(err error, format string, args ...any) *problem {
	return &problem{cause: err, hint: fmt.Sprintf(format, args...), status: statusOf(err)}
}

// hinted adds advice, one sentence without a full stop.
func (p *problem) hinted(format string, args ...any) *problem {
	p.hint = fmt.Sprintf(format, args...)
	return p
}

// tell prints err and returns the exit status that goes with it.
func (e *Env) tell(err error) int {
	if f, ok := errors.AsType[*board.FaultError](err); ok {
		e.tellFindings(f.Findings)
		return misused
	}
	fmt.Fprintf(e.Stderr, "underlay: %s\n", safe(err.Error()))
	if p, ok := errors.AsType[*problem](err); ok && p.hint != "" {
		fmt.Fprintf(e.Stderr, "hint: %s\n", safe(p.hint))
	}
	return statusOf(err)
}

func statusOf(err error) int {
	if p, ok := errors.AsType[*problem](err); ok && p.status != 0 {
		return p.status
	}
	return failed
}

// safe makes text from outside fit for a terminal; see board.Safe. Line ends
// stay.
func safe(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = board.Safe(l)
	}
	return strings.Join(lines, "\n")
}

// tried says what was attempted with a file, keeping the system's cause and
// leaving out the path that it repeats.
func tried(what, file string, err error) error {
	if p, ok := errors.AsType[*os.PathError](err); ok {
		err = p.Err
	}
	return fmt.Errorf("%s %q: %w", what, file, err)
}
