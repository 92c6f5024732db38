package board

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// picture is a layer as drawn in the file: lines of entries.
type picture []drawn

// drawn is one line of a picture.
type drawn struct {
	words []word
	parts int // how many words stand left of ||; -1 where there is none
	place place
}

type word struct {
	text  string
	place place
}

// draw takes a picture apart. text is where the content begins if the value
// was written as a literal string of several lines; otherwise every place is
// that of the value.
func draw(content string, at site) (picture, []Finding) {
	var p picture
	var faults []Finding
	line := at.text
	for row := range strings.Lines(content) {
		d := drawn{parts: -1, place: line}
		col := line.col
		for _, f := range fields(row) {
			w := word{f.text, place{line.line, col + utf8.RuneCountInString(row[:f.start])}}
			if at.text.line == 0 {
				w.place = at.value
			}
			switch {
			case f.text != "||":
				d.words = append(d.words, w)
			case d.parts >= 0:
				faults = append(faults, Finding{Line: w.place.line, Col: w.place.col, Level: Fault, Entry: "||",
					Message: "a line has one || at most: it parts the left half from the right"})
			default:
				d.parts = len(d.words)
			}
		}
		if len(d.words) > 0 {
			d.place = d.words[0].place
			p = append(p, d)
		}
		line = place{line.line + 1, 1}
	}
	return p, faults
}

type field struct {
	text  string
	start int // bytes
}

// fields parts a line at blanks and tabs.
func fields(line string) []field {
	var out []field
	start := -1
	for i, r := range line + "\n" {
		blank := r == ' ' || r == '\t' || r == '\n' || r == '\r'
		switch {
		case blank && start >= 0:
			out = append(out, field{line[start:i], start})
			start = -1
		case !blank && start < 0:
			start = i
		}
	}
	return out
}

func (p picture) count() int {
	n := 0
	for _, d := range p {
		n += len(d.words)
	}
	return n
}

// tooLarge reports a picture that is no keyboard.
func (p picture) tooLarge() string {
	if len(p) > maxLines {
		return fmt.Sprintf("the picture has %d rows; %d are the most", len(p), maxLines)
	}
	for i, d := range p {
		if len(d.words) > maxRow {
			return fmt.Sprintf("row %d has %d keys; %d are the most", i+1, len(d.words), maxRow)
		}
	}
	return ""
}
