// Package ignore tells which files .gitignore files leave out, by the rules of
// gitignore(5): files of deeper directories count more, later lines count more
// than earlier ones, "!" takes back, and what lies in a directory that is left
// out cannot be taken back.
//
// It is of our own because the one module for the job that could be had is no
// longer kept up and knows single files alone, neither nested nor taken back
// across directories.
package ignore

import (
	"path"
	"strings"
)

// Rules are those of one directory, with those of the directories above it.
type Rules struct {
	above *Rules
	dir   string // slash-separated, "." for the root
	lines []pattern
}

// pattern is one line of a file.
type pattern struct {
	negated  bool
	dirsOnly bool
	base     string   // matches the last name of a path; else parts do
	parts    []string // match the path below the directory name by name; "**" any number of names
	literal  bool     // base has no wildcards
	suffix   string   // base is * and this: matches names that end so
}

// In returns the rules in dir, a slash-separated path below the root, given
// those of the directory above it (nil for the root) and the text of its
// .gitignore.
func In(above *Rules, dir string, text []byte) *Rules {
	r := &Rules{above: above, dir: dir}
	for line := range strings.Lines(strings.TrimPrefix(string(text), "\ufeff")) {
		if p, ok := parse(strings.TrimRight(line, "\r\n")); ok {
			r.lines = append(r.lines, p)
		}
	}
	if len(r.lines) == 0 && above != nil {
		return above
	}
	return r
}

func parse(line string) (p pattern, ok bool) {
	line = withoutTrailingSpace(line)
	if line == "" || line[0] == '#' {
		return p, false
	}
	if line[0] == '!' {
		p.negated, line = true, line[1:]
	}
	if strings.HasSuffix(line, "/") {
		p.dirsOnly, line = true, line[:len(line)-1]
	}
	if line == "" {
		return p, false
	}
	if !strings.Contains(line, "/") {
		p.setBase(translated(line))
		return p, wellFormed(p.base)
	}
	for part := range strings.SplitSeq(strings.TrimPrefix(line, "/"), "/") {
		p.parts = append(p.parts, translated(part))
		if !wellFormed(translated(part)) {
			return p, false
		}
	}
	return p, true
}

func (p *pattern) setBase(base string) {
	p.base = base
	p.literal = !strings.ContainsAny(base, `*?[\`)
	if rest, ok := strings.CutPrefix(base, "*"); ok && !strings.ContainsAny(rest, `*?[\`) {
		p.suffix = rest
	}
}

// withoutTrailingSpace cuts spaces off the end, but one after a backslash.
func withoutTrailingSpace(line string) string {
	for strings.HasSuffix(line, " ") && !strings.HasSuffix(line, `\ `) {
		line = line[:len(line)-1]
	}
	return line
}

// translated writes a pattern of one name as package path has it: classes are
// negated with ^, and several stars in a row are one.
func translated(part string) string {
	if part == "**" {
		return part
	}
	for strings.Contains(part, "**") {
		part = strings.ReplaceAll(part, "**", "*")
	}
	return strings.ReplaceAll(part, "[!", "[^")
}

func wellFormed(part string) bool {
	_, err := path.Match(part, "")
	return err == nil
}

// Match tells whether name, a slash-separated path below the root in the
// directory of the rules or deeper, is left out. Directories above it are
// taken to be in.
func (r *Rules) Match(name string, isDir bool) bool {
	base := path.Base(name)
	for ; r != nil; r = r.above {
		below := name
		if r.dir != "." {
			below = strings.TrimPrefix(name, r.dir+"/")
		}
		for i := len(r.lines) - 1; i >= 0; i-- {
			if p := &r.lines[i]; p.match(base, below, isDir) {
				return !p.negated
			}
		}
	}
	return false
}

func (p *pattern) match(base, below string, isDir bool) bool {
	switch {
	case p.dirsOnly && !isDir:
		return false
	case p.literal:
		return base == p.base
	case p.suffix != "":
		return strings.HasSuffix(base, p.suffix)
	case p.base != "":
		ok, _ := path.Match(p.base, base)
		return ok
	}
	return matchParts(p.parts, strings.Split(below, "/"))
}

// matchParts matches names one by one; "**" stands for any number of them, at
// the end for at least one. After a mismatch only the last "**" has to take one
// name more, so that the time is that of parts times names at most.
func matchParts(parts, names []string) bool {
	i, j := 0, 0
	many, taken := -1, 0 // the last "**", and where what it stands for ends
	for j < len(names) {
		switch {
		case i < len(parts) && parts[i] == "**":
			if i == len(parts)-1 {
				return true
			}
			many, taken = i, j
			i++
		case i < len(parts) && matchName(parts[i], names[j]):
			i++
			j++
		case many >= 0:
			taken++
			i, j = many+1, taken
		default:
			return false
		}
	}
	return i == len(parts)
}

func matchName(pattern, name string) bool {
	ok, _ := path.Match(pattern, name) // parse has refused malformed ones
	return ok
}
