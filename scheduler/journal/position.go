package journal

import (
	"io"
	"io/fs"
	"time"
)

// Position tells how far a history was read: how long each file was, with a
// checksum of its end by which it is known again. The zero value is the start.
// It can be kept as JSON.
type Position struct {
	Files  []FilePosition `json:"files,omitempty"`
	Struck []string       `json:"struck,omitempty"` // sessions that did not count
	whole  bool           // all that there was had been read
}

// FilePosition is a Position in one file.
type FilePosition struct {
	Name  string    `json:"name"`
	Size  int64     `json:"size"`  // bytes read, up to an end of line
	Lines int       `json:"lines"` // in these
	Check uint32    `json:"check"` // CRC-32C of the last of these bytes, at most checked
	Last  time.Time `json:"last"`  // time of the latest drill
}

// checked is the number of bytes of a file's end that Check is made of.
const checked = 4096

// in returns the position in a file, its start where it is not known.
func (p Position) in(name string) FilePosition {
	for _, f := range p.Files {
		if f.Name == name {
			return f
		}
	}
	return FilePosition{Name: name}
}

// lastBeside is the time of the latest drill in other files than name.
func (p Position) lastBeside(name string) (last time.Time) {
	for _, f := range p.Files {
		if f.Name != name && f.Last.After(last) {
			last = f.Last
		}
	}
	return last
}

// tail returns the checksum of the bytes before f.Size.
func tail(dir fs.FS, f FilePosition) (uint32, error) {
	file, err := dir.Open(f.Name)
	if err != nil {
		return 0, err
	}
	defer file.Close()
	n := min(f.Size, checked)
	if err := skip(file, f.Size-n); err != nil {
		return 0, err
	}
	b := make([]byte, n)
	_, err = io.ReadFull(file, b)
	return checksum(b), err
}

// follows tells whether what was derived up to p can be carried on: the files
// begin as they did, and what is new in them comes after all that p covers.
func (h *History) follows(p Position) bool {
	for _, f := range p.Files {
		if f.Size < 0 || h.size(f.Name) < f.Size {
			return false
		}
		if sum, err := tail(h.dir, f); err != nil || sum != f.Check {
			return false
		}
	}
	for _, f := range h.files {
		if at := p.in(f.Name); f.Size > at.Size && !h.goesOn(at, f.Size, p.lastBeside(f.Name)) {
			return false
		}
	}
	return true
}

// goesOn tells whether a file from at to size only adds drills, later than
// after. A strike changes what came before; and a second header says that
// somebody joined files.
func (h *History) goesOn(at FilePosition, size int64, after time.Time) bool {
	l, err := openLines(h.dir, at, size)
	if err != nil {
		return false
	}
	defer l.close()
	d := newDecoder()
	for l.scan() == nil {
		switch kind := kindOf(l.text); kind {
		case "drill", "header", "strike":
			r, err := d.record(l.text)
			if err != nil {
				continue
			}
			if head, ok := r.(Header); ok && head.Version > Version {
				return true // nothing is read from here on
			}
			if kind == "strike" || kind == "header" && at.Size > 0 || kind == "drill" && !r.When().After(after) {
				return false
			}
		}
	}
	return true
}
