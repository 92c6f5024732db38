package corpus

import (
	"bufio"
	"io"
	"math"
	"strconv"
	"strings"
)

// Write writes the table in the format of the package comment: what it is made
// of part by part, the commonest first in every section. Reading it again gives
// an equal table, except that a mix, whose parts are tables of their own, comes
// back as its counts alone.
func (t *Table) Write(w io.Writer) error {
	out := bufio.NewWriter(w)
	out.WriteString(magic + "\n")
	if t.counted() {
		for _, p := range t.Parts {
			p.Table.writePart(out)
		}
	} else {
		t.writePart(out)
	}
	return out.Flush()
}

// counted tells whether t is the plain sum of its parts, as a scan of several
// languages is.
func (t *Table) counted() bool {
	var sum float64
	for _, p := range t.Parts {
		sum += p.Table.Strokes()
	}
	return len(t.Parts) > 0 && sum == t.Strokes()
}

func (t *Table) writePart(w *bufio.Writer) {
	w.WriteString(":" + string(partSection) + "\n")
	if t.Language != "" {
		fields(w, escape, "language", t.Language)
	}
	property(w, "files", t.Files)
	property(w, "bytes", t.Bytes)
	property(w, "lines", t.Lines)
	property(w, "weight", t.Weight)
	for _, s := range t.Sources {
		fields(w, escape, "source", s.Name, s.Version, s.Licence, number(s.Files), number(s.Bytes))
	}
	for _, n := range t.Notes {
		fields(w, escape, "note", n)
	}
	for _, s := range Sections() {
		if len(t.counts[s]) == 0 {
			continue
		}
		w.WriteString(":" + string(s) + "\n")
		for _, c := range t.counts[s].Top(-1) {
			key := strings.Split(c.Key, "\t")
			if s.fields() == 1 {
				key = []string{c.Key}
			}
			fields(w, escapeKey, append(key, number(c.N))...)
		}
	}
}

func property(w *bufio.Writer, name string, n float64) {
	if n != 0 {
		fields(w, escape, name, number(n))
	}
}

func fields(w *bufio.Writer, escape func(string) string, texts ...string) {
	for i, s := range texts {
		if i > 0 {
			w.WriteByte('\t')
		}
		w.WriteString(escape(s))
	}
	w.WriteByte('\n')
}

func number(n float64) string {
	if n == math.Trunc(n) && n < 1e15 {
		return strconv.FormatFloat(n, 'f', -1, 64)
	}
	return strconv.FormatFloat(n, 'g', -1, 64)
}

// escape writes a field of the section part, escapeKey one of the others.
func escape(s string) string {
	return strings.NewReplacer(`\`, `\\`, "\t", `\t`, "\n", `\n`).Replace(s)
}

func escapeKey(s string) string { return strings.ReplaceAll(escape(s), " ", `\s`) }
