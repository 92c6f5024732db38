package journal

import "fmt"

// NewerError says that a file was written by a newer underlay. It is left as it is.
type NewerError struct {
	File    string
	Version int
}

func (e *NewerError) Error() string { return e.File + " has " + newerReason(e.Version) }

func newerReason(version int) string {
	return fmt.Sprintf("version %d of the journal's format; this underlay knows version %d", version, Version)
}

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
