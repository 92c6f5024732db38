package board

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/sahilm/fuzzy"
)

// tradeNames are what people call a symbol, parted by commas, the usual name
// first. Names of characters are those of Unicode and POSIX, and of the trade.
func tradeNames(s Symbol) string {
	switch s {
	case Space:
		return "space,blank,space bar"
	case Enter:
		return "enter,return,newline,line feed"
	case Tab:
		return "tab,tabulator"
	case Escape:
		return "escape,esc"
	case Backspace:
		return "backspace,rubout"
	case Delete:
		return "delete,del"
	case Insert:
		return "insert,ins"
	case ArrowLeft:
		return "left,left arrow,cursor left"
	case ArrowDown:
		return "down,down arrow,cursor down"
	case ArrowUp:
		return "up,up arrow,cursor up"
	case ArrowRight:
		return "right,right arrow,cursor right"
	case Home:
		return "home,start of line"
	case End:
		return "end,end of line"
	case PageUp:
		return "page up,pgup,prior"
	case PageDown:
		return "page down,pgdn,next"
	case "!":
		return "exclamation mark,exclam,bang,not"
	case "\"":
		return "double quote,quotation mark,quotedbl"
	case "#":
		return "number sign,hash,pound,sharp,octothorpe"
	case "$":
		return "dollar sign"
	case "%":
		return "percent sign,modulo"
	case "&":
		return "ampersand,amp,and"
	case "'":
		return "apostrophe,single quote,quote,tick"
	case "(":
		return "left parenthesis,paren,round bracket,open"
	case ")":
		return "right parenthesis,paren,round bracket,close"
	case "*":
		return "asterisk,star,times"
	case "+":
		return "plus sign"
	case ",":
		return "comma"
	case "-":
		return "hyphen,minus,dash"
	case ".":
		return "full stop,period,dot,point"
	case "/":
		return "slash,solidus,forward slash,divide"
	case ":":
		return "colon"
	case ";":
		return "semicolon"
	case "<":
		return "less than,left angle bracket,chevron"
	case "=":
		return "equals sign,equal"
	case ">":
		return "greater than,right angle bracket,chevron"
	case "?":
		return "question mark,query"
	case "@":
		return "at sign,commercial at"
	case "[":
		return "left square bracket,open"
	case "\\":
		return "backslash,reverse solidus"
	case "]":
		return "right square bracket,close"
	case "^":
		return "circumflex,caret,hat,xor"
	case "_":
		return "underscore,low line"
	case "`":
		return "backquote,backtick,grave accent"
	case "{":
		return "left curly bracket,brace,open"
	case "|":
		return "vertical bar,vertical line,pipe,or"
	case "}":
		return "right curly bracket,brace,close"
	case "~":
		return "tilde"
	case "0":
		return "zero"
	case "1":
		return "one"
	case "2":
		return "two"
	case "3":
		return "three"
	case "4":
		return "four"
	case "5":
		return "five"
	case "6":
		return "six"
	case "7":
		return "seven"
	case "8":
		return "eight"
	case "9":
		return "nine"
	case "AudioVolumeUp":
		return "volume up,louder"
	case "AudioVolumeDown":
		return "volume down,softer"
	case "AudioVolumeMute":
		return "mute,volume off"
	case "MediaPlayPause":
		return "play,pause"
	case "BrightnessUp":
		return "brighter"
	case "BrightnessDown":
		return "darker"
	case "CapsLock":
		return "caps lock,shift lock"
	case "ContextMenu":
		return "menu"
	case "PrintScreen":
		return "print screen,screenshot"
	}
	return ""
}

// Names returns what people call s besides its own spelling: "ampersand",
// "amp" and "and" for &. A chord has the names of its key, each after the
// modifiers.
func (s Symbol) Names() []string {
	mods, key, chord := s.Chord()
	list := strings.Split(tradeNames(key), ",")
	if list[0] == "" {
		return nil
	}
	if chord {
		prefix := strings.ToLower(strings.Join(spellings(mods), " ")) + " "
		for i := range list {
			list[i] = prefix + list[i]
		}
	}
	return list
}

func spellings(mods []Symbol) []string {
	out := make([]string, len(mods))
	for i, m := range mods {
		out[i] = string(m)
	}
	return out
}

// Find returns the symbols that a query may mean, the likeliest first: the
// symbol itself; one that is called so, in whole, by a word or by the
// beginning of a word; then those whose spelling or name holds the letters of
// the query in order. Letter case counts for single characters alone. A run of
// marks, such as =>, means each of them.
func Find(query string, among []Symbol) []Symbol {
	query = spelt(strings.TrimSpace(query))
	if query == "" {
		return nil
	}
	if marks := Marks(query); marks != nil {
		return slices.DeleteFunc(marks, func(s Symbol) bool { return !slices.Contains(among, s) })
	}
	var ranked [5][]Symbol
	for _, s := range among {
		if r := closeness(query, s); r < len(ranked) {
			ranked[r] = append(ranked[r], s)
		}
	}
	out := slices.Concat(ranked[:]...)
	if len(out) > 0 || len([]rune(query)) == 1 {
		return out
	}
	return loosely(query, among)
}

// Marks returns the marks that a query of several consists of, each once, in
// order: = and > for =>. It is nil for a query that is anything else.
func Marks(query string) []Symbol {
	var out []Symbol
	for _, r := range query {
		if !unicode.IsPunct(r) && !unicode.IsSymbol(r) {
			return nil
		}
		if s := Symbol(r); !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	if utf8.RuneCountInString(query) < 2 {
		return nil
	}
	return out
}

// spelt writes out the usual short forms of modifiers: "ctrl+c" is "Control+c".
func spelt(query string) string {
	forms := map[string]Symbol{"ctrl": Control, "ctl": Control, "control": Control, "alt": Alt, "shift": Shift, "meta": Meta, "super": Meta}
	head, tail, ok := strings.Cut(query, "+")
	if mod := forms[strings.ToLower(head)]; ok && mod != "" && tail != "" {
		return string(mod) + "+" + spelt(tail)
	}
	return query
}

// closeness ranks how well s answers a query, 0 best; 5 is not at all.
func closeness(query string, s Symbol) int {
	low := strings.ToLower(query)
	_, _, chord := s.Chord()
	switch {
	case string(s) == query:
		return 0
	case strings.ToLower(string(s)) == low && !s.IsCharacter():
		return 0
	case len([]rune(query)) == 1 || chord && !strings.ContainsAny(low, " +"):
		return 5
	}
	best := 5
	for _, name := range append(s.Names(), strings.ToLower(strings.Trim(string(s), "<>"))) {
		switch {
		case name == low:
			best = min(best, 1)
		case slices.Contains(strings.Fields(name), low):
			best = min(best, 2)
		case strings.HasPrefix(name, low) && !s.IsCharacter() || strings.HasPrefix(name, low) && len(low) > 1:
			best = min(best, 3)
		case strings.Contains(name, " "+low):
			best = min(best, 4)
		}
	}
	return best
}

// loosely matches the letters of a query in order.
func loosely(query string, among []Symbol) []Symbol {
	var texts []string
	var of []Symbol
	for _, s := range among {
		for _, t := range append(s.Names(), string(s)) {
			texts, of = append(texts, t), append(of, s)
		}
	}
	var out []Symbol
	for _, m := range fuzzy.Find(strings.ToLower(query), texts) {
		if s := of[m.Index]; !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}
