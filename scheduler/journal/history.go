package journal

import (
	"errors"
	"io"
	"io/fs"
	"iter"
	"maps"
	"slices"
)

// History is what the files in a directory say together: those of several
// machines, in an order that depends on their content alone, every drill once.
type History struct {
	dir   fs.FS
	files []FilePosition // as long as they were when Read saw them

	struck map[string]Strike
	boards map[string]Board

	problems []Problem
	err      error
	at       Position
	read     int64
}

// Read finds the journal files in dir. A directory without any, or that is
// not there, is an empty history. What is written later is not part of it.
func Read(dir fs.FS) (*History, error) {
	list, err := names(dir)
	if err != nil {
		return nil, err
	}
	h := &History{dir: dir}
	for _, name := range list {
		info, err := fs.Stat(dir, name)
		if err != nil {
			return nil, err
		}
		if info.Mode().IsRegular() {
			h.files = append(h.files, FilePosition{Name: name, Size: info.Size()})
		}
	}
	return h, nil
}

// size is that of a file, -1 for none.
func (h *History) size(name string) int64 {
	for _, f := range h.files {
		if f.Name == name {
			return f.Size
		}
	}
	return -1
}

// Drills yields what was practised after from (the zero Position: from the
// start), without the sessions that were struck. Files are merged by the time of
// their drills, and each keeps its own order. What cannot be read is
// passed over and told by Problems and Err.
func (h *History) Drills(from Position) iter.Seq[Drill] {
	return func(yield func(Drill) bool) {
		h.each(from, func(d Drill, struck bool) bool { return struck || yield(d) })
	}
}

// All yields all drills as Drills does, and tells of each whether its session was struck.
func (h *History) All() iter.Seq2[Drill, bool] {
	return func(yield func(Drill, bool) bool) { h.each(Position{}, yield) }
}

// each hands over drills until yield returns false.
func (h *History) each(from Position, yield func(d Drill, struck bool) bool) {
	struck, err := h.struckSince(from)
	m := h.merge(from)
	defer m.close()
	h.problems, h.err, h.at, h.read = nil, err, Position{}, 0
	for d := range m.drills() {
		h.read = m.read()
		if !yield(d, struck[d.Session]) {
			return
		}
	}
	h.finish(m, struck)
}

// finish keeps what there is to tell after all was read.
func (h *History) finish(m *merger, struck map[string]bool) {
	h.read = h.Size()
	h.at = Position{Struck: slices.Sorted(maps.Keys(struck)), whole: true}
	h.err = errors.Join(h.err, m.err)
	for _, s := range m.sources {
		h.problems = append(h.problems, s.told()...)
		at := s.position()
		sum, err := tail(h.dir, at)
		h.err = errors.Join(h.err, err)
		at.Check = sum
		h.at.Files = append(h.at.Files, at)
	}
	h.at.whole = h.err == nil
}

// Problems lists what could not be read, after Drills came to its end.
func (h *History) Problems() []Problem { return h.problems }

// Err tells what kept Drills from reading files, if anything did.
func (h *History) Err() error { return h.err }

// Position is the place up to which Drills has read. It is of use after it
// came to its end without Err.
func (h *History) Position() Position { return h.at }

// Size is the length of all files in bytes.
func (h *History) Size() (n int64) {
	for _, f := range h.files {
		n += f.Size
	}
	return n
}

// Progress is the share of Size that Drills has read.
func (h *History) Progress() float64 {
	if size := h.Size(); size > 0 {
		return float64(h.read) / float64(size)
	}
	return 1
}

// Boards returns the board files that the history has met, by hash.
func (h *History) Boards() (map[string]Board, error) {
	err := h.survey()
	return h.boards, err
}

// Struck returns the sessions that do not count, with what struck them.
func (h *History) Struck() (map[string]Strike, error) {
	err := h.survey()
	return h.struck, err
}

// struckSince returns the sessions that do not count. A position that can be
// followed knows them already.
func (h *History) struckSince(from Position) (map[string]bool, error) {
	struck := map[string]bool{}
	if from.whole {
		for _, s := range from.Struck {
			struck[s] = true
		}
		return struck, nil
	}
	err := h.survey()
	for s := range h.struck {
		struck[s] = true
	}
	return struck, err
}

// survey looks through all files for strikes and boards, once.
func (h *History) survey() error {
	if h.struck != nil {
		return nil
	}
	struck, boards := map[string]Strike{}, map[string]Board{}
	for _, f := range h.files {
		own := map[string]Strike{} // in one file the last one holds, whatever its time
		err := h.records(f, func(r Record) {
			switch r := r.(type) {
			case Strike:
				own[r.Session] = r
			case Board:
				if b, ok := boards[r.Hash]; !ok || r.At.Before(b.At) {
					boards[r.Hash] = r
				}
			}
		})
		if err != nil {
			return err
		}
		for session, s := range own {
			if t, ok := struck[session]; !ok || s.At.After(t.At) || s.At.Equal(t.At) && !s.Undo {
				struck[session] = s
			}
		}
	}
	maps.DeleteFunc(struck, func(_ string, s Strike) bool { return s.Undo })
	h.struck, h.boards = struck, boards
	return nil
}

// records hands the boards and strikes of a file to f.
func (h *History) records(at FilePosition, f func(Record)) error {
	l, err := openLines(h.dir, FilePosition{Name: at.Name}, at.Size)
	if err != nil {
		return err
	}
	defer l.close()
	d := newDecoder()
	for {
		if err := l.scan(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
		switch kindOf(l.text) {
		case "header", "board", "strike":
			r, err := d.record(l.text)
			if err != nil {
				continue
			}
			if head, ok := r.(Header); ok && head.Version > Version {
				return nil
			}
			f(r)
		}
	}
}
