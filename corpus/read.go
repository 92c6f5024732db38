package corpus

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// magic is the first line of every table.
const magic = "underlay table 1"

// Fault is something wrong with a table, and what to do about it.
type Fault struct {
	File          string
	Line, Col     int // from 1, Col in characters; Line is 0 where it is the whole file
	Message, Hint string
}

func (f Fault) Error() string { return fmt.Sprintf("%s:%d:%d: %s", f.File, f.Line, f.Col, f.Message) }

// Faults are all faults of one table, in the order of its lines.
type Faults []Fault

func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, fault := range f {
		lines[i] = fault.Error()
	}
	return strings.Join(lines, "\n")
}

// reader reads one table; it goes on after a bad line.
type reader struct {
	file    string
	line    int
	col     int // where what is being read begins in the line, in characters from 1
	faults  Faults
	parts   []*Table
	section Section // "" before the first
	skip    bool    // the section is at fault: its lines are passed over
}

// partSection is the section that begins a part.
const partSection Section = "part"

// ReadTable reads a table; name becomes its name, and with ".tsv" after it the
// file that faults name. Where the text has faults the table is nil and the
// error Faults, or what r said.
func ReadTable(name string, r io.Reader) (*Table, error) {
	in := &reader{file: name + ".tsv"}
	scanner := bufio.NewScanner(r)
	for scanner.Scan() {
		in.line++
		in.col = 1
		in.read(scanner.Text())
	}
	if err := scanner.Err(); err == bufio.ErrTooLong {
		in.line, in.col = in.line+1, 1
		in.fault("line too long", "is this a table?")
	} else if err != nil {
		return nil, err
	}
	if len(in.parts) == 0 && len(in.faults) == 0 {
		in.line, in.col = max(in.line, 1), 1
		in.fault("nothing in it", fmt.Sprintf("a table begins with the line %q", magic))
	}
	if len(in.faults) > 0 {
		return nil, in.faults
	}
	return joined(name, in.parts), nil
}

// joined makes one table of the parts of a file.
func joined(name string, parts []*Table) *Table {
	if len(parts) == 1 {
		parts[0].Name = name
		return parts[0]
	}
	out := &Table{Name: name}
	for _, p := range parts {
		p.Name = name
		if strokes := p.Strokes(); strokes > 0 {
			out.Parts = append(out.Parts, Part{p, strokes})
		}
		out.join(p, 1)
	}
	return out
}

func (in *reader) fault(message, hint string) {
	const most = 20
	if len(in.faults) < most {
		in.faults = append(in.faults, Fault{in.file, in.line, in.col, message, hint})
	}
}

func (in *reader) read(line string) {
	switch fields := strings.Split(line, "\t"); {
	case in.line == 1:
		if line != magic {
			in.fault("no table of this program", fmt.Sprintf("the first line has to be %q", magic))
		}
	case line == "" || strings.HasPrefix(line, "# "):
	case len(fields) == 1 && line[0] == ':':
		in.begin(Section(line[1:]))
	case in.skip:
	case in.section == partSection:
		in.property(fields)
	case in.section == "":
		in.fault("a line before the first section", "sections begin with a line such as :symbol, and the first is :part")
	default:
		in.count(fields)
	}
}

func (in *reader) begin(s Section) {
	in.skip = true
	switch {
	case s == partSection:
		in.parts = append(in.parts, &Table{counts: map[Section]Counts{}})
	case !slices.Contains(Sections(), s):
		in.fault(fmt.Sprintf("no section is called %q", string(s)), "sections are: "+names(Sections()))
		return
	case len(in.parts) == 0:
		in.fault(fmt.Sprintf("section %q before the section part", string(s)), "begin with a line :part")
		return
	case in.part().counts[s] != nil:
		in.fault(fmt.Sprintf("section %q occurs twice", string(s)), "join the two")
		return
	default:
		in.part().counts[s] = Counts{}
	}
	in.section, in.skip = s, false
}

func (in *reader) part() *Table { return in.parts[len(in.parts)-1] }

func (in *reader) count(fields []string) {
	counts := in.part().counts[in.section]
	want := in.section.fields()
	if len(fields) != want+1 {
		in.fault(fmt.Sprintf("%s in section %q", amount(len(fields), "field"), string(in.section)),
			fmt.Sprintf("%d are needed, parted by tabs: the key and its count", want+1))
		return
	}
	n, ok := in.number(fields, want)
	if !ok {
		return
	}
	for i, f := range fields[:want] {
		text, ok := unescape(f)
		if !ok {
			in.col = column(fields, i)
			in.fault(fmt.Sprintf("a backslash in %q", f), `write space as \s, tab as \t, line feed as \n, backslash as \\`)
			return
		}
		fields[i] = text
	}
	key := strings.Join(fields[:want], "\t")
	if _, twice := counts[key]; twice {
		in.fault(fmt.Sprintf("key %q occurs twice", key), "join the two counts")
		return
	}
	counts[key] = n
}

// number reads a field of a line as a count.
func (in *reader) number(fields []string, i int) (float64, bool) {
	n, err := strconv.ParseFloat(fields[i], 64)
	if err != nil || n < 0 || math.IsInf(n, 0) || math.IsNaN(n) {
		in.col = column(fields, i)
		in.fault(fmt.Sprintf("%q is no count", fields[i]), "a count is a decimal number, 0 or more")
		return 0, false
	}
	return n, true
}

// column is where a field begins in its line, in characters from 1.
func column(fields []string, i int) int {
	col := 1
	for _, f := range fields[:i] {
		col += utf8.RuneCountInString(f) + 1 // and a tab
	}
	return col
}

// property reads a line of the section part.
func (in *reader) property(fields []string) {
	t := in.part()
	texts := slices.Clone(fields)
	for i, f := range fields {
		if text, ok := unescape(f); ok {
			texts[i] = text
		}
	}
	numbers := map[string]*float64{"files": &t.Files, "bytes": &t.Bytes, "lines": &t.Lines, "weight": &t.Weight}
	key, values := texts[0], texts[1:]
	to := numbers[key]
	switch {
	case to != nil && len(values) == 1:
		if n, ok := in.number(fields, 1); ok {
			*to = n
		}
	case key == "language" && len(values) == 1:
		t.Language = values[0]
	case key == "note" && len(values) == 1:
		t.Notes = append(t.Notes, values[0])
	case key == "source" && len(values) == 5:
		files, ok := in.number(fields, 4)
		size, ok2 := in.number(fields, 5)
		if ok && ok2 {
			t.Sources = append(t.Sources, Source{values[0], values[1], values[2], files, size})
		}
	default:
		in.fault(fmt.Sprintf("no property %q with %s", key, amount(len(values), "value")),
			"properties: language, files, bytes, lines, weight, note with one value; source with name, version, licence, files, bytes")
	}
}

// amount words a number of things: 1 field, 2 fields.
func amount(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func names(sections []Section) string {
	out := make([]string, len(sections))
	for i, s := range sections {
		out[i] = string(s)
	}
	return strings.Join(out, ", ")
}

// unescape reads a field; false where a backslash is not as escape writes it.
func unescape(s string) (string, bool) {
	if !strings.Contains(s, `\`) {
		return s, true
	}
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c == '\\' {
			i++
			if i == len(s) {
				return "", false
			}
			at := strings.IndexByte(`stn\`, s[i])
			if at < 0 {
				return "", false
			}
			c = " \t\n\\"[at]
		}
		b.WriteByte(c)
	}
	return b.String(), true
}
