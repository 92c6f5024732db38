package board

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// seenKeys are the W3C UI Events key values, less the modifiers, that a
// terminal can tell a program, and Space.
func seenKeys() []Symbol {
	keys := []Symbol{
		Space, Enter, Tab, Escape, Backspace, Delete, Insert,
		ArrowLeft, ArrowDown, ArrowUp, ArrowRight, Home, End, PageUp, PageDown,
	}
	for i := 1; i <= 24; i++ {
		keys = append(keys, Symbol(fmt.Sprintf("F%d", i)))
	}
	return keys
}

// unseenKeys are the W3C UI Events key values a board may send and no program
// in a terminal sees: the desktop or the terminal takes them.
func unseenKeys() []Symbol {
	return []Symbol{
		"CapsLock", "NumLock", "ScrollLock", "Fn", "FnLock", "Hyper", "Super", "Symbol",
		"ContextMenu", "PrintScreen", "Pause", "Clear", "Copy", "Cut", "Paste", "Undo", "Redo", "Find", "Help",
		"Select", "Again", "Props", "Cancel", "Execute", "Open", "Close", "Save", "New", "Print", "ZoomIn", "ZoomOut",
		"BrightnessUp", "BrightnessDown", "Eject", "Power", "PowerOff", "LogOff", "Hibernate", "Standby", "WakeUp",
		"AudioVolumeUp", "AudioVolumeDown", "AudioVolumeMute", "MicrophoneToggle", "MicrophoneVolumeMute",
		"MediaPlayPause", "MediaPlay", "MediaPause", "MediaStop", "MediaTrackNext", "MediaTrackPrevious",
		"MediaFastForward", "MediaRewind", "MediaRecord",
		"BrowserBack", "BrowserForward", "BrowserHome", "BrowserRefresh", "BrowserSearch", "BrowserStop", "BrowserFavorites",
		"LaunchApplication1", "LaunchApplication2", "LaunchCalendar", "LaunchMail", "LaunchMediaPlayer",
		"Convert", "NonConvert", "Compose", "KanaMode", "HangulMode", "HanjaMode", "Zenkaku", "Hankaku", "Eisu",
	}
}

func modifiers() []Symbol { return []Symbol{Control, Alt, Shift, Meta, AltGraph} }

// vocabulary is what the reader knows by name.
type vocabulary struct {
	keys  map[Symbol]bool // true: seen
	codes map[string]physical
}

// physical is a key of the standard keyboard: where it is in the grid of
// ISO/IEC 9995-1, and what it gives where no OS layout has a say.
type physical struct {
	grid  string
	fixed Symbol // empty for the writing keys
}

func newVocabulary() *vocabulary {
	v := &vocabulary{keys: map[Symbol]bool{}, codes: standardCodes()}
	for _, k := range seenKeys() {
		v.keys[k] = true
	}
	for _, k := range slices.Concat(unseenKeys(), modifiers()) {
		v.keys[k] = false
	}
	return v
}

// standardCodes are the W3C UI Events codes with their ISO/IEC 9995-1 grid
// names, as far as the grid has one for them. Backslash is D13 in the top row
// and C12 in the home row; see gridAt.
func standardCodes() map[string]physical {
	codes := map[string]physical{"Backquote": {grid: "E00"}, "Space": {grid: "A03", fixed: Space}}
	for row, names := range map[string]string{
		"E": "Digit1 Digit2 Digit3 Digit4 Digit5 Digit6 Digit7 Digit8 Digit9 Digit0 Minus Equal IntlYen",
		"D": "KeyQ KeyW KeyE KeyR KeyT KeyY KeyU KeyI KeyO KeyP BracketLeft BracketRight Backslash",
		"C": "KeyA KeyS KeyD KeyF KeyG KeyH KeyJ KeyK KeyL Semicolon Quote",
		"B": "KeyZ KeyX KeyC KeyV KeyB KeyN KeyM Comma Period Slash IntlRo",
	} {
		for i, name := range strings.Fields(names) {
			codes[name] = physical{grid: fmt.Sprintf("%s%02d", row, i+1)}
		}
	}
	codes["IntlBackslash"] = physical{grid: "B00"}
	for code, s := range map[string]Symbol{
		"ShiftLeft": Shift, "ShiftRight": Shift, "ControlLeft": Control, "ControlRight": Control,
		"AltLeft": Alt, "AltRight": Alt, "MetaLeft": Meta, "MetaRight": Meta,
		"Lang1": "HangulMode", "Lang2": "HanjaMode", "NumpadEnter": Enter,
		"NumpadAdd": "+", "NumpadSubtract": "-", "NumpadMultiply": "*", "NumpadDivide": "/", "NumpadDecimal": ".",
	} {
		codes[code] = physical{fixed: s}
	}
	for i := range 10 {
		codes[fmt.Sprintf("Numpad%d", i)] = physical{fixed: Symbol(fmt.Sprint(i))}
	}
	return codes
}

// gridAt gives the grid name of a code in a row; empty where it has none.
func (v *vocabulary) gridAt(code string, row Row) string {
	if code == "Backslash" && row == HomeRow {
		return "C12"
	}
	return v.codes[code].grid
}

// Unseen reports whether no program in a terminal receives s: keys that the
// board itself acts on, media and other keys that the desktop takes, lone
// modifiers, and chords with Meta.
func (s Symbol) Unseen() bool {
	if s.IsCharacter() {
		return false
	}
	if mods, key, ok := s.Chord(); ok {
		return slices.Contains(mods, Meta) || key.Unseen()
	}
	return !isSeenKey(s)
}

// isSeenKey reports whether s is among seenKeys.
func isSeenKey(s Symbol) bool {
	switch s {
	case Space, Enter, Tab, Escape, Backspace, Delete, Insert,
		ArrowLeft, ArrowDown, ArrowUp, ArrowRight, Home, End, PageUp, PageDown:
		return true
	}
	digits, f := strings.CutPrefix(string(s), "F")
	n, err := strconv.Atoi(digits)
	return f && err == nil && n >= 1 && n <= 24 && digits[0] != '0' && digits[0] != '+'
}
