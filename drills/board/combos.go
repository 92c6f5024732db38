package board

import (
	"fmt"
	"slices"
)

// combo is keys that give something of their own when pressed together.
type combo struct {
	keys  []int // ascending
	gives meaning
	layer int // the topmost layer it works on; -1 for any
	place place
}

func (r *reader) combos() {
	tables := r.tablesOf("combo")
	if len(tables) > maxCombos {
		r.fault(r.places["combo.0"].key, "", fmt.Sprintf("the board has %d combos; %d are the most", len(tables), maxCombos), "")
		return
	}
	for i, t := range tables {
		path := fmt.Sprintf("combo.%d", i)
		r.known(t, path, "keys", "gives", "layer")
		c := combo{layer: r.comboLayer(t, path), place: r.places[path].key}
		c.keys = r.comboKeys(t, path)
		c.gives = r.comboGives(t, path)
		for _, o := range r.board.combos {
			if slices.Equal(o.keys, c.keys) && o.layer == c.layer && len(c.keys) > 0 {
				r.fault(c.place, "", fmt.Sprintf("two combos on the same keys: the first is on line %d", o.place.line), "")
			}
		}
		r.board.combos = append(r.board.combos, c)
	}
}

func (r *reader) comboLayer(t map[string]any, path string) int {
	name := r.text(t, path, "layer")
	if name == "" {
		return -1
	}
	n := r.layerNamed(name)
	if n < 0 {
		r.fault(r.places[join(path, "layer")].value, name, fmt.Sprintf("no layer is named %q", name), r.nearLayer(name))
	}
	return n
}

func (r *reader) comboKeys(t map[string]any, path string) []int {
	names := r.texts(t, path, "keys")
	at := r.places[join(path, "keys")].value
	if at == (place{}) {
		at = r.places[path].key
	}
	if len(names) < 2 {
		r.fault(at, "", "a combo takes two keys at least", `for example keys = ["r2c3", "r2c4"]`)
	}
	var keys []int
	for i, name := range names {
		at := r.places[fmt.Sprintf("%s.keys.%d", path, i)].value
		switch n, err := r.keyNamed(name); {
		case err != nil:
			r.fault(at, name, err.Error(), "")
		case slices.Contains(keys, n):
			r.fault(at, name, fmt.Sprintf("the combo names %s twice", name), "")
		default:
			keys = append(keys, n)
		}
	}
	slices.Sort(keys)
	return keys
}

// keyNamed finds the key at a position by its text.
func (r *reader) keyNamed(name string) (int, error) {
	p, err := ParsePosition(name)
	if err != nil {
		return -1, err
	}
	n := slices.IndexFunc(r.board.keys, func(k Key) bool { return k.Position == p })
	if n < 0 && len(r.board.keys) > 0 {
		return -1, fmt.Errorf("the board has no key at %s", name)
	}
	return n, nil
}

func (r *reader) comboGives(t map[string]any, path string) meaning {
	text := r.text(t, path, "gives")
	at := r.places[join(path, "gives")].value
	if text == "" {
		if t["gives"] == nil || at != (place{}) {
			r.fault(r.places[path].key, "", "the combo gives nothing", `add gives = "Escape", for example`)
		}
		return meaning{}
	}
	e, err := r.vocab.parseEntry(text)
	switch {
	case err != nil:
		r.fault(at, text, err.message, err.hint)
	case e.hold.verb != nothing || e.tap.verb == opens || e.tap.verb == through || e.tap.verb == modifies || e.tap.verb == nothing:
		r.fault(at, text, fmt.Sprintf("a combo gives a symbol, not %q", text), "a character, a key's name, a chord or <name>")
	}
	return r.settled(e.tap, BottomRow)
}
