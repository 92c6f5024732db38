package code

import (
	"bytes"
	"path"
	"strings"
)

// Language is one language, or one form of text, that can be counted.
type Language struct {
	Name         string
	Words        []string // reserved words, and the few names that serve as such
	endings      []string // of file names, without the dot
	FoldsCase    bool     // words are the same in capitals
	names        []string // of whole files
	interpreters []string // after #!
	Grammar      Grammar
	*rules
}

// Languages tells languages by file.
type Languages struct {
	all                           []*Language
	byEnding, byName, byInterpret map[string]*Language
}

// All returns all languages that there are.
func All() *Languages {
	l := &Languages{all: append(definitions(), others()...), byEnding: map[string]*Language{}, byName: map[string]*Language{}, byInterpret: map[string]*Language{}}
	for _, one := range l.all {
		for _, e := range one.endings {
			l.byEnding[e] = one
		}
		for _, n := range one.names {
			l.byName[n] = one
		}
		for _, i := range one.interpreters {
			l.byInterpret[i] = one
		}
	}
	return l
}

// Named returns a language by its name, or nil.
func (l *Languages) Named(name string) *Language {
	for _, one := range l.all {
		if one.Name == name {
			return one
		}
	}
	return nil
}

// List returns all languages in the order of their definition.
func (l *Languages) List() []*Language { return l.all }

// ByName tells the language by the name of a file, or nil.
func (l *Languages) ByName(file string) *Language {
	base := path.Base(file)
	if one := l.byName[base]; one != nil {
		return one
	}
	if dot := strings.LastIndexByte(base, '.'); dot >= 0 {
		return l.byEnding[strings.ToLower(base[dot+1:])]
	}
	return nil
}

// Of tells the language of a file by what its name tells (ByName, nil if that
// is nothing), its first line and, for the headers that C shares with C++, by
// what is in it; nil if it is unknown.
func (l *Languages) Of(file string, byName *Language, src []byte) *Language {
	if byName == nil {
		return l.ByFirstLine(src)
	}
	if strings.HasSuffix(file, ".h") && looksLikeCpp(src) {
		return l.Named("cpp")
	}
	return byName
}

// looksLikeCpp tells whether a header has what C has not, at the beginning of a
// line.
func looksLikeCpp(src []byte) bool {
	for _, sign := range []string{"namespace ", "template <", "template<", "class ", "using ", "public:", " public:", "private:", " private:"} {
		if bytes.Contains(src, []byte("\n"+sign)) {
			return true
		}
	}
	return false
}

// ByFirstLine tells the language by the interpreter after #!, or nil.
func (l *Languages) ByFirstLine(src []byte) *Language {
	if len(src) < 3 || src[0] != '#' || src[1] != '!' {
		return nil
	}
	first, _, _ := strings.Cut(string(src[2:min(len(src), 200)]), "\n")
	words := strings.Fields(first)
	for i, w := range words {
		if strings.HasPrefix(w, "-") || i > 0 && strings.Contains(w, "=") {
			continue // options of env, and variables for it
		}
		name := strings.TrimRight(path.Base(w), "0123456789.")
		if name != "env" {
			return l.byInterpret[name]
		}
	}
	return nil
}
