package code

import "strings"

// definitions are the languages whose tables come with the program. The words are those that the language's own
// reference lists as reserved, with the few names that serve as such.
func definitions() []*Language {
	script := javascriptRules()
	style := cssRules()
	return []*Language{
		{
			Name: "go", endings: list("go"),
			Words: list(`break case chan const continue default defer else fallthrough for func go goto if import
				interface map package range return select struct switch type var true false nil iota`),
			rules: cRules(verbatim("`", "`")),
			Grammar: Grammar{
				Characters: true, Leads: list("."), Trails: list("+ && ||"),
				Types: list(`string int byte error bool uint8 uint16 uint32 uint64 int8 int16 int32 int64 uintptr float64`),
				// Of its standard library and the distribution's own.
				Packages: list("fmt testing strings unsafe os errors sys io ssa ir types"),
			},
		},
		{
			Name: "c", endings: list("c h"), Words: cWords(), rules: cRules(),
			Grammar: Grammar{Characters: true, Leads: list(", else && || ? :"), Trails: list("&& || ="), Types: cTypes()},
		},
		{Name: "cpp", endings: list("cc cpp cxx c++ hpp hh hxx h++ ipp inl"), Words: cppWords(), rules: cRules(separated(), rawCpp()),
			Grammar: Grammar{Characters: true, Leads: list(", else && || ? << ."), Trails: list("&& || = <<"), Packages: list("std"), Types: cTypes()}},
		{
			Name: "rust", endings: list("rs"),
			Words: list(`as async await break const continue crate dyn else enum extern false fn for if impl in let loop match mod
				move mut pub ref return self Self static struct super trait true type union unsafe use where while`),
			rules: newRules(line("//"), nested("/*", "*/"), rustString(), character()),
			Grammar: Grammar{
				Characters: true, CommaEnds: true, Leads: list(". where && || + ?"), Trails: list("&& || ="),
				Types:    list("u8 u16 u32 u64 i8 i16 i32 i64 usize isize f32 f64 str bool char"),
				Packages: list("std"),
			},
		},
		{
			Name: "java", endings: list("java"),
			Words: list(`abstract assert boolean break byte case catch char class const continue default do double else enum
				extends final finally float for if implements import instanceof int interface long native new package private
				protected public return short static super switch synchronized this throw throws transient try void volatile
				while true false null var record`),
			rules:   newRules(line("//"), block("/*", "*/"), escaped(`"""`, manyLines), escaped(`"`, oneLine), escaped("'", oneLine)),
			Grammar: Grammar{Characters: true, Leads: list(". + && || ? :"), Trails: list("+ && || =")},
		},
		{Name: "javascript", endings: list("js mjs cjs jsx"), interpreters: list("node nodejs"), Words: javascriptWords(), rules: script,
			Grammar: Grammar{Leads: list(". ? : && ||"), Trails: list("=> + = && ||")}},
		{
			Name: "typescript", endings: list("ts mts cts tsx"), interpreters: list("ts-node tsx deno"), rules: script,
			Grammar: Grammar{Leads: list(". ? : && || < > | &"), Trails: list("=> + = && ||")},
			Words: append(javascriptWords(), list(`abstract any as asserts boolean declare enum implements infer interface is keyof namespace
				never number object package private protected public readonly satisfies string symbol type unknown`)...),
		},
		{
			Name: "python", endings: list("py pyi pyw"), names: list("SConstruct SConscript"), interpreters: list("python pypy"),
			Words: list(`False None True and as assert async await break class continue def del elif else except finally for from
				global if import in is lambda nonlocal not or pass raise return try while with yield self`),
			rules:   newRules(line("#"), pythonString(`"""`, manyLines), pythonString("'''", manyLines), pythonString(`"`, oneLine), pythonString("'", oneLine)),
			Grammar: Grammar{Leads: list("elif else except finally"), Types: list("str int dict list tuple object bool float bytes"), Packages: list("os sys io")},
		},
		{
			Name: "ruby", endings: list("rb rake gemspec ru"), names: list("Rakefile Gemfile Guardfile Vagrantfile"), interpreters: list("ruby jruby"),
			Words: list(`alias and begin break case class def defined do else elsif end ensure false for if in module next nil not or
				redo rescue retry return self super then true undef unless until when while yield`),
			rules: rubyRules(),
			Grammar: Grammar{
				Leads: list("."), Within: list("then else elsif rescue ensure in"),
				Blocks: []Block{{First: list("if unless while until def class module case begin"), Inside: list("do"), Close: "end"}},
			},
		},
		{
			Name: "lua", endings: list("lua rockspec"), interpreters: list("lua luajit"),
			Words: list(`and break do else elseif end false for function goto if in local nil not or repeat return then true until while`),
			rules: newRules(hashbang(), longBracket("--", true), line("--"), longBracket("", false), escaped(`"`, oneLine), escaped("'", oneLine)),
			Grammar: Grammar{
				Leads: list(", .. and or"), Within: list("then do else elseif"),
				Blocks: []Block{{Last: list("then do"), Inside: list("function"), Close: "end"}},
			},
		},
		{
			Name: "haskell", endings: list("hs lhs hsc"), interpreters: list("runghc runhaskell stack"),
			Words: list(`case class data default deriving do else family forall foreign hiding if import in infix infixl infixr instance
				let mdo module newtype of pattern proc qualified rec then type where`),
			rules:   newRules(haskellLine(), pragma("{-#"), nested("{-", "-}"), escaped(`"`, oneLine), primed(), character()),
			Grammar: Grammar{Characters: true, Leads: list(", | = -> ."), Trails: list(", | .")},
		},
		{
			Name: "shell", endings: list("sh bash zsh ksh bats"), interpreters: list("sh bash dash zsh ksh bats"),
			names: list(".bashrc .bash_profile .profile .zshrc PKGBUILD"),
			Words: list(`if then else elif fi case esac for select while until do done in function time local return export readonly
				set shift exit unset eval exec trap break continue declare echo test`),
			rules: newRules(lineAtWord("#"), escapedByte(), shellString(), verbatim("'", "'"), dollarQuote(), shellDocument(), documentBodies(shellBody)),
			Grammar: Grammar{
				Form: Commands, Within: list("then do else elif ; in case"), Utilities: shellUtilities(),
				Blocks: []Block{{First: list("if"), Close: "fi"}, {First: list("for while until"), Close: "done"}, {First: list("case"), Close: "esac"}},
			},
		},
		// The body of a function between dollar quotes is code, as it is to who types it.
		{Name: "sql", endings: list("sql psql ddl"), FoldsCase: true, Words: sqlWords(),
			rules: newRules(line("--"), nested("/*", "*/"), sqlString())},
		{
			Name: "html", endings: list("html htm xhtml"), FoldsCase: true,
			Words: list(`a body br button class div em form h1 h2 h3 head href html id img input label li link meta name option p
				script section select span src strong style table tbody td th title tr type ul value`),
			rules:   newRules(block("<!--", "-->"), tag(script, style)),
			Grammar: Grammar{Form: Markup},
		},
		{
			Name: "css", endings: list("css scss less"),
			Words: list(`auto background block border bottom center color display flex font height important inherit inline left margin
				media none padding position px rem right size solid top transform transition var width`),
			rules:   style,
			Grammar: Grammar{Form: Styles},
		},
		{Name: "yaml", endings: list("yaml yml"), names: list(".clang-format .clang-tidy"), Words: list("true false null yes no on off"),
			rules: newRules(yamlComment(), yamlString(escaped(`"`, manyLines)), yamlString(doubled("'")), yamlBlock("|"), yamlBlock(">"))},
		{Name: "toml", endings: list("toml"), Words: list("true false inf nan"),
			rules: newRules(line("#"), escaped(`"""`, manyLines), verbatim("'''", "'''"), escaped(`"`, oneLine), verbatimLine("'"))},
		{Name: "markdown", endings: list("md markdown mkd"), rules: newRules(block("<!--", "-->")), Grammar: Grammar{Form: Prose}},
	}
}

