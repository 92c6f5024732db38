package board

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// verb is what one meaning of a key does.
type verb uint8

const (
	nothing  verb = iota
	through       // falls through to the layer below
	gives         // a symbol: a character, a named key or a chord
	physKey       // a key of the standard keyboard: the OS layout says what it gives
	modifies      // a modifier while held
	opens         // a layer
	unseen        // something no computer sees
)

// meaning is what a key does when tapped or when held.
type meaning struct {
	verb   verb
	symbol Symbol // for gives, modifies, unseen
	code   string // for physKey
	target string // the layer's name, for opens
	layer  int    // its index, once the layers are known
	as     As     // hold, latch, lock or stay, for opens
	never  bool   // for unseen: not to be pressed in vain
}

// entry is one place of a layer's picture.
type entry struct {
	text      string
	place     place
	tap, hold meaning // hold.verb is nothing for a key with one meaning
}

// entryError is what is wrong with an entry's text.
type entryError struct{ message, hint string }

func (e *entryError) Error() string { return e.message }

func (v *vocabulary) parseEntry(text string) (entry, *entryError) {
	text = norm.NFC.String(text)
	e := entry{text: text}
	switch {
	case text == "..":
		e.tap.verb = through
		return e, nil
	case text == "--":
		return e, nil
	}
	tap, hold, both := splitTapHold(text)
	var err *entryError
	if e.tap, err = v.parseMeaning(tap); err != nil {
		return e, err
	}
	if !both {
		return e, nil
	}
	if e.hold, err = v.parseMeaning(hold); err != nil {
		return e, err
	}
	return e, checkTapHold(e)
}

// splitTapHold parts "a/Control" at the last slash with something on both sides.
func splitTapHold(text string) (tap, hold string, both bool) {
	for i := len(text) - 2; i > 0; i-- {
		if text[i] == '/' {
			return text[:i], text[i+1:], true
		}
	}
	return text, "", false
}

func checkTapHold(e entry) *entryError {
	switch {
	case e.tap.verb == opens && e.tap.as == AsHold:
		return &entryError{
			fmt.Sprintf("%q opens a layer by tapping, but %q is a way of holding", e.text, e.tap.target+":hold"),
			"before the slash stands what a tap does: a symbol, or " + e.tap.target + ":latch, :lock or :stay"}
	case e.hold.verb == opens && e.hold.as != AsHold:
		return &entryError{
			fmt.Sprintf("%q opens a layer while held, but %q is a way of tapping", e.text, e.hold.target+":"+string(e.hold.as)),
			"after the slash stands what holding does: write " + e.hold.target + ":hold"}
	case e.tap.verb == modifies:
		return &entryError{
			fmt.Sprintf("%q taps a modifier, which does nothing by itself", e.text),
			"before the slash stands what a tap gives, after it what holding does, as in a/Control"}
	}
	return nil
}

func (v *vocabulary) parseMeaning(text string) (meaning, *entryError) {
	if n := utf8.RuneCountInString(text); n == 1 {
		return parseCharacter(text)
	}
	if strings.HasPrefix(text, "<") && strings.HasSuffix(text, ">") {
		return parseUnseen(text)
	}
	if text == ".." || text == "--" {
		return meaning{}, &entryError{".. and -- stand alone, not beside a slash", "leave the slash out, or write what a tap and what holding does"}
	}
	if m, ok := v.named(text); ok {
		return m, nil
	}
	if target, way, ok := strings.Cut(text, ":"); ok && target != "" && way != "" {
		return v.parseWay(text, target, way)
	}
	if mods, key, ok := Symbol(text).Chord(); ok {
		return v.parseChord(text, mods, key)
	}
	return meaning{}, v.unknown(text)
}

func parseCharacter(text string) (meaning, *entryError) {
	r, _ := utf8.DecodeRuneInString(text)
	if r == utf8.RuneError || !unicode.IsGraphic(r) || unicode.IsSpace(r) {
		return meaning{}, &entryError{
			fmt.Sprintf("the character U+%04X cannot be seen or is no character", r),
			"write a key's name, such as Space, or -- for nothing"}
	}
	return meaning{verb: gives, symbol: Symbol(text)}, nil
}

