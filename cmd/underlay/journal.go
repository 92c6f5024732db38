package main

import (
	"errors"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"underlay/drills/board"
	"underlay/scheduler/journal"
)

func newJournal(env *Env) *cobra.Command {
	return group("journal", "Check, export and mend the record of your practice",
		`The journal holds everything you practised, stroke by stroke; all else is derived
from it. It is one file a machine in one directory, which any tool may
synchronise: each machine writes its own file, and all are read as one history.`,
		newJournalVerify(env), newJournalExport(env), newJournalPath(env), newJournalStrike(env))
}

// journalPlace is where the journal is.
type journalPlace struct {
	Directory string `json:"directory"`
	Machine   string `json:"machine"` // "" before anything was practised here
	File      string `json:"file"`    // of this machine, likewise
}

func newJournalPath(env *Env) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "path",
		Short: "Print the directory of the journal",
		Long: `Prints the directory of the journal; it may not be there yet. With --json, also
this machine's name and file, which are empty before anything was practised here.`,
		Example: `  cp -r "$(underlay journal path)" backup
  underlay journal path --json`,
		Args: takes(0, 0),
		RunE: func(*cobra.Command, []string) error {
			at, err := env.journalPlace()
			if err != nil {
				return err
			}
			if asJSON {
				return env.json(at)
			}
			_, err = fmt.Fprintln(env.Stdout, env.shown(at.Directory))
			return err
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	return c
}

func (e *Env) journalPlace() (at journalPlace, err error) {
	if at.Directory, err = need(e.Dirs.Journal()); err != nil {
		return at, err
	}
	if e.Dirs.State == "" {
		return at, nil
	}
	if at.Machine, err = journal.KnownMachine(e.Dirs.State); err == nil && at.Machine != "" {
		at.File = filepath.Join(at.Directory, journal.FileName(at.Machine))
	}
	return at, err
}

// shown is text that goes to standard output: as it is, but for a terminal,
// which it could drive.
func (e *Env) shown(text string) string {
	if e.Terminal(e.Stdout) {
		return board.Safe(text)
	}
	return text
}

// history reads the journal's directory.
func (e *Env) history() (*journal.History, error) {
	dir, err := need(e.Dirs.Journal())
	if err != nil {
		return nil, err
	}
	return journal.Read(journal.NewDisk(dir).FS())
}

// tellUnread warns of lines that were passed over. It fails when a file is of a newer version.
func (e *Env) tellUnread(h *journal.History) error {
	if err := h.Err(); err != nil {
		return err
	}
	var found board.Findings
	for _, p := range h.Problems() {
		switch p.Kind {
		case journal.Bad:
			found = append(found, board.Finding{File: p.File, Line: p.Line, Level: board.Warning, Message: "passed over: " + p.Reason})
		case journal.Newer:
			return newerJournal(errors.New(p.Reason))
		}
	}
	e.tellFindings(found)
	return nil
}

// newerJournal says what to do about a file that a newer program wrote. The
// file is at fault wherever it is met, so that the exit status is the same.
func newerJournal(err error) error {
	return misuse("%w", err).hinted("update underlay on this machine; the journal was left as it is")
}
