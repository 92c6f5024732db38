package board

import (
	"slices"
	"strings"

	"github.com/sahilm/fuzzy"
)

// tradeNames are what people call symbols, the usual name first. Names of
// characters are those of Unicode and POSIX, and of the trade.
func tradeNames() map[Symbol]string {
	return map[Symbol]string{
		Space: "space,blank,space bar", Enter: "enter,return,newline,line feed", Tab: "tab,tabulator", Escape: "escape,esc",
		Backspace: "backspace,rubout", Delete: "delete,del", Insert: "insert,ins",
		ArrowLeft: "left,left arrow,cursor left", ArrowDown: "down,down arrow,cursor down",
		ArrowUp: "up,up arrow,cursor up", ArrowRight: "right,right arrow,cursor right",
		Home: "home,start of line", End: "end,end of line", PageUp: "page up,pgup,prior", PageDown: "page down,pgdn,next",
		"!": "exclamation mark,exclam,bang,not", "\"": "double quote,quotation mark,quotedbl", "#": "number sign,hash,pound,sharp,octothorpe",
		"$": "dollar sign", "%": "percent sign,modulo", "&": "ampersand,amp,and", "'": "apostrophe,single quote,quote,tick",
		"(": "left parenthesis,paren,round bracket,open", ")": "right parenthesis,paren,round bracket,close",
		"*": "asterisk,star,times", "+": "plus sign", ",": "comma", "-": "hyphen,minus,dash", ".": "full stop,period,dot,point",
		"/": "slash,solidus,forward slash,divide", ":": "colon", ";": "semicolon",
		"<": "less than,left angle bracket,chevron", "=": "equals sign,equal", ">": "greater than,right angle bracket,chevron",
		"?": "question mark,query", "@": "at sign,commercial at", "[": "left square bracket,open", "\\": "backslash,reverse solidus",
		"]": "right square bracket,close", "^": "circumflex,caret,hat,xor", "_": "underscore,low line", "`": "backquote,backtick,grave accent",
		"{": "left curly bracket,brace,open", "|": "vertical bar,vertical line,pipe,or", "}": "right curly bracket,brace,close", "~": "tilde",
		"0": "zero", "1": "one", "2": "two", "3": "three", "4": "four", "5": "five", "6": "six", "7": "seven", "8": "eight", "9": "nine",
		"AudioVolumeUp": "volume up,louder", "AudioVolumeDown": "volume down,softer", "AudioVolumeMute": "mute,volume off",
		"MediaPlayPause": "play,pause", "BrightnessUp": "brighter", "BrightnessDown": "darker", "CapsLock": "caps lock,shift lock",
		"ContextMenu": "menu", "PrintScreen": "print screen,screenshot",
	}
}

// Names returns what people call s besides its own spelling: "ampersand",
// "amp" and "and" for &. A chord has the names of its key, each after the
// modifiers.
func (s Symbol) Names() []string {
	names := tradeNames()
	mods, key, chord := s.Chord()
	list := strings.Split(names[key], ",")
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
// the query in order. Letter case counts for single characters alone.
func Find(query string, among []Symbol) []Symbol {
	query = spelt(strings.TrimSpace(query))
	if query == "" {
		return nil
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
