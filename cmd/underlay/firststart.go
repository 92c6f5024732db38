package main

import (
	"errors"
	"fmt"
	"slices"

	"underlay/cmd/underlay/screen"
	"underlay/cmd/underlay/session"
	"underlay/drills/board"
)

// offer is what a first start lets the person choose from. It is nil where
// there is a configuration, or the command line names the board.
func (p *practice) offer() *session.Offer {
	if p.wish.board != "" || exists(p.env.Dirs.ConfigFile()) {
		return nil
	}
	o := &session.Offer{}
	var small, standard, set []session.Choice // set: standard boards on further OS layouts
	for _, name := range p.env.boardNames() {
		b, err := p.env.board(name)
		if err != nil {
			continue // board list and board check tell what is wrong with it
		}
		c := session.Choice{Name: name, Title: b.Title, Shape: shapeOf(b)}
		if b.Kind == board.RowStaggered {
			standard = append(standard, c)
			set = append(set, layoutsOf(b, c)...)
		} else {
			small = append(small, c)
		}
	}
	o.Boards = slices.Concat(small, standard)
	o.Others = slices.Concat(standard, set, small)
	return o
}

// shapeOf says how large a board is, and whether it is one piece.
func shapeOf(b *board.Board) string {
	kind := "one piece"
	if b.Kind == board.Split {
		kind = "split"
	}
	return fmt.Sprintf("%d keys, %s", len(b.Keys()), kind)
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

// alike puts the first of two boards on the OS layout that the other one was
// chosen with: a computer has one. A board of the person's own says itself
// what it is for.
func (e *Env) alike(names []string) []string {
	if len(names) < 2 || !slices.Contains(board.Embedded(), names[0]) || e.boardFile(names[0]) != "" {
		return names
	}
	first, err := e.board(names[0])
	if err != nil {
		return names
	}
	other, err := e.board(names[1])
	if err != nil || other.Kind != board.RowStaggered || other.OSLayout == first.OSLayout {
		return names
	}
	if set := names[0] + "-" + other.OSLayout; set != names[1] {
		return []string{set, names[1]}
	}
	return names[1:] // it is the same board
}

// show runs the sitting on the screen, and what comes between two of them: a
// person who has just started may first describe a board.
func (p *practice) show(o screen.Options) error {
	offer, notice := p.offer(), p.notice()
	for {
		m := p.sitting(offer, notice)
		if err := screen.Run(m, p, o); err != nil || !m.Describing() {
			return err
		}
		host, err := p.env.capture(false, o)
		switch {
		case errors.Is(err, screen.ErrStopped):
			return nil
		case err != nil:
			return err
		}
		notice = "Nothing was saved; what was begun goes on when you choose the same again."
		if offer = p.offer(); host.saved != "" {
			offer.Learn, notice = host.name, "Saved as "+board.Safe(host.saved)+"."
		}
	}
}
