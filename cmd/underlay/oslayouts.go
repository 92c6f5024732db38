package main

import (
	"cmp"
	"slices"
	"strings"

	"underlay/cmd/underlay/session"
	"underlay/drills/board"
)

// layouts are the OS layouts to choose from, the likeliest first.
func (e *Env) layouts() []session.Choice {
	var out []session.Choice
	for _, name := range slices.Concat([]string{e.likelyLayout(), "us"}, board.OSLayouts()) {
		if !slices.ContainsFunc(out, func(c session.Choice) bool { return c.Name == name }) {
			out = append(out, session.Choice{Name: name, Title: board.OSLayoutTitle(name)})
		}
	}
	return out
}

// likelyLayout guesses the OS layout from the locale's language and country.
func (e *Env) likelyLayout() string {
	locale, _, _ := strings.Cut(cmp.Or(e.Getenv("LC_ALL"), e.Getenv("LC_CTYPE"), e.Getenv("LANG")), ".")
	switch locale {
	case "en_GB":
		return "gb"
	case "de_DE", "de_AT":
		return "de"
	case "fr_FR":
		return "fr"
	case "es_ES":
		return "es"
	case "sv_SE":
		return "se"
	}
	return "us"
}

// layoutsOf lists a standard board on the OS layouts that it has not got. A
// board without the key beside the left Shift is hardly used with another one.
func layoutsOf(b *board.Board, plain session.Choice) []session.Choice {
	if !slices.ContainsFunc(b.Keys(), func(k board.Key) bool { return k.Code == "IntlBackslash" }) {
		return nil
	}
	var out []session.Choice
	for _, layout := range board.OSLayouts() {
		if layout != b.OSLayout {
			c := plain
			c.Name, c.Title = plain.Name+"-"+layout, board.OSLayoutTitle(layout)
			out = append(out, c)
		}
	}
	return out
}

// comesAlong tells whether a board comes with the program, and serves on whatever
// OS layout there is. A board of the person's own says itself what it is for.
func (e *Env) comesAlong(name string) bool {
	return slices.Contains(board.Embedded(), name) && e.boardFile(name) == ""
}

// setTo puts the boards that come with the program on an OS layout.
func (e *Env) setTo(layout string, names []string) []string {
	out := slices.Clone(names)
	for i, name := range names {
		if b, err := e.board(name); err == nil && b.OSLayout != layout && e.comesAlong(name) {
			out[i] = name + "-" + layout
		}
	}
	return out
}

// alike puts the first of two boards on the OS layout that the other one was
// chosen with: a computer has one.
func (e *Env) alike(names []string) []string {
	if len(names) < 2 {
		return names
	}
	other, err := e.board(names[1])
	if err != nil {
		return names
	}
	out := slices.Concat(e.setTo(other.OSLayout, names[:1]), names[1:])
	return slices.Compact(out) // it may be the same board
}
