package journal

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"time"
)

// Version is the newest version of the format that this package reads, and
// the one that it writes.
const Version = 1

// Journal writes the file of one machine. It is not safe for use by several
// goroutines at once.
type Journal struct {
	store   Store
	machine string
	name    string
	unlock  func() error

	size   int64           // of the file as this journal left it; -1 before the first append
	spoilt int64           // bytes that a failed append may have left after size
	named  bool            // the file's name survives a crash
	head   bool            // the file has a header
	boards map[string]bool // hashes that the file has; nil before the file was looked through
}

// Open takes the lock of machine's file in s: ErrLocked when another process
// has it, *NewerError when the file is of a newer version. Nothing is written
// to the journal before the first Append.
func Open(s Store, machine string) (*Journal, error) {
	if !validMachine(machine) {
		return nil, fmt.Errorf("open the journal: %q is no name of a machine", machine)
	}
	unlock, err := s.Lock(machine + ".lock")
	if err != nil {
		return nil, err
	}
	j := &Journal{store: s, machine: machine, name: FileName(machine), unlock: unlock, size: -1}
	if err := j.firstHeader(); err != nil {
		return nil, errors.Join(err, unlock())
	}
	return j, nil
}

// firstHeader refuses a file of a newer version at once. The others in the
// file are met by survey.
func (j *Journal) firstHeader() error {
	l, err := openLines(j.store.FS(), FilePosition{Name: j.name}, maxLine)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer l.close()
	if err := l.scan(); err != nil || kindOf(l.text) != "header" {
		return nil
	}
	return j.header(l.text)
}

func (j *Journal) header(text []byte) error {
	r, err := newDecoder().record(text)
	if err != nil {
		return nil // a bad line like any other
	}
	if v := r.(Header).Version; v > Version {
		return &NewerError{j.name, v}
	}
	j.head = true
	return nil
}

// Close gives the lock back.
func (j *Journal) Close() error { return j.unlock() }

// Append writes a Board, Drill or Strike and returns when it survives a crash.
// After an error nothing of it counts as written, and the same record may be
// tried again. A Board that the file has already is not written again; the
// board of a Drill has to be appended before it.
func (j *Journal) Append(r Record) error {
	line, err := Encode(r)
	if err != nil {
		return err
	}
	if err := j.append(r, line); err != nil {
		return fmt.Errorf("write the journal: %w", err)
	}
	return nil
}

func (j *Journal) append(r Record, line []byte) error {
	f, err := j.open(r.When())
	if err != nil {
		return err
	}
	defer f.Close()
	b, isBoard := r.(Board)
	if isBoard && j.boards[b.Hash] {
		return nil
	}
	if !j.head {
		head, err := Encode(Header{r.When(), Version, j.machine})
		if err != nil {
			return err
		}
		line = append(head, line...)
	}
	if err := j.write(f, line); err != nil {
		return err
	}
	j.head = true
	if isBoard {
		j.boards[b.Hash] = true
	}
	return nil
}

// survey looks through the file for boards and headers, once.
func (j *Journal) survey() error {
	if j.boards != nil {
		return nil
	}
	boards := map[string]bool{}
	j.head = false
	l, err := openLines(j.store.FS(), FilePosition{Name: j.name}, 1<<62)
	if errors.Is(err, fs.ErrNotExist) {
		j.boards = boards
		return nil
	}
	if err != nil {
		return err
	}
	defer l.close()
	d := newDecoder()
	for err = l.scan(); err == nil; err = l.scan() {
		switch kindOf(l.text) {
		case "header":
			if err := j.header(l.text); err != nil {
				return err
			}
		case "board":
			if r, err := d.record(l.text); err == nil {
				boards[r.(Board).Hash] = true
			}
		}
	}
	if !errors.Is(err, io.EOF) {
		return err
	}
	j.boards = boards
	return nil
}

// open opens the file and sees to it that it ends with a line. It is opened
// for every append, so that a record goes where the file's name leads, also
// after another program has replaced the file.
func (j *Journal) open(now time.Time) (File, error) {
	if err := j.survey(); err != nil {
		return nil, err
	}
	f, err := j.store.OpenAppend(j.name)
	if err != nil {
		return nil, err
	}
	if err := j.ready(f, now); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}

func (j *Journal) ready(f File, now time.Time) error {
	if !j.named {
		if err := j.store.SyncDir(); err != nil {
			return err
		}
		j.named = true
	}
	size, err := f.Size()
	if err != nil || size == j.size {
		return err
	}
	if j.size < size && size <= j.size+j.spoilt { // the rest of an append whose error was told
		if err := f.Truncate(j.size); err != nil {
			return err
		}
		j.spoilt = 0
		return f.Sync()
	}
	if j.size >= 0 { // it is not the file that this journal left
		j.boards = nil
		if err := j.survey(); err != nil {
			return err
		}
	}
	return j.mend(f, size, now)
}

// mend takes a torn last line off.
func (j *Journal) mend(f File, size int64, now time.Time) error {
	end, err := lastLine(f, size)
	if err != nil {
		return err
	}
	if end < size {
		if err := j.cut(f, end, size, now); err != nil {
			return err
		}
	}
	j.size, j.spoilt = end, 0
	return nil
}

// cut keeps the torn line from end to size in a file of its own and takes it off.
func (j *Journal) cut(f File, end, size int64, now time.Time) error {
	torn := make([]byte, size-end)
	if _, err := f.ReadAt(torn, end); err != nil && !errors.Is(err, io.EOF) {
		return err
	}
	if err := j.store.Replace(j.tornName(now), torn); err != nil {
		return fmt.Errorf("keep a torn line: %w", err)
	}
	if err := f.Truncate(end); err != nil {
		return err
	}
	return f.Sync()
}

// tornName is a name that no file has yet.
func (j *Journal) tornName(now time.Time) string {
	stamp := now.UTC().Format("20060102T150405Z")
	name := fmt.Sprintf("%s.%s.torn", j.machine, stamp)
	for n := 2; exists(j.store.FS(), name); n++ {
		name = fmt.Sprintf("%s.%s-%d.torn", j.machine, stamp, n)
	}
	return name
}

func exists(dir fs.FS, name string) bool {
	_, err := fs.Stat(dir, name)
	return err == nil
}

// lastLine returns the offset after the last line feed before size.
func lastLine(f File, size int64) (int64, error) {
	b := make([]byte, 64<<10)
	for end := size; end > 0; {
		start := max(0, end-int64(len(b)))
		part := b[:end-start]
		if _, err := f.ReadAt(part, start); err != nil && !errors.Is(err, io.EOF) {
			return 0, err
		}
		if i := bytes.LastIndexByte(part, '\n'); i >= 0 {
			return start + int64(i) + 1, nil
		}
		end = start
	}
	return 0, nil
}

// write adds line and syncs. What a failure leaves is taken off at once, or
// else before the next append.
func (j *Journal) write(f File, line []byte) error {
	n, err := f.Write(line)
	if err == nil && n < len(line) {
		err = io.ErrShortWrite
	}
	if err == nil {
		err = f.Sync()
	}
	if err == nil {
		j.size += int64(len(line))
		return nil
	}
	if f.Truncate(j.size) != nil {
		j.spoilt = int64(len(line))
	}
	return err
}

// FileName is the name of a machine's file.
func FileName(machine string) string { return machine + suffix }
