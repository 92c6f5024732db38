package corpus

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// keyReader takes raw terminal input apart into keys.
type keyReader struct {
	src      []byte
	i        int
	lineFeed bool // a line feed is Enter
	delete   bool // Backspace sends DEL
	out      *Recording
}

func (k *keyReader) key(symbol string) { k.out.Keys[symbol]++ }

// next reads one key.
func (k *keyReader) next() {
	c := k.src[k.i]
	k.i++
	switch {
	case c == 0x1b:
		k.escape()
	case c == '\t':
		k.key("Tab")
	case c == '\r', c == '\n' && k.lineFeed:
		k.out.Text++
	case c == 0x7f, c == 0x08 && !k.delete:
		k.key("Backspace")
	case c == 0:
		k.key("Control+Space")
	case c < ' ':
		k.key("Control+" + strings.ToLower(string(c|0x40)))
	default:
		_, n := utf8.DecodeRune(k.src[k.i-1:])
		k.i += n - 1
		k.out.Text++
	}
}

// escape reads what follows ESC: a control sequence of a key, an answer of the
// terminal, or nothing that goes with it.
func (k *keyReader) escape() {
	rest := k.src[k.i:]
	if len(rest) == 0 {
		k.key("Escape")
		return
	}
	switch n := 0; rest[0] {
	case '[':
		n = k.csi(rest[1:])
		k.pass(n, 1)
	case 'O':
		n = k.ss3(rest[1:])
		k.pass(n, 1)
	case ']', 'P', '_':
		n = answerLen(rest)
		if n > 0 {
			k.out.Replies++
		}
		k.pass(n, 0)
	default:
		k.key("Escape")
	}
}

// pass goes on after n bytes that were read and the introducer before them;
// where none were, it was the key Escape.
func (k *keyReader) pass(n, introducer int) {
	if n == 0 {
		k.key("Escape")
		return
	}
	k.i += n + introducer
}

// answerLen is the length of an answer such as OSC 11;… ST or DCS … ST; 0
// where it is none, but keys after Escape.
func answerLen(s []byte) int {
	head := regexp.MustCompile(`^(\][0-9]+;|P[0-9;>!+|$]|_[A-Z])[^\x07\x1b]{0,1000}(\x07|\x1b\\)`)
	return len(head.Find(s))
}

// csi reads a control sequence after its introducer, and returns its length, 0
// where it is none.
func (k *keyReader) csi(s []byte) int {
	n := 0
	for n < len(s) && 0x30 <= s[n] && s[n] <= 0x3f {
		n++
	}
	parameters := string(s[:n])
	for n < len(s) && 0x20 <= s[n] && s[n] <= 0x2f {
		n++
	}
	if n == len(s) || s[n] < 0x40 || s[n] > 0x7e {
		return 0
	}
	final := s[n]
	n++
	switch {
	case final == 'M' && parameters == "": // a mouse report: three bytes more
		k.out.Replies++
		return min(n+3, len(s))
	case final == '~' && parameters == "200":
		return n + k.paste(s[n:])
	}
	if symbol := sequence(parameters, final); symbol != "" {
		k.count(symbol)
		return n
	}
	if parameters == "" && final != 'I' && final != 'O' {
		return 0 // no key sends it: Escape, and what was typed after it
	}
	k.out.Replies++
	return n
}

// count counts a symbol that a sequence stands for.
func (k *keyReader) count(symbol string) {
	if utf8.RuneCountInString(symbol) == 1 || symbol == "Space" || symbol == "Enter" {
		k.out.Text++
		return
	}
	k.key(symbol)
}

// paste is the length of a pasted text with its end.
func (k *keyReader) paste(s []byte) int {
	end := []byte("\x1b[201~")
	if at := bytes.Index(s, end); at >= 0 {
		k.out.Pasted += int64(at)
		return at + len(end)
	}
	k.out.Pasted += int64(len(s))
	return len(s)
}

// ss3 reads a key of the application modes, and returns its length. Letters
// that only the numeric keypad sends are taken for what was typed after
// Escape, O.
func (k *keyReader) ss3(s []byte) int {
	if len(s) == 0 {
		return 0
	}
	if symbol := letterKey(s[0]); symbol != "" {
		k.key(symbol)
		return 1
	}
	return 0
}

// sequence is the symbol of a control sequence, "" if no key sends it.
func sequence(parameters string, final byte) string {
	numbers := strings.Split(parameters, ";")
	switch {
	case strings.ContainsAny(parameters, "<=>?"):
		return ""
	case final == 'Z':
		return "Shift+Tab"
	case final == '~' && len(numbers) == 3 && numbers[0] == "27":
		return chord(numbers[1], characterKey(numbers[2]))
	case final == 'u':
		return chord(at(numbers, 1), characterKey(numbers[0]))
	case final == '~':
		return chord(at(numbers, 1), numberKey(numbers[0]))
	case parameters == "" || numbers[0] == "1" && len(numbers) == 2:
		return chord(at(numbers, 1), letterKey(final))
	}
	return ""
}

func at(list []string, i int) string {
	if i < len(list) {
		return list[i]
	}
	return ""
}

// letterKey is the key of a final letter, as in CSI A and SS3 A.
func letterKey(final byte) string {
	return map[byte]string{
		'A': "ArrowUp", 'B': "ArrowDown", 'C': "ArrowRight", 'D': "ArrowLeft", 'H': "Home", 'F': "End",
		'P': "F1", 'Q': "F2", 'R': "F3", 'S': "F4",
	}[final]
}

// numberKey is the key of a number before ~.
func numberKey(number string) string {
	return map[string]string{
		"1": "Home", "2": "Insert", "3": "Delete", "4": "End", "5": "PageUp", "6": "PageDown", "7": "Home", "8": "End",
		"11": "F1", "12": "F2", "13": "F3", "14": "F4", "15": "F5", "17": "F6", "18": "F7", "19": "F8", "20": "F9", "21": "F10",
		"23": "F11", "24": "F12",
	}[number]
}

// characterKey is the key of a code point, which may have others after a colon.
func characterKey(number string) string {
	number, _, _ = strings.Cut(number, ":")
	n, err := strconv.Atoi(number)
	if err != nil || n <= 0 || n > utf8.MaxRune {
		return ""
	}
	switch n {
	case 9:
		return "Tab"
	case 13:
		return "Enter"
	case 27:
		return "Escape"
	case 32:
		return "Space"
	case 127:
		return "Backspace"
	}
	if n < ' ' {
		return ""
	}
	return string(rune(n))
}

// chord adds to a key the modifiers of xterm's parameter: 1 and the sum of 1
// for Shift, 2 Alt, 4 Control, 8 Meta.
func chord(parameter, key string) string {
	parameter, _, _ = strings.Cut(parameter, ":")
	n, err := strconv.Atoi(parameter)
	if err != nil || n < 2 || n > 16 || key == "" {
		return key
	}
	n--
	character := utf8.RuneCountInString(key) == 1
	var b strings.Builder
	for _, m := range []struct {
		bit  int
		name string
	}{{4, "Control+"}, {2, "Alt+"}, {1, "Shift+"}, {8, "Meta+"}} {
		switch {
		case n&m.bit == 0:
		case m.bit == 1 && character:
			key = strings.ToUpper(key)
		default:
			b.WriteString(m.name)
		}
	}
	return b.String() + key
}
