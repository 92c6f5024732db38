package journal

import (
	"errors"
	"io/fs"
)

// Store is the directory that a journal or a cache is kept in. Names are plain
// file names. NewDisk gives one on disk.
type Store interface {
	// FS reads the directory. One that does not exist reads as empty.
	FS() fs.FS
	// OpenAppend opens a file for writing at its end. It makes the file, and
	// the directory, if need be.
	OpenAppend(name string) (File, error)
	// Replace writes a whole file: after a crash it is the old or the new one.
	Replace(name string, data []byte) error
	// SyncDir makes the names in the directory survive a crash.
	SyncDir() error
	// Lock takes the lock of that name, or fails with ErrLocked at once.
	Lock(name string) (unlock func() error, err error)
}

// File is a file of a Store that is written at its end.
type File interface {
	// Write adds at the end.
	Write(p []byte) (int, error)
	ReadAt(p []byte, off int64) (int, error)
	Size() (int64, error)
	// Truncate cuts the file to size bytes.
	Truncate(size int64) error
	// Sync returns when all that was written survives a crash.
	Sync() error
	Close() error
}

// ErrLocked says that another process writes this machine's journal.
var ErrLocked = errors.New("another underlay is writing this journal")
