package code

// Languages beside those with embedded tables: their code can be scanned, and
// no table of them comes with the program.
func others() []*Language {
	hole := inside{"${", '}'}
	return []*Language{
		{
			Name: "csharp", endings: list("cs csx"),
			Grammar: Grammar{Characters: true},
			Words: list(`abstract as async await base bool break byte case catch char class const continue decimal default delegate do double
				else enum event explicit extern false finally fixed float for foreach get goto if implicit in int interface internal is
				lock long namespace new null object operator out override params private protected public readonly record ref return
				sealed set short sizeof static string struct switch this throw true try typeof uint ulong using var virtual void while yield`),
			rules: newRules(line("//"), block("/*", "*/"), escaped(`"""`, manyLines), csharpString(), escaped("'", oneLine)),
		},
		{
			Name: "kotlin", endings: list("kt kts"),
			Grammar: Grammar{Characters: true},
			Words: list(`abstract as break by catch class companion const constructor continue data do else enum false final finally for fun
				get if import in init inline interface internal is it lateinit null object open operator out override package private
				protected public return sealed set super suspend this throw true try typealias val var when where while`),
			rules: newRules(line("//"), nested("/*", "*/"), template(`"""`, manyLines, hole), template(`"`, oneLine, hole), escaped("'", oneLine)),
		},
		{
			Name: "swift", endings: list("swift"),
			Words: list(`as associatedtype async await break case catch class continue default defer deinit do else enum extension false
				fileprivate final for func get guard if import in init inout internal is lazy let mutating nil open operator override
				private protocol public repeat rethrows return self Self set static struct subscript super switch throw throws true try
				typealias var weak where while`),
			rules: newRules(line("//"), nested("/*", "*/"), verbatim(`#"`, `"#`), template(`"""`, manyLines, inside{`\(`, ')'}), template(`"`, oneLine, inside{`\(`, ')'})),
		},
		{
			Name: "scala", endings: list("scala sc sbt"),
			Grammar: Grammar{Characters: true},
			Words: list(`abstract case catch class def do else enum extends false final finally for given if implicit import lazy match new
				null object override package private protected return sealed super then this throw trait true try type using val var
				while with yield`),
			rules: newRules(line("//"), nested("/*", "*/"), template(`"""`, manyLines, hole), template(`"`, oneLine, hole), character()),
		},
		{
			Name: "dart", endings: list("dart"),
			Words: list(`abstract as assert async await break case catch class const continue default do dynamic else enum export extends
				extension external factory false final finally for get if implements import in is late library mixin new null operator
				part required rethrow return set static super switch this throw true try typedef var void while with yield`),
			rules: newRules(line("//"), nested("/*", "*/"), template(`"""`, manyLines, hole), template("'''", manyLines, hole), template(`"`, oneLine, hole), template("'", oneLine, hole)),
		},
		{
			Name: "php", endings: list("php phtml"), interpreters: list("php"),
			Words: list(`abstract and array as break case catch class clone const continue declare default do echo else elseif empty enum
				extends false final finally fn for foreach function global goto if implements include instanceof interface isset list match
				namespace new null or print private protected public readonly require require_once return self static switch this throw
				trait true try unset use var while yield`),
			rules: newRules(markup(), line("//"), line("#"), block("/*", "*/"), template(`"`, manyLines, inside{"{$", '}'}), escaped("'", manyLines)),
		},
		{
			Name: "zig", endings: list("zig"),
			Grammar: Grammar{Characters: true},
			Words: list(`align allowzero and anyerror anytype bool break catch comptime const continue defer else enum errdefer error export
				extern false fn for if inline noalias null opaque or orelse packed pub return struct switch test true try type undefined
				union unreachable usize var void volatile while`),
			rules: newRules(line("//"), verbatimRest(`\\`), escaped(`"`, oneLine), escaped("'", oneLine)),
		},
	}
}

// csharpString is a string of C#: after @ a backslash is itself, after $ it
// has code in it.
func csharpString() rule {
	return rule{`"`, func(v *viewer, quote string) bool {
		plain, holes := false, false
		for n := 1; v.peek(-n) == '@' || v.peek(-n) == '$'; n++ {
			plain = plain || v.peek(-n) == '@'
			holes = holes || v.peek(-n) == '$'
		}
		if plain && !holes {
			return doubled(quote).read(v, quote)
		}
		v.keep(1)
		switch {
		case plain: // a quote written twice makes two literals in a row
			v.closed(quote, manyLines, 0, inside{"{", '}'})
		case holes:
			v.closed(quote, oneLine, '\\', inside{"{", '}'})
		default:
			v.closed(quote, oneLine, '\\')
		}
		return true
	}}
}

// markup is text between ?> and the next code of PHP; it stays as it is.
func markup() rule {
	return rule{"?>", func(v *viewer, _ string) bool {
		v.keep(v.find(v.i, "<?") - v.i)
		return true
	}}
}

// verbatimRest is a literal from open to the end of the line.
func verbatimRest(open string) rule {
	return rule{open, func(v *viewer, open string) bool {
		v.keep(len(open))
		v.body(v.lineEnd(v.i))
		return true
	}}
}
