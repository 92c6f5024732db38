package main

import (
	"errors"

	"underlay/drills/board"
	"underlay/scheduler/journal"
)

// writer puts drills on this machine's journal. It opens the journal with the
// first one, so that who only looks leaves no file behind.
type writer struct {
	dirs    Dirs
	journal *journal.Journal
	boards  map[string]bool // hashes that the journal has
}

func newWriter(d Dirs) *writer { return &writer{dirs: d, boards: map[string]bool{}} }

// open takes the journal, or says who has it.
func (w *writer) open() error {
	if w.journal != nil {
		return nil
	}
	data, err := need(w.dirs.Journal())
	if err != nil {
		return err
	}
	state, err := need(w.dirs.State)
	if err != nil {
		return err
	}
	machine, err := journal.Machine(state)
	if err != nil {
		return unkept(state, err)
	}
	j, err := journal.Open(journal.NewDisk(data), machine)
	if errors.Is(err, journal.ErrLocked) {
		return failure("%w", err).hinted("practise there, or leave it first; looking at plan and progress is fine")
	}
	if newer, ok := errors.AsType[*journal.NewerError](err); ok {
		return newerJournal(newer)
	}
	if err != nil {
		return unkept(data, err)
	}
	w.journal = j
	return nil
}

// unkept says that practice could not be kept in a directory.
func unkept(dir string, err error) error {
	return hinted(tried("keep the journal in", dir, err), "nothing that is practised could be kept; plan, where and progress only look")
}

// record returns when the drill, typed on a board, survives a crash.
func (w *writer) record(d journal.Drill, on *board.Board) error {
	if err := w.open(); err != nil {
		return err
	}
	if !w.boards[d.Hash] {
		if err := w.journal.Append(journal.Board{At: d.At, Name: on.Name, Hash: d.Hash, Source: string(on.Source())}); err != nil {
			return err
		}
		w.boards[d.Hash] = true
	}
	return w.journal.Append(d)
}

func (w *writer) close() error {
	if w.journal == nil {
		return nil
	}
	j := w.journal
	w.journal = nil
	return j.Close()
}
