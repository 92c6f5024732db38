package journal

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"slices"
	"time"
)

// Report tells what is in the files of a directory, and what is wrong with them.
type Report struct {
	Files    []FileReport `json:"files"`
	Sessions int          `json:"sessions"` // over all files, each once, struck ones too
	Drills   int          `json:"drills"`   // each once
	Strokes  int          `json:"strokes"`
	Copies   int          `json:"copies"` // drills that are in the files more than once, and did not count again
	Struck   []string     `json:"struck"` // sessions that do not count
	// NoBoard lists the hashes of boards that drills name and no file has.
	NoBoard []string `json:"no_board"`
}

// FileReport is the Report of one file.
type FileReport struct {
	Name     string    `json:"name"`
	Machine  string    `json:"machine"` // as its header names it
	Version  int       `json:"version"`
	Bytes    int64     `json:"bytes"`
	Lines    int       `json:"lines"` // with their end, good and bad
	Boards   int       `json:"boards"`
	Drills   int       `json:"drills"`
	Strokes  int       `json:"strokes"`
	Strikes  int       `json:"strikes"`
	Others   int       `json:"others"` // of kinds that this version does not know
	First    time.Time `json:"first,omitzero"`
	Last     time.Time `json:"last,omitzero"` // time of the latest drill
	Problems []Problem `json:"problems"`
}

// Good tells whether every file could be read to its end.
func (r Report) Good() bool {
	return !slices.ContainsFunc(r.Files, func(f FileReport) bool { return len(f.Problems) > 0 })
}

// Verify reads every record in dir.
func Verify(dir fs.FS) (Report, error) {
	h, err := Read(dir)
	if err != nil {
		return Report{}, err
	}
	v := verifier{report: Report{Files: []FileReport{}}, dec: newDecoder(), sessions: map[string]bool{}, hashes: map[string]bool{}, met: map[drillID]bool{}}
	for _, f := range h.files {
		if err := v.file(dir, f); err != nil {
			return v.report, err
		}
	}
	struck, err := h.Struck()
	if err != nil {
		return v.report, err
	}
	for hash := range h.boards {
		delete(v.hashes, hash)
	}
	v.report.Sessions = len(v.sessions)
	v.report.Struck = append([]string{}, slices.Sorted(maps.Keys(struck))...)
	v.report.NoBoard = append([]string{}, slices.Sorted(maps.Keys(v.hashes))...)
	return v.report, nil
}

type verifier struct {
	dec      *decoder
	report   Report
	sessions map[string]bool
	hashes   map[string]bool
	met      map[drillID]bool
}

func (v *verifier) file(dir fs.FS, f FilePosition) error {
	l, err := openLines(dir, FilePosition{Name: f.Name}, f.Size)
	if err != nil {
		return err
	}
	defer l.close()
	r := FileReport{Name: f.Name, Version: Version, Bytes: f.Size}
	for err == nil && r.Version <= Version {
		if err = l.scan(); err == nil {
			v.line(l, &r)
		}
	}
	r.Lines, r.Problems = l.count, append([]Problem{}, l.told()...) // never null in JSON
	v.report.Files = append(v.report.Files, r)
	if errors.Is(err, io.EOF) {
		return nil
	}
	return err
}

// line counts the record of the line just read.
func (v *verifier) line(l *lines, f *FileReport) {
	r, err := v.dec.record(l.text)
	if err != nil {
		l.bad(err)
		return
	}
	switch r := r.(type) {
	case Header:
		f.Machine, f.Version = r.Machine, r.Version
		if r.Version > Version {
			l.report(l.count, l.start, Newer, newerReason(r.Version))
		}
	case Board:
		f.Boards++
	case Strike:
		f.Strikes++
	case Other:
		f.Others++
	case Drill:
		f.Drills++
		f.Strokes += len(r.Keys)
		v.drill(r, drillID{r.At.UnixMilli(), checksum(l.text)}, f)
	}
}

func (v *verifier) drill(d Drill, id drillID, f *FileReport) {
	if f.First.IsZero() || d.At.Before(f.First) {
		f.First = d.At
	}
	if d.At.After(f.Last) {
		f.Last = d.At
	}
	if v.met[id] {
		v.report.Copies++
		return
	}
	v.met[id] = true
	v.sessions[d.Session] = true
	if d.Hash != "" {
		v.hashes[d.Hash] = true
	}
	v.report.Drills++
	v.report.Strokes += len(d.Keys)
}
