package drills

import (
	"bufio"
	"errors"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"underlay/drills/board"
)

// Bounds of what Own takes from a file.
const (
	ownLongest = 72      // strokes of one drill, without Enter
	ownShorter = 3       // lines of fewer strokes are left out
	ownBytes   = 1 << 20 // what is longer on one line is not code
	ownDrills  = 2000    // no session needs more of one file
)

// Own makes drills from lines of the user's own file, read from r to its end.
// Indentation and control characters are left out, long lines are cut between
// words, and a line with something that may not be asked for on this board is
// skipped. At most 2000 drills are made. Nothing else is kept. The error is
// what r said; the drills up to there are returned with it.
func Own(r io.Reader, b *board.Board, o Options) ([]Drill, error) {
	g := &Generator{board: b, asks: asks(b, o)}
	var out []Drill
	in := bufio.NewReader(r)
	for len(out) < ownDrills {
		line, err := readLine(in)
		pieces := cut(clean(line), ownLongest)
		for i, piece := range pieces {
			if d, ok := g.own(piece, i == len(pieces)-1); ok {
				out = append(out, d)
			}
		}
		if errors.Is(err, io.EOF) {
			return out, nil
		} else if err != nil {
			return out, err
		}
	}
	return out, nil
}

// readLine reads one line; of one that is far too long for code it keeps
// nothing.
func readLine(in *bufio.Reader) (string, error) {
	var line []byte
	for {
		part, more, err := in.ReadLine()
		if len(line) <= ownBytes {
			line = append(line, part...)
		}
		if err != nil || !more {
			if len(line) > ownBytes {
				return "", err
			}
			return string(line), err
		}
	}
}

// clean leaves out indentation, control and format characters and broken
// UTF-8; what parts words becomes one space.
func clean(line string) string {
	var b strings.Builder
	for _, r := range strings.TrimSpace(line) {
		switch {
		case unicode.IsSpace(r):
			b.WriteByte(' ')
		case r != utf8.RuneError && unicode.IsGraphic(r):
			b.WriteRune(r)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// cut parts a line into pieces of at most n characters, between words. A word
// that is longer is left out.
func cut(line string, n int) []string {
	var pieces []string
	var piece strings.Builder
	for word := range strings.FieldsSeq(line) {
		length := utf8.RuneCountInString(word)
		if piece.Len() > 0 && utf8.RuneCountInString(piece.String())+1+length > n {
			pieces = append(pieces, piece.String())
			piece.Reset()
		}
		if length > n {
			continue
		}
		if piece.Len() > 0 {
			piece.WriteByte(' ')
		}
		piece.WriteString(word)
	}
	if piece.Len() > 0 {
		pieces = append(pieces, piece.String())
	}
	return pieces
}

// own makes a drill of a line, or of a piece, which has no Enter at its end;
// false where it is too short or holds what may not be asked for.
func (g *Generator) own(piece string, ends bool) (Drill, bool) {
	if utf8.RuneCountInString(piece) < ownShorter || !g.typed(piece) {
		return Drill{}, false
	}
	if ends {
		piece += "\n"
	}
	return g.drill(OwnLine, symbolsOf(piece), true), true
}

func symbolsOf(text string) []board.Symbol {
	out := make([]board.Symbol, 0, len(text))
	for _, r := range text {
		out = append(out, board.SymbolOf(r))
	}
	return out
}
