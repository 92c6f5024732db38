// Package journaltest makes journals for tests and benchmarks: in memory, on a
// disk that fails when asked to, and years of invented practice.
package journaltest

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"slices"
	"testing/fstest"

	"underlay/scheduler/journal"
)

// ErrFull is what a Store without space says.
var ErrFull = errors.New("no space left on device")

// Store keeps files in memory. Its zero value is empty and never fails.
type Store struct {
	Files map[string][]byte
	// Limited says that Space bounds the bytes that can still be written; a
	// write that is longer writes what fits and fails with ErrFull.
	Limited bool
	Space   int
	// What these are set to is returned instead of doing the work.
	SyncErr, TruncateErr, ReplaceErr, SyncDirErr error

	Writes, Syncs, DirSyncs int // calls that were made
	locked                  map[string]bool
}

// Clone returns a store with the same files and no faults.
func (s *Store) Clone() *Store { return &Store{Files: maps.Clone(s.Files)} }

// FS returns the files as they are now.
func (s *Store) FS() fs.FS {
	m := fstest.MapFS{}
	for name, b := range s.Files {
		m[name] = &fstest.MapFile{Data: slices.Clip(b), Mode: 0o600}
	}
	return m
}

func (s *Store) OpenAppend(name string) (journal.File, error) {
	if s.Files == nil {
		s.Files = map[string][]byte{}
	}
	if _, ok := s.Files[name]; !ok {
		s.Files[name] = nil
	}
	return &file{s, name}, nil
}

func (s *Store) Replace(name string, data []byte) error {
	if s.ReplaceErr != nil {
		return s.ReplaceErr
	}
	if s.Limited && len(data) > s.Space {
		return ErrFull
	}
	if s.Files == nil {
		s.Files = map[string][]byte{}
	}
	s.Space -= len(data)
	s.Files[name] = slices.Clone(data)
	return nil
}

func (s *Store) SyncDir() error {
	s.DirSyncs++
	return s.SyncDirErr
}

func (s *Store) Lock(name string) (func() error, error) {
	if s.locked == nil {
		s.locked = map[string]bool{}
	}
	if s.locked[name] {
		return nil, journal.ErrLocked
	}
	s.locked[name] = true
	return func() error { delete(s.locked, name); return nil }, nil
}

type file struct {
	store *Store
	name  string
}

func (f *file) Write(p []byte) (int, error) {
	s := f.store
	s.Writes++
	n := len(p)
	if s.Limited {
		n = min(n, s.Space)
		s.Space -= n
	}
	s.Files[f.name] = append(slices.Clip(s.Files[f.name]), p[:n]...)
	if n < len(p) {
		return n, ErrFull
	}
	return n, nil
}

func (f *file) ReadAt(p []byte, off int64) (int, error) {
	n := copy(p, f.store.Files[f.name][off:])
	if n < len(p) {
		return n, io.EOF
	}
	return n, nil
}

func (f *file) Size() (int64, error) { return int64(len(f.store.Files[f.name])), nil }

func (f *file) Truncate(size int64) error {
	s := f.store
	if s.TruncateErr != nil {
		return s.TruncateErr
	}
	s.Space += len(s.Files[f.name]) - int(size)
	s.Files[f.name] = s.Files[f.name][:size]
	return nil
}

func (f *file) Sync() error {
	f.store.Syncs++
	return f.store.SyncErr
}

func (f *file) Close() error { return nil }
