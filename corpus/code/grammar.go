package code

// Grammar is what the lines of a language keep to and counts of them do not
// tell. The zero Grammar, of a language of which no more is known, asks for
// nothing.
type Grammar struct {
	Form       Form
	Leads      []string // marks and words that a line begins with only to go on from the one before
	Trails     []string // those that it ends with only to be gone on with
	Blocks     []Block  // that words open and close
	Within     []string // words that a line begins with only within such a block
	Types      []string // names of types, besides those among the reserved words
	Packages   []string // names of packages that nearly always have a member behind them
	Utilities  []string // names that are run as commands
	Characters bool     // between single quotes is one character
	CommaEnds  bool     // what a type holds ends with a comma
}

// Form says what a line is made of.
type Form int

// The forms of lines.
const (
	Statements Form = iota // words, operators, brackets
	Commands               // a utility with its arguments
	Markup                 // tags, with text between them
	Styles                 // properties with their values
	Prose                  // text with a few marks
)

// Block is a block that words open and close.
type Block struct {
	First  []string // words that open it where a line begins with one
	Last   []string // where it ends with one
	Inside []string // where one is in it
	Close  string   // begins the line that closes it
}

// shellUtilities are the commonest of POSIX (IEEE Std 1003.1-2017, Shell and
// Utilities, from memory), with source, which many shells have besides. Those
// that scripts have as names of variables too are left out.
func shellUtilities() []string {
	return list(`awk basename cat cd chmod cp cut date dirname find grep ls mkdir mv printf pwd read rm sed sh sleep sort source touch tr
		true false wc xargs`)
}

// cTypes are the names of types of C that are no words of it: ISO/IEC 9899,
// <stddef.h> and <stdint.h>.
func cTypes() []string {
	return list("size_t ptrdiff_t int8_t int16_t int32_t int64_t uint8_t uint16_t uint32_t uint64_t intptr_t uintptr_t")
}
