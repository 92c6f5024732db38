// Package corpus counts what is typed: source code and recordings of keys go
// in, tables of frequencies come out. It reads, writes and mixes such tables.
//
// It knows no board, no terminal, no clock and no file system.
//
// # The code view
//
// Source is counted in its code view: comments are left out, and so are the
// bodies of string and character literals; their quotes are kept. Expressions
// inside a template string are code again. Indentation is no stroke (editors
// give it), a run of spaces inside a line is one, and a line that held nothing
// but a comment is not there. What was left out parts its neighbours: the two
// quotes of a string with a body are no pair.
//
// Symbols, pairs and runs are counted in all files. The other sections, which
// make lines that look like the language's, are counted in all files of an
// embedded table, and of a large scan in a part of them, which a note tells.
//
// # The format of a table
//
// A table is a text in UTF-8 with lines that end in a line feed; fields are
// parted by one tab. A field writes tab as \t, line feed as \n and backslash as
// \\, and keys write space as \s; other control characters do not occur.
//
//	underlay table 1
//	:part
//	language	go
//	…
//	:symbol
//	(	1403321
//	…
//
// The first line is the one shown. Empty lines and lines that begin with "# "
// are passed over, except that a section may count the key "#", which has a
// tab after it. A line of one field, a colon and a name, begins a section; all
// else belongs to the section above it. The section part begins the table of
// one language and says what was counted, one property a line:
//
//	language NAME                               as in package code; may be absent
//	files N, bytes N, lines N                   of source, as read
//	weight SHARE                                see Table.Weight
//	source NAME VERSION LICENCE FILES BYTES     a package that was counted
//	note TEXT                                   an assumption, a limit
//
// In the other sections a line has the key's fields and last the count, a
// decimal number that is not negative. Sections are the constants of type
// Section; a file holds each at most once a part, and a key once a section.
package corpus
