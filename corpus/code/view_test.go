package code

import (
	"strings"
	"testing"
)

// seen writes a view with · for the body of a literal and ¦ for a comment
// inside a line.
func seen(l *Language, src string) string {
	return strings.NewReplacer("\x00", "·", "\x01", "¦").Replace(string(l.View(nil, []byte(src))))
}

func TestViews(t *testing.T) {
	languages := All()
	for _, c := range []struct{ language, src, want string }{
		{"go", "a := \"x\\\"y\" // c\n// only\n\t/* two\n lines */\nb := '\\'' + `r\n\"` + \"\"\n", "a := \"·\"\nb := '·' + `·` + \"\"\n"},
		{"go", "f(/* a */1)\n/* b */ g()\n", "f(¦1)\n g()\n"},
		{"go", "x := \"open\ny := 1\n", "x := \"·\ny := 1\n"},
		{"c", "#include \"a.h\" /* c */\n#include <b.h>\nchar *s = \"a\\\nb\"; // c\nint x = '\"';\n", "#include \"·\"\n#include <b.h>\nchar *s = \"·\";\nint x = '·';\n"},
		{"cpp", "auto s = R\"x(a)\" // no)x\"; int n = 1'000'000; char c = u8'\\'';\n", "auto s = R\"x(·)x\"; int n = 1'000'000; char c = u8'·';\n"},
		{"rust", "/* a /* b */ c */ fn f<'a>(x: &'a str) -> char { 'x' }\nlet s = r#\"a\"b\"#; let t = b\"\\\"\"; let q = '\\'';\n", " fn f<'a>(x: &'a str) -> char { '·' }\nlet s = r#\"·\"#; let t = b\"·\"; let q = '·';\n"},
		{"java", "String s = \"\"\"\n  a \"b\"\n  \"\"\"; char c = '\\''; // c\n", "String s = \"\"\"·\"\"\"; char c = '·';\n"},
		{"javascript", "#!/usr/bin/env node\nlet s = `a${ b + `c${d}` } e`; let r = /a[/\"]b/g; x = y / z / 2; // c\n", "let s = `·${ b + `·${d}` }·`; let r = /·/g; x = y / z / 2;\n"},
		{"javascript", "return /x/.test('a') && `${{}}` // c", "return /·/.test('·') && `${{}}`"},
		{"typescript", "const f = <T,>(x: T): string => `\\${no} ${x}`;", "const f = <T,>(x: T): string => `·${x}`;"},
		{"python", "s = f'a {b!r:>{w}} {{c}}' # c\nt = rb\"\\\"\" + \"\"\"doc\n\"quoted\" \"\"\"\nf = '{no}'\n", "s = f'·{b!r:>{w}}·'\nt = rb\"·\" + \"\"\"·\"\"\"\nf = '·'\n"},
		{"ruby", "# c\n=begin\nno\n=end\nputs \"a #{b[\"c\"]} d\", 'e', %w[a b], :sym, /r\\/x/i\nx = y / 2 / z\n", "puts \"·#{b[\"·\"]}·\", '·', %w[·], :sym, /·/i\nx = y / 2 / z\n"},
		{"ruby", "s = <<~EOS + t\n  a #{b} c\n  EOS\nlist << x\nw = $' + ?\"\n__END__\nno\n", "s = <<~EOS + t\n·#{b}·\n  EOS\nlist << x\nw = $' + ?\"\n"},
		{"ruby", "P = /\n  a\\s # b\n/x.freeze\nx = y /\n  2\n", "P = /·/x.freeze\nx = y /\n  2\n"},
		{"ruby", "a = %(b #{c(1)} (d)) + %q(#{e}) if f =~ /g#{h}i/\n", "a = %(·#{c(1)}·) + %q(·) if f =~ /·#{h}·/\n"},
		{"lua", "-- c\n--[[ long\n]] x = [==[ a ]] b ]==] .. 'c' --[=[ d ]=] y = t[1]\n", " x = [==[·]==] .. '·' ¦ y = t[1]\n"},
		{"haskell", "{- a {- b -} c -}\nf' x = 'y' : \"s\\\"\" -- c\na --> b = x |-- y\n{-# LANGUAGE X #-}\n", "f' x = '·' : \"·\"\na --> b = x |-- y\n{-# LANGUAGE X #-}\n"},
		{"shell", "#!/bin/sh\n# c\necho \"a $b ${c:-d} $(e \"f\") `g` \\\" h\" 'i' $# ${#x} x#y # c\n", "echo \"·$b·${c:-d}·$(e \"·\")·`g`·\" '·' $# ${#x} x#y\n"},
		{"shell", "cat <<EOF | sort\nhello $x\nEOF\ncat <<-'E'\n\t$no\n\tE\nn=$((1 << 2))\necho done\n", "cat <<EOF | sort\n·$x·\nEOF\ncat <<-'E'\n·\n\tE\nn=$((1 << 2))\necho done\n"},
		{"sql", "SELECT 'it''s', \"Name\" /* a /* b */ */ FROM t -- c\nWHERE x = E'\\'';\nAS $$ SELECT 1 $$;\n", "SELECT '·', \"Name\" ¦ FROM t\nWHERE x = E'·';\nAS $$ SELECT 1 $$;\n"},
		{"html", "<!-- c --><p class=\"a\" id='b'>It's \"x\"</p>\n<script>let a = 'b'; // c\n</script><style>a { b: \"c\" } /* d */</style>\n",
			"<p class=\"·\" id='·'>It's \"x\"</p>\n<script>let a = '·';\n</script><style>a { b: \"·\" }</style>\n"},
		{"css", "a { b: url(//x/y.png); c: \"d #{$e}\" } // f\n/* g */\n", "a { b: url(·); c: \"·#{$e}\" }\n"},
		{"yaml", "# c\na: \"b # c\" # d\ne: it's #5\nf: |\n  text\n\n  more\ng: 'h''i'\n- x#y\n", "a: \"·\"\ne: it's\nf: |·\ng: '·'\n- x#y\n"},
		{"yaml", "- a: >\n    text\n  b: |\n    more\n- |\n  x\n- - c: |\n      y\n    d: 1\n", "- a: >·\n  b: |·\n- |·\n- - c: |·\n    d: 1\n"},
		{"yaml", "a: f[\"x\", \"y\"]\nb: [\"x\", 'y']\n{c: d, \"e\": f}\n", "a: f[\"x\", \"y\"]\nb: [\"·\", '·']\n{c: d, \"·\": f}\n"},
		{"toml", "a = \"b # c\" # d\ne = '''\nf ' g'''\nh = 'i\\'\n", "a = \"·\"\ne = '''·'''\nh = '·'\n"},
		{"markdown", "# It's <!-- no --> a `b` \"c\"\n", "# It's ¦ a `b` \"c\"\n"},
		{"csharp", "var s = $\"a {b[\"c\"]} {{d}}\" + @\"x\"\"\\\" + 'y'; // c\n", "var s = $\"·{b[\"·\"]}·\" + @\"·\" + '·';\n"},
		{"kotlin", "val s = \"a ${b(\"c\")} $d\" /* x /* y */ */ + \"\"\"e\n\"\"\" + '\\''\n", "val s = \"·${b(\"·\")}·\" ¦ + \"\"\"·\"\"\" + '·'\n"},
		{"swift", "let s = \"a \\(b(c)) \\\"\" + #\"x\"y\"# // c\n", "let s = \"·\\(b(c))·\" + #\"·\"#\n"},
		{"scala", "val s = s\"a ${b}\"; val c = 'x'; def f[A](x: A) = 'sym\n", "val s = s\"·${b}\"; val c = '·'; def f[A](x: A) = 'sym\n"},
		{"dart", "var s = 'a ${b['c']}'; // d\n", "var s = '·${b['·']}';\n"},
		{"php", "<?php $a = \"b {$c} d\" . 'e'; # f\n?>\n<p>It's</p>\n<?= $x // y\n", "<?php $a = \"·{$c}·\" . '·';\n?>\n<p>It's</p>\n<?= $x\n"},
		{"zig", "const s =\n    \\\\a \"b\n; // c\n", "const s =\n    \\\\·\n;\n"},
	} {
		if got := seen(languages.Named(c.language), c.src); got != c.want {
			t.Errorf("%s\n%s\nis seen as\n%s\nand should be\n%s", c.language, c.src, got, c.want)
		}
	}
}

