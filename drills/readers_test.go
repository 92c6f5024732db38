package drills

import (
	"fmt"
	"go/parser"
	"go/token"
	"strings"
	"testing"
)

// lineText is what a drill of lines gives when it is typed.
func lineText(t testing.TB, g *Generator, seed uint64) string {
	t.Helper()
	d, err := g.Generate(Line, nil, seed)
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	for _, k := range d.Keys {
		r, _ := k.Symbol.Rune()
		text.WriteRune(r)
	}
	return text.String()
}

// Go's own parser reads nine of ten texts that are made for its language, in one of the
// places where lines of code stand: a package, a function, a choice, a type, a
// list of values, of constants or of imports.
func TestGoReadsItsLines(t *testing.T) {
	g := generator(t, "ansi-61", "go")
	places := []string{
		"%s", "func f() {\n%s}", "func f() { switch x {\n%s} }", "func f() { select {\n%s} }", "type t struct {\n%s}", "type t interface {\n%s}",
		"var v = t{\n%s}", "var v = f(\n%s)", "const (\n%s)", "import (\n%s)", "func f() { switch x.(type) {\n%s} }",
	}
	n, read := few(1000), 0
	for seed := range uint64(n) {
		text, ok := lineText(t, g, seed), false
		for _, p := range places {
			if _, err := parser.ParseFile(token.NewFileSet(), "", "package p\n"+fmt.Sprintf(p, text), parser.SkipObjectResolution); err == nil {
				ok = true
				break
			}
		}
		if ok {
			read++
		} else {
			t.Logf("%q", text)
		}
	}
	t.Logf("%d of %d", read, n)
	if float64(read) < .85*float64(n) {
		t.Errorf("the parser reads %d of %d drills", read, n)
	}
}
