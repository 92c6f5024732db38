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
	o := &session.Offer{Layouts: p.env.layouts(), Begun: p.env.begunCapture()}
	var small, standard, set []session.Choice // set: standard boards on further OS layouts
	for _, name := range p.env.boardNames() {
		b, err := p.env.board(name)
		if err != nil {
			continue // board list and board check tell what is wrong with it
		}
		c := session.Choice{Name: name, Title: titleOf(b), Shape: fmt.Sprintf("%d keys", len(b.Keys())), Set: !p.env.comesAlong(name) || name == "ansi-61"}
		if b.Kind == board.RowStaggered {
			standard = append(standard, c)
			set = append(set, layoutsOf(b, c)...)
		} else {
			small = append(small, c)
		}
	}
	o.Boards = slices.Concat(small, standard)
	standard = slices.Concat(standard, set)
	for i := range standard {
		standard[i].Set = true // the list has it on each OS layout
	}
	o.Others = slices.Concat(standard, small)
	return o
}

// titleOf says what a board is: its title, or at least of how many pieces.
func titleOf(b *board.Board) string {
	switch {
	case b.Title != "":
		return b.Title
	case b.Kind == board.Split:
		return "Split"
	}
	return "One piece"
}

// show runs the sitting on the screen, and what comes between two of them: a
// person who has just started may first describe a board.
func (p *practice) show(o screen.Options) error {
	offer, notice := p.offer(), p.notice()
	for {
		m := p.sitting(offer, notice)
		if err := screen.Run(m, p, o); err != nil || m.Describing() == session.NotDescribing {
			return err
		}
		host, err := p.env.capture(m.Describing() == session.Anew, o)
		switch {
		case errors.Is(err, screen.ErrStopped):
			return nil
		case err != nil:
			return err
		}
		notice = "Nothing was saved; what was begun is kept."
		if offer = p.offer(); host.saved != "" {
			offer.Learn, notice = host.name, "Saved as "+board.Safe(host.saved)+"."
		}
	}
}