func TestLanguagesAreTold(t *testing.T) {
	languages := All()
	for _, c := range []struct{ file, src, want string }{
		{"x.go", "", "go"}, {"a/b.py", "", "python"}, {"A.CPP", "", "cpp"}, {"Rakefile", "", "ruby"}, {"x.tsx", "", "typescript"},
		{"run", "#!/bin/sh\n", "shell"}, {"run", "#!/usr/bin/env -S python3.11 -u\n", "python"}, {"run", "#! /usr/bin/env A=b node\n", "javascript"},
		{"run", "#!/usr/bin/perl\n", ""}, {"run", "text", ""}, {"x.unknown", "", ""}, {".bashrc", "", "shell"}, {"x.yml", "", "yaml"},
		{"x.h", "int f(void);\n", "c"}, {"x.h", "#pragma once\nnamespace a {\n", "cpp"}, {"x.h", "\ntemplate <class T>\n", "cpp"},
	} {
		got := ""
		if l := languages.Of(c.file, languages.ByName(c.file), []byte(c.src)); l != nil {
			got = l.Name
		}
		if got != c.want {
			t.Errorf("%s with %q is %q, want %q", c.file, c.src, got, c.want)
		}
	}
}

// Whatever it is given, a view ends, is no longer than its source but for the
// marks of what is left out, and does not panic.
func FuzzView(f *testing.F) {
	for _, s := range []string{"`${`${\"", "f'{f'{", "<<A <<B\n", "R\"(", "/* /*", "--[==[", "\"$(\"$(", "<script>`", "x: |\n y", "'''", "%w(", "{-", "$$"} {
		f.Add([]byte(s))
	}
	languages := All().List()
	f.Fuzz(func(t *testing.T, src []byte) {
		for _, l := range languages {
			if view := l.View(nil, src); len(view) > 2*len(src)+2 {
				t.Errorf("%s: %d bytes are seen as %d", l.Name, len(src), len(view))
			}
		}
	})
}

// Deep nesting is read in a bounded depth, and in linear time.
func TestDeepNesting(t *testing.T) {
	for _, l := range All().List() {
		for _, piece := range []string{"`${", "f'{", "\"$(", "\"#{", "(", "{-", "/*"} {
			l.View(nil, []byte(strings.Repeat(piece, 20_000)))
		}
	}
}
