package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/config"
	"underlay/drills/board"
	"underlay/scheduler/journal"
)

func newJournalStrike(env *Env) *cobra.Command {
	var asJSON, undo bool
	c := &cobra.Command{
		Use:   "strike [SESSION…]",
		Short: "Take sessions out of your history, or list them",
		Long: `Without a SESSION, lists the last sessions, the newest at the end. With one or
more, takes them out of the history: somebody else typed, say. Nothing is
deleted: a record is appended that says so, and --undo appends one that puts
them back. The beginning of a session's name will do if no other begins so.

With --json, prints an array of all sessions, or of those struck or put back:
{"session", "start", "boards", "drills" (their kinds), "strokes", "wrong",
"practised_ms", "struck"}.`,
		Example: `  underlay journal strike
  underlay journal strike mbk3x9q1
  underlay journal strike --undo mbk3x9q1`,
		RunE: func(_ *cobra.Command, names []string) error {
			h, err := env.history()
			if err != nil {
				return err
			}
			all, err := h.Sessions()
			if err != nil {
				return err
			}
			if len(names) == 0 {
				return env.listSessions(all, undo, asJSON)
			}
			chosen, err := choose(all, names)
			if err == nil {
				err = env.strike(chosen, undo)
			}
			if err != nil {
				return err
			}
			return env.tellStruck(chosen, undo, asJSON)
		},
	}
	c.Flags().BoolVar(&undo, "undo", false, "put the sessions back")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON array")
	return c
}

// sessionRow is a session as JSON.
type sessionRow struct {
	Session     string    `json:"session"`
	Start       time.Time `json:"start"`
	Boards      []string  `json:"boards"`
	Drills      []string  `json:"drills"`
	Strokes     int       `json:"strokes"`
	Wrong       int       `json:"wrong"`
	PractisedMS float64   `json:"practised_ms"`
	Struck      bool      `json:"struck"`
}

func sessionRows(list []journal.Session) []sessionRow {
	rows := []sessionRow{}
	for _, s := range list {
		rows = append(rows, sessionRow{s.Name, s.Start, s.Boards, s.Kinds, s.Strokes, s.Wrong, rounded(s.MS, 1), s.Struck})
	}
	return rows
}

// lastSessions is how many sessions are shown; all are in the JSON.
const lastSessions = 20

func (e *Env) listSessions(all []journal.Session, undo, asJSON bool) error {
	switch {
	case undo:
		return misuse("journal strike: --undo needs the sessions to put back").hinted("%q lists them", "underlay journal strike")
	case asJSON:
		return e.json(sessionRows(all))
	case len(all) == 0:
		fmt.Fprintln(e.Stdout, "nothing was practised yet")
	}
	if n := len(all) - lastSessions; n > 0 {
		fmt.Fprintf(e.Stdout, "%s before these; --json lists all\n", counted(n, "session"))
		all = all[n:]
	}
	for _, s := range all {
		writeSession(e.Stdout, s)
	}
	return nil
}

func writeSession(w io.Writer, s journal.Session) {
	mark := ""
	if s.Struck {
		mark = "   struck"
	}
	share := 0.0
	if s.Strokes > 0 {
		share = 100 * float64(s.Wrong) / float64(s.Strokes)
	}
	fmt.Fprintf(w, "%-9s  %s  %4.1f min  %5d strokes  %4.1f %% wrong  %s%s\n", board.Safe(s.Name), s.Start.Format("2006-01-02 15:04"),
		s.MS/60000, s.Strokes, share, board.Safe(strings.Join(s.Boards, ", ")), mark)
}

// choose finds sessions by their names, or the beginnings of these.
func choose(all []journal.Session, names []string) ([]journal.Session, error) {
	var chosen []journal.Session
	for _, name := range names {
		var found []journal.Session
		for _, s := range all {
			if s.Name == name {
				found = []journal.Session{s}
				break
			}
			if strings.HasPrefix(s.Name, name) {
				found = append(found, s)
			}
		}
		switch {
		case len(found) > 1:
			return nil, misuse("%d sessions begin with %q, such as %q and %q", len(found), name, found[0].Name, found[1].Name)
		case len(found) == 0:
			return nil, noSession(all, name)
		}
		chosen = append(chosen, found[0])
	}
	return chosen, nil
}

func noSession(all []journal.Session, name string) error {
	var names []string
	for _, s := range all {
		names = append(names, s.Name)
	}
	p := misuse("there is no session %q", name)
	if near := config.DidYouMean(name, names); near != "" {
		return p.hinted("%s", near)
	}
	return p.hinted("%q lists them", "underlay journal strike")
}

// strike appends a record for each session that is not so yet.
func (e *Env) strike(chosen []journal.Session, undo bool) error {
	w := newWriter(e.Dirs)
	defer w.close()
	for _, s := range chosen {
		if s.Struck == !undo {
			continue
		}
		if err := w.open(); err != nil {
			return refused(err)
		}
		if err := w.journal.Append(journal.Strike{At: e.Now(), Session: s.Name, Undo: undo}); err != nil {
			return refused(err)
		}
	}
	return nil
}

// refused adds what to do when the journal is of a newer version.
func refused(err error) error {
	if _, ok := errors.AsType[*journal.NewerError](err); ok {
		return newerJournal(err)
	}
	return err
}

func (e *Env) tellStruck(chosen []journal.Session, undo, asJSON bool) error {
	for i := range chosen {
		chosen[i].Struck = !undo
	}
	if asJSON {
		return e.json(sessionRows(chosen))
	}
	what, back := "does not count any more", " --undo"
	if undo {
		what, back = "counts again", ""
	}
	for _, s := range chosen {
		fmt.Fprintf(e.Stdout, "%s of %s, %s, %s\n", board.Safe(s.Name), s.Start.Format("2006-01-02 15:04"), counted(s.Strokes, "stroke"), what)
		fmt.Fprintf(e.Stdout, "  to take that back: underlay journal strike%s %s\n", back, board.Safe(s.Name))
	}
	return nil
}