func list(words string) []string { return strings.Fields(words) }

func javascriptRules() *rules {
	verbs := list("return typeof case in of delete void instanceof new do else yield await throw")
	return newRules(hashbang(), line("//"), block("/*", "*/"), regular(verbs...),
		escaped(`"`, oneLine), escaped("'", oneLine), templateLiteral())
}

func cssRules() *rules {
	hole := inside{"#{", '}'}
	return newRules(address(), line("//"), block("/*", "*/"), template(`"`, oneLine, hole), template("'", oneLine, hole))
}

func rubyRules() *rules {
	verbs := list("if unless while until and or not when in return then do else elsif puts")
	r := newRules(rubyPod(), rubyEnd(), line("#"), rubyGlobal("$"), rubyGlobal("?"), rubyPercent(), regular(verbs...),
		rubyString(`"`), rubyString("`"), escaped("'", manyLines), rubyDocument(), documentBodies(rubyBody))
	r.commands = true
	return r
}

func cWords() []string {
	return list(`auto break case char const continue default do double else enum extern float for goto if inline int long
		register restrict return short signed sizeof static struct switch typedef union unsigned void volatile while
		define elif endif ifdef ifndef include undef pragma defined NULL`)
}

func cppWords() []string {
	return append(cWords(), list(`alignas alignof and bool catch char8_t char16_t char32_t class concept consteval constexpr constinit
		const_cast co_await co_return co_yield decltype delete dynamic_cast explicit export false final friend mutable namespace new
		noexcept not nullptr operator or override private protected public reinterpret_cast requires static_assert
		static_cast template this thread_local throw true try typeid typename using virtual wchar_t`)...)
}

func javascriptWords() []string {
	return list(`async await break case catch class const continue debugger default delete do else export extends false finally
		for from function get if import in instanceof let new null of return set static super switch this throw true try typeof
		undefined var void while with yield`)
}

func sqlWords() []string {
	return list(`add all alter analyze and as asc begin between bigint boolean by cascade case cast check collate column commit
		constraint create cross current database declare default delete desc distinct do drop else end except exists explain extension
		false fetch for foreign from full function grant group having if ilike in index inner insert int integer intersect into is join
		key language left like limit natural not null numeric of off offset on or order outer partition primary references
		replace returning returns revoke right role rollback row schema select sequence set show table temp text then time
		timestamp to transaction trigger true truncate type union unique update user using values varchar view when where with language parallel safe strict
		immutable stable volatile operator costs reset execute prepare storage`)
}
