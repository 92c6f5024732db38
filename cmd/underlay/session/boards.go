package session

import (
	"slices"

	"underlay/drills/board"
)

// boards chooses which board is being learned, and which is the other.
type boards struct {
	query
	narrowing bool // keys go to the query
	hits      []Choice
	view      ListView
}

func (m *Model) toBoards() {
	b := &boards{}
	learned := func(c Choice) bool { return slices.Index(m.settings.Boards, c.Name) == 0 }
	b.at = max(0, slices.IndexFunc(m.settings.AllBoards, learned)) // where Enter changes nothing
	b.list(m)
	m.push(b)
}

func (b *boards) list(m *Model) {
	b.hits = like(b.text, m.settings.AllBoards, func(c Choice) string { return c.Name + " " + c.Title })
	b.view.Items = b.view.Items[:0]
	b.view.Typed, b.view.Query = b.narrowing, b.text
	for _, c := range b.hits {
		it := Item{Name: board.Safe(c.Name), About: board.Safe(c.Title)}
		switch slices.Index(m.settings.Boards, c.Name) {
		case 0:
			it.Value, it.Marked = "being learned", true
		case 1:
			it.Value, it.Marked = "kept up", true
		}
		b.view.Items = append(b.view.Items, it)
	}
	b.view.At = b.at
	b.view.Foot = []string{"One board alone is fine: then there is no upkeep and no readiness.",
		"A board of your own goes into boards/ beside underlay.toml; `underlay board check` looks it over."}
}

// narrowKey takes a key while the list is being narrowed.
func (b *boards) narrowKey(m *Model, k Key) {
	switch k.Symbol {
	case board.Enter:
		b.choose(m, m.settings, 0)
		b.query, b.narrowing = query{}, false
	case board.Escape:
		b.query, b.narrowing = query{}, false
	case "Control+c":
		m.leave()
	default:
		b.edit(k.Symbol, len(b.hits))
	}
	b.list(m)
}

func (b *boards) key(m *Model, k Key) {
	if b.narrowing {
		b.narrowKey(m, k)
		return
	}
	s := m.settings
	switch k.Symbol {
	case "/":
		b.narrowing, b.at = true, 0
	case board.Enter:
		b.choose(m, s, 0)
	case "o":
		b.choose(m, s, 1)
	case "j":
		b.edit(board.ArrowDown, len(b.view.Items))
	case "k":
		b.edit(board.ArrowUp, len(b.view.Items))
	case board.ArrowDown, board.ArrowUp, board.Tab, "Shift+Tab":
		b.edit(k.Symbol, len(b.view.Items))
	case board.Escape, "q", "b":
		m.back()
	case "Control+c":
		m.leave()
	}
	b.view.At = b.at
}

// choose makes the board under the cursor the one being learned (0) or the
// other (1); the other once more drops it. What was kept up besides stays so;
// the two change places where it is the one to learn.
func (b *boards) choose(m *Model, s Settings, as int) {
	if b.at >= len(b.hits) {
		return
	}
	name := b.hits[b.at].Name
	had := slices.Index(s.Boards, name)
	list := slices.DeleteFunc(slices.Clone(s.Boards), func(n string) bool { return n == name })
	switch {
	case had == 0 || len(list) == 0:
		m.say("It is being learned already. Enter on another board learns that one instead.")
		return
	case as == 0:
		list = []string{name, list[len(list)-1]}
	case had != 1:
		list = []string{list[0], name}
	}
	s.Boards = list[:min(2, len(list))]
	m.configure(s)
}

func (b *boards) show(m *Model, v *View) {
	b.list(m)
	v.Title = "boards"
	v.List = &b.view
	if b.narrowing {
		v.Keys = append(v.Keys, Hint{"Enter", "learn this one"}, Hint{"Tab", "next"}, Hint{"Escape", "the whole list"})
		return
	}
	v.Keys = append(v.Keys, Hint{"j k", "move"}, Hint{"/", "search"}, Hint{"Enter", "learn this one"}, Hint{"o", "keep up, or not"}, Hint{"Escape", "back"})
}
