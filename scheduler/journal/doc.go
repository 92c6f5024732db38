// Package journal keeps everything practised: append-only files of checked
// lines, one file a machine. All else is derived from it.
//
// # The format, byte by byte
//
// A file is named MACHINE.journal and is a sequence of lines:
//
//	line     = checksum SP json LF
//	checksum = 8 digits of 0-9 a-f: the CRC-32C (Castagnoli, as in RFC 3720,
//	           section 12.1) of the bytes of json
//	SP, LF   = the bytes 20 and 0A
//	json     = one JSON object (RFC 8259) in UTF-8, without line feeds, its
//	           first member "kind", no space before it or in it
//
// The kinds, with their members in the order in which they are written. "at"
// is a time as in RFC 3339, with milliseconds and the zone's offset. Members
// that are empty, 0 or false are left out, except kind and at.
//
//	header   at, version (1), machine
//	board    at, name, hash, source (the board file)
//	drill    at, session, board, hash, drill (its kind), block, language,
//	         treatment, unordered, strokes, keys
//	strike   at, session, undo
//
// strokes is an array of [symbol, stroke], each once; keys an array of
//
//	[index in strokes, ms, flags, got, lost ms, slip]
//
// where what is 0 or empty at the end is left out. Times in ms have one digit after
// the point. Flags is the sum of the bits of Flags. In an unordered drill the keys are
// sorted by symbol, stroke, flags and the rest, and do not tell what was typed after what.
//
//	7baddfdb {"kind":"strike","at":"2026-03-01T18:04:05.000+01:00","session":"k2f"}
//
// The first line is a header, and a header may come again: it says of which
// version the lines after it are. The member machine names who writes the file,
// whatever the file is called. A board comes before the first drill that names
// its hash.
//
// Readers of version 1 pass over members and kinds that they do not know, and
// more elements at the end of a key. A file with a header of a higher version is
// neither read from there on nor written.
//
// # What is asked of the disk
//
// A record is one write at the end of the file and one fsync, and counts as
// saved when both are done. Of a write that was cut short any part may be on
// disk, also bytes of other value and of no meaning, but nothing before its
// first byte changes. A file that was made survives when the directory was
// synced. Nothing more is presumed: not that a write of a line is atomic, nor
// that a failed fsync can be tried again on the same bytes (they are cut off and
// written anew).
//
// So a last line without LF is torn: it was never said to be saved. Before the
// next append its bytes are kept in a file MACHINE.TIME.torn beside, it is cut
// off, and the file is synced. A line with LF that is not as described is bad: it
// is reported with its number and passed over, and stays where it is.
//
// A machine writes its own file and no other, under the lock MACHINE.lock.
package journal
