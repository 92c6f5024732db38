package journal

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"iter"
	"time"
)

// merger joins the drills of several files.
type merger struct {
	sources []*source
	met     map[drillID]bool
	err     error
}

// drillID tells drills apart: two lines with the same one are copies.
type drillID struct {
	ms  int64
	sum uint32
}

// source is one file and the next drill in it.
type source struct {
	*lines
	dec   *decoder
	head  Drill
	sum   uint32 // of the head's line
	live  bool   // there is a head
	newer bool   // a header of a newer version ended it
	last  time.Time
}

// merge opens all files from a position on.
func (h *History) merge(from Position) *merger {
	m := &merger{met: map[drillID]bool{}}
	dec := newDecoder()
	for _, f := range h.files {
		at := from.in(f.Name)
		l, err := openLines(h.dir, at, f.Size)
		if err != nil {
			m.err = errors.Join(m.err, err)
			continue
		}
		s := &source{lines: l, dec: dec, last: at.Last}
		m.sources = append(m.sources, s)
		m.advance(s)
	}
	return m
}

func (m *merger) close() {
	for _, s := range m.sources {
		s.close()
	}
}

// read is the number of bytes read so far.
func (m *merger) read() (n int64) {
	for _, s := range m.sources {
		n += s.next
	}
	return n
}

// drills yields the earliest head, again and again.
func (m *merger) drills() iter.Seq[Drill] {
	return func(yield func(Drill) bool) {
		for s := m.earliest(); s != nil; s = m.earliest() {
			d, id := s.head, drillID{s.head.At.UnixMilli(), s.sum}
			m.advance(s)
			if m.met[id] {
				continue
			}
			m.met[id] = true
			if !yield(d) {
				return
			}
		}
	}
}

// earliest returns the source with the first head by time; with the same time
// the content decides, never the file.
func (m *merger) earliest() (first *source) {
	for _, s := range m.sources {
		if s.live && (first == nil || s.compare(first) < 0) {
			first = s
		}
	}
	return first
}

func (s *source) compare(t *source) int {
	return cmp.Or(s.head.At.Compare(t.head.At), cmp.Compare(s.head.Session, t.head.Session), cmp.Compare(s.sum, t.sum))
}

// advance reads the next drill of s.
func (m *merger) advance(s *source) {
	err := s.advance()
	s.live = err == nil
	if err != nil && !errors.Is(err, io.EOF) {
		m.err = errors.Join(m.err, fmt.Errorf("read %s: %w", s.name, err))
	}
}

func (s *source) advance() error {
	for {
		if err := s.scan(); err != nil {
			return err
		}
		switch kindOf(s.text) {
		case "drill":
			if s.take() {
				return nil
			}
		case "header":
			if s.header(); s.newer {
				return io.EOF
			}
		}
	}
}

// take makes the line just read the head.
func (s *source) take() bool {
	r, err := s.dec.record(s.text)
	if err != nil {
		s.bad(err)
		return false
	}
	s.head, s.sum = r.(Drill), checksum(s.text)
	if s.head.At.After(s.last) {
		s.last = s.head.At
	}
	return true
}

func (s *source) header() {
	r, err := s.dec.record(s.text)
	if err != nil {
		s.bad(err)
		return
	}
	if v := r.(Header).Version; v > Version {
		s.newer = true
		s.report(s.count, s.start, Newer, newerReason(v))
	}
}

// position is the place up to which s was read.
func (s *source) position() FilePosition {
	at := FilePosition{Name: s.name, Size: s.next, Lines: s.count, Last: s.last}
	if s.newer {
		at.Size, at.Lines = s.start, s.count-1
	}
	return at
}
