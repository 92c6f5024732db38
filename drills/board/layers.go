package board

import (
	"fmt"
	"slices"
	"strings"
)

// layer is one layer with an entry for each key.
type layer struct {
	name  string
	when  []int // layers that open it when all of them are active; empty for most
	cells []entry
	place place
}

// readLayers reads the layers, and with the first the arrangement of the keys.
func (r *reader) readLayers() {
	tables := r.tablesOf("layer")
	switch {
	case len(tables) == 0:
		if r.places["layer"].key == (place{}) {
			r.fault(place{1, 1}, "", "the board has no layer", "add [[layer]] with a name and keys")
		}
		return
	case len(tables) > maxLayers:
		r.fault(r.places[fmt.Sprintf("layer.%d", maxLayers)].key, "",
			fmt.Sprintf("the board has %d layers; %d are the most", len(tables), maxLayers), "")
		return
	}
	r.names(tables)
	var first picture
	for i, t := range tables {
		p := r.picture(t, i)
		if i == 0 {
			if len(p) == 0 {
				return
			}
			first = p
			r.arrange(p)
		}
		r.cells(i, p, first)
	}
	r.ways()
	r.whens(tables)
	r.settle()
	r.combos()
	r.prefers()
}

func (r *reader) names(tables []map[string]any) {
	seen := map[string]bool{}
	for i, t := range tables {
		path := fmt.Sprintf("layer.%d", i)
		r.known(t, path, "name", "keys", "when")
		name := r.text(t, path, "name")
		at := r.places[join(path, "name")].value
		switch {
		case name == "":
			r.fault(r.places[path].key, "", fmt.Sprintf("layer %d has no name", i+1), "")
		case strings.ContainsFunc(name, notInLayerName):
			r.fault(at, name, fmt.Sprintf("layer name %q: letters, digits, - and _ only", name), "")
		case seen[name]:
			r.fault(at, name, fmt.Sprintf("two layers are named %q", name), "")
		}
		seen[name] = true
		r.board.layers = append(r.board.layers, layer{name: name, place: r.places[path].key})
	}
}

func notInLayerName(c rune) bool {
	return !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_')
}

func (r *reader) picture(t map[string]any, i int) picture {
	path := fmt.Sprintf("layer.%d", i)
	content := r.text(t, path, "keys")
	p, faults := draw(content, r.places[join(path, "keys")])
	for _, f := range faults {
		f.File = r.file
		r.found = append(r.found, f)
	}
	if message := p.tooLarge(); message != "" {
		r.fault(r.places[join(path, "keys")].value, "", message, "")
		return nil
	}
	if _, isText := t["keys"].(string); len(p) == 0 && (isText || t["keys"] == nil) {
		at := r.places[path].key
		r.fault(at, "", fmt.Sprintf("layer %q has no keys", r.board.layers[i].name), "draw it: keys = ''' … ''', entries parted by spaces")
	}
	return p
}

// cells reads the entries of one layer and compares its shape with the first's.
func (r *reader) cells(i int, p, first picture) {
	if len(p) == 0 {
		return
	}
	l := &r.board.layers[i]
	r.sameShape(l.name, p, first)
	l.cells = make([]entry, 0, p.count())
	for _, d := range p {
		for _, w := range d.words {
			e, err := r.vocab.parseEntry(w.text)
			if err != nil {
				r.fault(w.place, w.text, err.message, err.hint)
			}
			if i == 0 && e.tap.verb == through {
				r.fault(w.place, w.text, "the first layer has nothing under it to fall through to", "write -- for a key that does nothing")
			}
			e.place = w.place
			l.cells = append(l.cells, e)
		}
	}
}

func (r *reader) sameShape(name string, p, first picture) {
	for i, d := range p {
		if i >= len(first) {
			r.fault(d.place, "", fmt.Sprintf("layer %q has %d rows, the first layer %d", name, len(p), len(first)), "")
			return
		}
		switch want := first[i]; {
		case len(d.words) != len(want.words):
			r.fault(d.place, "", fmt.Sprintf("layer %q, row %d: %s, but the first layer has %d there", name, i+1, keyCount(len(d.words)), len(want.words)),
				"write .. for a key that falls through and -- for one that does nothing")
		case d.parts >= 0 && d.parts != want.parts && len(r.board.keys) > 0:
			r.fault(d.place, "||", fmt.Sprintf("layer %q, row %d: || stands after %s, in the first layer after %d", name, i+1, keyCount(d.parts), max(want.parts, 0)), "")
		}
	}
	if len(p) < len(first) {
		r.fault(p[len(p)-1].place, "", fmt.Sprintf("layer %q has %d rows, the first layer %d", name, len(p), len(first)), "")
	}
}

func keyCount(n int) string {
	if n == 1 {
		return "1 key"
	}
	return fmt.Sprintf("%d keys", n)
}

// ways puts layer numbers to the names that entries open.
func (r *reader) ways() {
	for i := range r.board.layers {
		l := &r.board.layers[i]
		for k := range l.cells {
			r.way(&l.cells[k].tap, l.cells[k])
			r.way(&l.cells[k].hold, l.cells[k])
		}
	}
}

func (r *reader) way(m *meaning, e entry) {
	if m.verb != opens {
		return
	}
	m.layer = r.layerNamed(m.target)
	if m.layer < 0 {
		r.fault(e.place, e.text, fmt.Sprintf("no layer is named %q", m.target), r.nearLayer(m.target))
		*m = meaning{}
		return
	}
	if m.layer == 0 && m.as != AsStay {
		r.fault(e.place, e.text, fmt.Sprintf("%q is the base layer: it is under all others and cannot be opened by %s", m.target, m.as),
			"only "+m.target+":stay leads back to it")
	}
}

func (r *reader) layerNamed(name string) int {
	return slices.IndexFunc(r.board.layers, func(l layer) bool { return l.name == name })
}

func (r *reader) nearLayer(name string) string {
	if near := nearest(name, r.board.Layers()); near != "" {
		return "did you mean " + near + "?"
	}
	return "the layers are " + strings.Join(r.board.Layers(), ", ")
}

func (r *reader) whens(tables []map[string]any) {
	for i, t := range tables {
		path := fmt.Sprintf("layer.%d", i)
		names := r.texts(t, path, "when")
		if t["when"] == nil {
			continue
		}
		at := r.places[join(path, "when")]
		if i == 0 {
			r.fault(at.key, "when", "the first layer is always active and takes no when", "")
			continue
		}
		if len(names) < 2 {
			r.fault(at.value, "when", "when names at least two layers", `for example when = ["marks", "cursor"]`)
			continue
		}
		for j, name := range names {
			at := r.places[fmt.Sprintf("%s.when.%d", path, j)].value
			switch n := r.layerNamed(name); {
			case n < 0:
				r.fault(at, name, fmt.Sprintf("no layer is named %q", name), r.nearLayer(name))
			case n == i:
				r.fault(at, name, fmt.Sprintf("layer %q waits for itself", name), "")
			case n == 0:
				r.fault(at, name, fmt.Sprintf("%q is the base layer and always active", name), "")
			default:
				r.board.layers[i].when = append(r.board.layers[i].when, n)
			}
		}
	}
}