func parseUnseen(text string) (meaning, *entryError) {
	name, never := strings.CutSuffix(text[1:len(text)-1], "!")
	ok := name != "" && utf8.RuneCountInString(name) <= 16
	for _, r := range name {
		ok = ok && (unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-')
	}
	if !ok {
		return meaning{}, &entryError{
			fmt.Sprintf("%q: between the angle marks stand up to 16 letters, digits and hyphens", text),
			"for example <pair-1>, or <forget!> for a key not to press in vain"}
	}
	return meaning{verb: unseen, symbol: Symbol("<" + name + ">"), never: never}, nil
}

// named finds W3C key values and codes. A name that is both, such as Tab, is
// the same key either way.
func (v *vocabulary) named(text string) (meaning, bool) {
	s := Symbol(text)
	if s.IsModifier() {
		return meaning{verb: modifies, symbol: s}, true
	}
	if _, ok := v.keys[s]; ok {
		return meaning{verb: gives, symbol: s}, true
	}
	if _, ok := v.codes[text]; ok {
		return meaning{verb: physKey, code: text}, true
	}
	return meaning{}, false
}

func (v *vocabulary) parseWay(text, target, way string) (meaning, *entryError) {
	ways := []string{string(AsHold), string(AsLatch), string(AsLock), string(AsStay)}
	if slices.Contains(ways, way) {
		return meaning{verb: opens, target: target, as: As(way)}, nil
	}
	e := &entryError{fmt.Sprintf("%q: a layer is opened by hold, latch, lock or stay, not %q", text, way), ""}
	if near := nearest(way, ways); near != "" {
		e.hint = "did you mean " + target + ":" + near + "?"
	}
	return meaning{}, e
}

func (v *vocabulary) parseChord(text string, mods []Symbol, key Symbol) (meaning, *entryError) {
	if _, ok := v.keys[key]; !ok && !key.IsCharacter() {
		return meaning{}, v.unknown(string(key))
	}
	if key.IsModifier() {
		return meaning{}, &entryError{
			fmt.Sprintf("%q: a chord ends in a key that is no modifier", text),
			"a key that holds several modifiers at once cannot be described"}
	}
	return meaning{verb: gives, symbol: ChordOf(key, mods...)}, nil
}

// unknown tells the near names, or that two entries have run together.
func (v *vocabulary) unknown(text string) *entryError {
	e := &entryError{message: fmt.Sprintf("%q is no character, key or way into a layer", text)}
	near, parted := cmp.Or(engraved(text), nearest(text, v.names())), v.runTogether(text)
	switch {
	case near != "" && parted != "":
		e.hint = "did you mean " + near + ", or two entries, " + parted + "?"
	case near != "":
		e.hint = "did you mean " + near + "?"
	case parted != "":
		e.hint = "two entries run together? " + parted
	default:
		e.hint = "entries are parted by spaces; names are those of W3C UI Events, such as Escape or KeyQ"
	}
	return e
}

// engraved returns the W3C name of a key that carries another word on many
// keyboards (common practice), or "".
func engraved(text string) string {
	switch strings.ToLower(text) {
	case "left", "right", "up", "down":
		return "Arrow" + strings.ToUpper(text[:1]) + strings.ToLower(text[1:])
	case "return":
		return string(Enter)
	case "spacebar":
		return string(Space)
	}
	return ""
}

func (v *vocabulary) names() []string {
	var names []string
	for k := range v.keys {
		names = append(names, string(k))
	}
	for c := range v.codes {
		names = append(names, c)
	}
	return names
}

// runTogether finds a place where text parts into two known entries.
func (v *vocabulary) runTogether(text string) string {
	known := func(s string) bool {
		_, ok := v.named(s)
		return ok || utf8.RuneCountInString(s) == 1 || s == ".." || s == "--"
	}
	for i := range text {
		if i > 0 && known(text[:i]) && known(text[i:]) {
			return text[:i] + " " + text[i:]
		}
	}
	return ""
}

// CheckEntry tells what is wrong with one entry of a layer's picture, or nil.
// Whether the layers it names exist is not looked at.
func CheckEntry(text string) error {
	if len(fields(text)) != 1 {
		return fmt.Errorf("%q: an entry is one word without blanks", text)
	}
	if _, err := newVocabulary().parseEntry(text); err != nil {
		if err.hint != "" {
			return fmt.Errorf("%s: %s", err.message, err.hint)
		}
		return err
	}
	return nil
}

// ShortEntry writes an entry in at most four cells, as on a key's legend.
func ShortEntry(text string) string {
	tap, _, _ := splitTapHold(text)
	switch {
	case tap == "--":
		return "·"
	case tap == "..":
		return ""
	}
	if name, _, ok := strings.Cut(tap, ":"); ok && name != "" {
		tap = name
	}
	return shorten(Safe(strings.Trim(tap, "<>")))
}
