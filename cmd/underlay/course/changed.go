package course

import (
	"fmt"
	"strings"

	"underlay/drills/board"
)

// Changed says what is different on a board since it was last practised on.
type Changed struct {
	Board      string
	Stayed     int            // strokes that are as they were
	Moved      []board.Symbol // given by another stroke now
	Gone       []board.Symbol
	New        []board.Symbol
	Unreadable bool // the board as it was cannot be read any more
}

// Changed lists the boards whose content is not what the journal knows. After
// the first drill on the new content a board is not listed any more; putting
// the old file back restores what was.
func (c *Course) Changed() []Changed {
	var out []Changed
	for _, b := range c.config.Boards {
		hash, met := c.past.Hash[b.Name]
		if !met || hash == b.Hash() {
			continue
		}
		was, _ := board.Read(b.Name, []byte(c.past.Was[b.Name]))
		out = append(out, c.compare(b, was))
	}
	return out
}

// compare says what became of was, which is nil where it cannot be read. Only
// what is ever asked for counts.
func (c *Course) compare(now, was *board.Board) Changed {
	ch := Changed{Board: now.Name}
	if was == nil {
		ch.Unreadable = true
		return ch
	}
	for _, s := range now.Symbols() {
		if !c.asks(now, s) {
			continue
		}
		st, _ := now.Drilled(s)
		switch old, had := was.Drilled(s); {
		case !had:
			ch.New = append(ch.New, s)
		case old.Equal(st):
			ch.Stayed++
		default:
			ch.Moved = append(ch.Moved, s)
		}
	}
	for _, s := range was.Symbols() {
		if _, has := now.Drilled(s); !has && c.asks(was, s) {
			ch.Gone = append(ch.Gone, s)
		}
	}
	return ch
}

func (c *Course) asks(b *board.Board, s board.Symbol) bool {
	return asked(b, s, c.mix, c.config.Keeps)
}

// Words tells the change in one line.
func (ch Changed) Words() string {
	if ch.Unreadable {
		return ch.Board + " has changed since the last time."
	}
	var parts []string
	add := func(what string, symbols []board.Symbol) {
		if len(symbols) > 0 {
			parts = append(parts, fmt.Sprintf("%d %s (%s)", len(symbols), what, list(symbols)))
		}
	}
	add("moved", ch.Moved)
	add("new", ch.New)
	add("gone", ch.Gone)
	if len(parts) == 0 {
		return ch.Board + " has changed since the last time; all strokes are as they were."
	}
	return fmt.Sprintf("%s has changed: %s; %d stay as they were.", ch.Board, strings.Join(parts, ", "), ch.Stayed)
}

// list names a few symbols.
func list(symbols []board.Symbol) string {
	const most = 6
	var out []string
	for _, s := range symbols[:min(most, len(symbols))] {
		out = append(out, string(s))
	}
	if len(symbols) > most {
		out = append(out, "…")
	}
	return strings.Join(out, " ")
}
