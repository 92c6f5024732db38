package code

import (
	"bytes"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/lexers"
)

// An independent lexer, chroma, says what is comment and literal in real files;
// both sides count each ASCII mark outside of them. Where chroma and this
// package mean different things by a word, codeOf says so.

// lexerOf is chroma's name for a language, or for one of its dialects.
func lexerOf(language, file string) string {
	switch {
	case strings.HasSuffix(file, ".scss"):
		return "scss"
	case language == "sql":
		return "PostgreSQL SQL dialect"
	case language == "shell":
		return "bash"
	}
	return language
}

// codeOf is what of one of chroma's tokens is code in our sense.
func codeOf(language string, token chroma.Token) string {
	text := token.Value
	switch t := token.Type; {
	case language == "markdown" && t.InSubCategory(chroma.LiteralString):
		return text // code between backquotes is no literal of the text
	case language == "go" && t == chroma.CommentPreproc:
		return "" // directives are comments to the language
	case t == chroma.CommentHashbang, t == chroma.CommentPreproc && language == "shell":
		return ""
	case t == chroma.CommentPreproc, t == chroma.CommentPreprocFile:
		return withoutLiterals(text) // chroma gives the line as it is
	case t == chroma.LiteralStringSymbol && language == "ruby":
		return text // :name is a name
	case t == chroma.LiteralStringEscape && language == "shell":
		return text // a backslash outside of strings
	case t == chroma.LiteralStringInterpol && slices.Contains([]string{"{", "}", "${", "${#", "#{", "$(", ")"}, text):
		return text // others are the directives of formats
	case t.InCategory(chroma.Comment), t.InSubCategory(chroma.LiteralString):
		return ""
	}
	return text
}

// withoutLiterals takes comments and strings out of a line for the
// preprocessor of C.
func withoutLiterals(line string) string {
	return regexp.MustCompile(`//.*|/\*(?s:.*?)\*/|"[^"\n]*"|'[^'\n]*'`).ReplaceAllString(line, "")
}

// prepared is a source without what chroma gives another sense, or nil where
// chroma is known to lose its way. Each was looked at by hand:
//   - pragmas of Haskell are comments to chroma, code to us;
//   - of here-documents in the shell chroma gives everything to a string, also
//     expansions and the redirection; of those in Ruby it takes the body for
//     code where brackets are around what opens them;
//   - the hashes of raw strings of Rust are in the string to chroma;
//   - keys of YAML in quotes are names to chroma, literals to us; a colon and a
//     space in quotes make one to chroma;
//   - attributes of C# are one name to chroma, with the strings in them;
//   - functions of SQL in other languages are strings to chroma;
//   - regular expressions of JavaScript with the flags u, s or y are code to chroma;
//   - template strings inside the code of template strings end chroma's outer one.
func prepared(language string, src []byte) []byte {
	beyond := map[string]string{
		"shell":      `<<-?\s*['"\\]?\w`,
		"sql":        `(?i)language '?pl(perl|python|tcl)`,
		"rust":       `r#+"`,
		"yaml":       `['"] *:(?:\s|$)|'[^'\n]*\\: `,
		"csharp":     `\[\w+\("`,
		"ruby":       `<<[~-]?['"A-Z]|<<~`,
		"javascript": "/[gim]*[usy][gimusy]*[.,;)]|\\$\\{[^}]*`",
		"typescript": "/[gim]*[usy][gimusy]*[.,;)]|\\$\\{[^}]*`",
	}[language]
	if beyond != "" && regexp.MustCompile(beyond).Match(src) {
		return nil
	}
	if language == "haskell" {
		return regexp.MustCompile(`(?s)\{-#.*?#-\}`).ReplaceAll(src, nil)
	}
	return src
}

