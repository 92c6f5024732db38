package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"iter"
	"time"
)

// Version is the newest version of the format that this package reads, and
// the one that it writes.
const Version = 1

// NewerError says that a file was written by a newer underlay. It is left as it is.
type NewerError struct {
	File    string
	Version int
}

func (e *NewerError) Error() string {
	return fmt.Sprintf("%s has version %d of the journal's format; this underlay knows version %d", e.File, e.Version, Version)
}

// Journal writes the file of one machine. It is not safe for use by several
// goroutines at once.
type Journal struct {
	store   Store
	machine string
	unlock  func() error
}

// Open takes the lock of machine's file in s: ErrLocked when another process
// has it, *NewerError when the file is of a newer version. Nothing is written
// before the first Append.
func Open(s Store, machine string) (*Journal, error) {
	unlock, err := s.Lock(machine + ".lock")
	if err != nil {
		return nil, err
	}
	return &Journal{store: s, machine: machine, unlock: unlock}, nil
}

// Append writes a Board, Drill or Strike and returns when it survives a crash.
// After an error nothing of it counts as written, and the same record may be
// tried again. A Board that the file has already is not written again; the
// board of a Drill has to be appended before it.
func (j *Journal) Append(r Record) error { return errors.ErrUnsupported }

// Close gives the lock back.
func (j *Journal) Close() error { return j.unlock() }

// History is what the files in a directory say together: those of several
// machines, in an order that depends on their content alone, every drill once.
type History struct{ dir fs.FS }

// Read finds the journal files in dir. A directory without any is an empty history.
func Read(dir fs.FS) (*History, error) { return &History{dir}, nil }

// Drills yields what was practised after from (the zero Position: from the
// start), without the sessions that were struck.
func (h *History) Drills(from Position) iter.Seq[Drill] { return func(func(Drill) bool) {} }

// Boards returns the board files that the history has met, by hash.
func (h *History) Boards() map[string]Board { return nil }

// Struck returns the sessions that do not count, with what struck them.
func (h *History) Struck() map[string]Strike { return nil }

// Problems lists what could not be read, of what was read so far.
func (h *History) Problems() []Problem { return nil }

// Err is the first error of reading that was not the journal's own fault.
func (h *History) Err() error { return nil }

// Position is the place in all files up to which the history was read.
func (h *History) Position() Position { return Position{} }

// Problem is a place in a file that could not be read.
type Problem struct {
	File   string      `json:"file"`
	Line   int         `json:"line"`   // 1-based
	Offset int64       `json:"offset"` // of the line's first byte
	Kind   ProblemKind `json:"kind"`
	Reason string      `json:"reason"`
}

// ProblemKind says what is wrong with a place in a file.
type ProblemKind string

const (
	Bad   ProblemKind = "bad"   // a line that does not fit its checksum, or says nothing sensible; skipped
	Torn  ProblemKind = "torn"  // a last line without its end, as a crash leaves it
	Newer ProblemKind = "newer" // from here on the file is of a newer version; not read
)

// Position tells how far a history was read: how long each file was, and a
// checksum of its end, by which it is known again.
type Position struct {
	Files []FilePosition `json:"files,omitempty"`
	Last  time.Time      `json:"last"` // time of the latest drill
}

// FilePosition is a Position in one file.
type FilePosition struct {
	Name  string `json:"name"`
	Size  int64  `json:"size"`
	Lines int    `json:"lines"`
	Check uint32 `json:"check"` // CRC-32C of the last bytes before Size
}

// Cache keeps one file of what was derived from a history, so that the next
// run reads only what is new.
type Cache struct {
	Store Store
	Name  string
}

// Load returns what was saved under key and the position to go on from. It is
// nil, and the zero Position, when there is nothing that fits the history: then
// all is to be derived again.
func (c Cache) Load(key string, h *History) ([]byte, Position) { return nil, Position{} }

// Save keeps data, derived from the history up to at.
func (c Cache) Save(key string, at Position, data []byte) error { return errors.ErrUnsupported }
