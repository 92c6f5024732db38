// Package board describes keyboards: keys, layers and what they mean, and
// every way to produce a symbol on them.
//
// # A board file
//
// A board is a TOML file of at most 256 KiB.
//
//	name      = "split-38"
//	title     = "Split, three rows of five, four thumb keys a side"
//	os-layout = "us"                # what the computer is set to; us if absent
//	prefer    = { "(" = "r2c8@marks" }
//
//	[shape]
//	kind           = "split"
//	column-stagger = [0.6, 0.2, 0.0, 0.2, 0.3]
//
//	[[layer]]
//	name = "base"
//	keys = '''
//	  q w e r t || y u i o p
//	  a s d f g || h j k l ;
//	  z x c v b || n m , . /
//	    Control Alt Space/marks:hold Escape || Enter Backspace Tab Shift
//	'''
//
// Layers are pictures, best in literal strings, in which a backslash is itself.
// Entries stand apart by blanks; || parts the halves, on a split board in every
// line; on a board of one half it stands first or last. There are at most 32 layers of 12 rows of 32 keys. The first layer is
// the base and fixes the arrangement. Positions count rows from the top and
// keys from the left over both halves: r2c3.
//
// An entry of a picture is one of:
//
//	a                       the character, as the computer receives it, whatever the OS layout
//	Escape, ArrowLeft, F5   a key by its W3C UI Events key value, or Space
//	Shift, AltGraph         a modifier: Control, Alt, Shift, Meta, AltGraph
//	KeyQ, Digit2            a key by its W3C UI Events code: what the OS layout has there
//	Control+w, Shift+Tab    a chord
//	marks:hold              opens the layer marks while held,
//	marks:latch             for the next key,
//	marks:lock              until pressed again,
//	base:stay               or for good, in the place of the first layer
//	a/Control               tap / hold; the last slash with something on both sides parts them
//	..                      falls through to the active layer below
//	--                      nothing
//	<pair-1>, <forget!>     something no computer sees; with ! not to be pressed in vain
//
// Of the active layers a later one in the file lies over an earlier one; under
// all lies the layer that stays, and then the first. The key that is held for a
// layer counts as pressed. A latched layer is gone once a key is pressed,
// whatever that does, modifiers excepted.
//
// In [shape]: kind is split (two halves of columns), ortholinear (one piece,
// straight columns) or row-staggered (the slanted rows of the standard board).
// The shorter lines after the last full one are thumb rows; thumbs = N says how
// many there are, where that is not right; on a row-staggered board it is the
// lowest line. column-stagger is how far each column of a half is shifted down,
// from the outer to the inner one; fingers names the finger of each in the same
// order; the default is two columns for the index finger, one each for middle
// and ring, the rest for the little finger. offsets shifts each line: outwards
// from the middle, on a row-staggered board to the right. A row-staggered board
// may give widths, { r1c14 = 2.0 }, and fingers as one text a line, such as
// "l l r m i i || i i m r l l". Lengths are in key units.
//
// A layer with when = ["marks", "cursor"] opens while both are active.
// [[combo]] has keys = ["r2c3", "r2c4"], gives = "Escape" and perhaps a layer:
// then it works while that is the topmost, and there takes the place of one
// without. prefer says by key and layer which stroke of a symbol is practised.
//
// # Strokes
//
// A symbol's strokes are all ways to it with up to three keys that open layers,
// and the modifiers that Shift and AltGraph levels or a chord need; see Stroke.
// What holding Shift or AltGraph makes of a character is what the OS layout has
// above it, unless its key sends that modifier already. Dead keys are found
// with Space, where all systems agree on the result, and with letters that
// Unicode composes.
package board