// quotes are marks that open and close literals: chroma has them in the
// literal, this package in the code.
func quotes(language string) string {
	return map[string]string{
		"javascript": `/\`, "typescript": `/\`, // of regular expressions
		"haskell": "\\", // of escapes in characters
		"css":     "/",  // of addresses without quotes
		"sql":     "$|", // around the bodies of functions; concatenation in those whose language comes after
		"ruby":    "/%",
		"lua":     "[]=",
		"shell":   "\\", // chroma gives some to strings
		"yaml":    "\\", // chroma takes plain text after a quote in it for a string
	}[language] + "\"'`"
}

type marks [128]int

func count(text []byte, m *marks) {
	for _, b := range text {
		if b < 128 {
			m[b]++
		}
	}
}

func chromaMarks(language, file string, src []byte, m *marks) error {
	lexer := lexers.Get(lexerOf(language, file))
	if lexer == nil {
		return fmt.Errorf("chroma has no lexer for %s", language)
	}
	next, err := lexer.Tokenise(&chroma.TokeniseOptions{State: "root"}, string(src))
	if err != nil {
		return err
	}
	for token := next(); token != chroma.EOF; token = next() {
		count([]byte(codeOf(language, token)), m)
	}
	return nil
}

// sample is real code found on this machine or in testdata.
type sample struct {
	files        []string
	bytes        int
	ours, theirs marks
}

// sources are directories that may hold code. The last is for those who have
// fetched the packages of the tables: go run ./cmd/recount -keep DIR.
func sources() []string {
	return append([]string{
		"../../testdata/code", goSource(), "/usr/include", "/usr/lib/python3", "/usr/lib/python3.11",
		"/usr/lib/node_modules", "/usr/lib/ruby", "/usr/share/lua", "/usr/share/doc", "/etc", "/usr/lib/git-core", "/usr/share/perl5",
	}, strings.Fields(os.Getenv("UNDERLAY_SOURCES"))...)
}

// goSource is the source of the installed Go distribution, if there is one.
func goSource() string {
	root, _ := exec.Command("go", "env", "GOROOT").Output()
	return filepath.Join(strings.TrimSpace(string(root)), "src")
}

// collect reads up to most bytes a language, in files up to a size that chroma
// reads in time.
func collect(t *testing.T, most int) map[string]*sample {
	all := map[string]*sample{}
	languages := All()
	for _, root := range sources() {
		_ = filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
			if err != nil || !d.Type().IsRegular() || strings.Contains(file, "/test/") {
				return nil
			}
			l := languages.ByName(file)
			if l == nil {
				return nil
			}
			s := all[l.Name]
			if s == nil {
				s = &sample{}
				all[l.Name] = s
			}
			src, err := os.ReadFile(file)
			if err != nil || len(src) == 0 || len(src) > 40_000 || s.bytes+len(src) > most || bytes.IndexByte(src, 0) >= 0 {
				return nil
			}
			if src = prepared(l.Name, src); src == nil {
				return nil
			}
			if err := chromaMarks(l.Name, file, src, &s.theirs); err != nil {
				t.Error(err)
			}
			count(l.View(nil, src), &s.ours)
			s.files = append(s.files, file)
			s.bytes += len(src)
			return nil
		})
	}
	return all
}

func TestCommentsAndLiteralsAgainstChroma(t *testing.T) {
	most := 400_000
	if testing.Short() {
		most = 60_000
	}
	all := collect(t, most)
	for _, language := range slices.Sorted(maps.Keys(all)) {
		s := all[language]
		share := .05
		if slices.Contains([]string{"go", "c", "java", "python", "rust"}, language) {
			share = .01
		}
		t.Logf("%s: %d files, %d bytes", language, len(s.files), s.bytes)
		for b := byte('!'); b <= '~'; b++ {
			if isLetter(b) || isDigit(b) || strings.IndexByte(quotes(language), b) >= 0 {
				continue
			}
			ours, theirs := s.ours[b], s.theirs[b]
			if off := abs(ours - theirs); off > 5 && float64(off) > share*float64(theirs) {
				t.Errorf("%s: %c %d times in the view, %d times by chroma", language, b, ours, theirs)
			}
		}
	}
}

func abs(n int) int { return max(n, -n) }
