package journal

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
)

const (
	suffix = ".journal"
	// maxLine bounds a line; what is longer is no record.
	maxLine = 4 << 20
	// maxProblems bounds what is told of one file; the rest is counted.
	maxProblems = 1000
)

// names lists the journal files in dir, sorted. Hidden files are left out: tools
// that synchronise directories use them for what is not complete.
func names(dir fs.FS) ([]string, error) {
	entries, err := fs.ReadDir(dir, ".")
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	var list []string
	for _, e := range entries {
		if n := e.Name(); strings.HasSuffix(n, suffix) && !strings.HasPrefix(n, ".") && !e.IsDir() {
			list = append(list, n)
		}
	}
	return list, err
}

// lines reads the lines of one file, between two offsets.
type lines struct {
	name  string
	file  fs.File
	in    *bufio.Reader
	long  []byte // a line that does not fit into in's buffer
	size  int64  // of the line just read, its end included
	start int64  // offset of the last complete line
	next  int64  // offset after it
	count int    // complete lines met, bad ones included
	text  []byte // JSON of the last good line

	problems []Problem
	untold   int
}

// openLines opens a file to be read from at on, up to limit bytes.
func openLines(dir fs.FS, at FilePosition, limit int64) (*lines, error) {
	f, err := dir.Open(at.Name)
	if err != nil {
		return nil, err
	}
	if err := skip(f, at.Size); err != nil {
		f.Close()
		return nil, fmt.Errorf("read %s from byte %d: %w", at.Name, at.Size, err)
	}
	left := limit - at.Size
	in := bufio.NewReaderSize(io.LimitReader(f, left), int(min(left, 128<<10)))
	return &lines{name: at.Name, file: f, in: in, start: at.Size, next: at.Size, count: at.Lines}, nil
}

func skip(f fs.File, n int64) error {
	if n == 0 {
		return nil
	}
	if s, ok := f.(io.Seeker); ok {
		_, err := s.Seek(n, io.SeekStart)
		return err
	}
	_, err := io.CopyN(io.Discard, f, n)
	return err
}

func (l *lines) close() { l.file.Close() }

// scan goes to the next good line and leaves its JSON in text, which serves
// until the next call. At the end it returns io.EOF.
func (l *lines) scan() error {
	for {
		line, err := l.raw()
		if err != nil {
			if errors.Is(err, io.EOF) && l.size > 0 {
				l.report(l.count+1, l.next, Torn, fmt.Sprintf("%d bytes without an end of line", l.size))
			}
			return err
		}
		l.start, l.next, l.count = l.next, l.next+l.size, l.count+1
		if l.size > maxLine {
			err = fmt.Errorf("the line is longer than %d bytes", maxLine)
		} else {
			l.text, err = content(line)
		}
		if err == nil {
			return nil
		}
		l.bad(err)
	}
}

// raw reads the next line, with its end. Of one that is too long it keeps the beginning.
func (l *lines) raw() ([]byte, error) {
	part, err := l.in.ReadSlice('\n')
	l.size = int64(len(part))
	if !errors.Is(err, bufio.ErrBufferFull) {
		return part, err
	}
	l.long = append(l.long[:0], part...)
	for errors.Is(err, bufio.ErrBufferFull) {
		part, err = l.in.ReadSlice('\n')
		l.size += int64(len(part))
		if len(l.long) <= maxLine {
			l.long = append(l.long, part...)
		}
	}
	return l.long, err
}

// bad reports the last line.
func (l *lines) bad(err error) { l.report(l.count, l.start, Bad, err.Error()) }

func (l *lines) report(line int, at int64, kind ProblemKind, reason string) {
	if len(l.problems) >= maxProblems && kind == Bad {
		l.untold++
		return
	}
	l.problems = append(l.problems, Problem{l.name, line, at, kind, reason})
}

// told returns the problems, with a last one that counts those left out.
func (l *lines) told() []Problem {
	if l.untold == 0 {
		return l.problems
	}
	return append(slices.Clip(l.problems), Problem{l.name, l.count, l.next, Bad, fmt.Sprintf("and %d more bad lines", l.untold)})
}
