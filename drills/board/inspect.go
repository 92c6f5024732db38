package board

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// inspect adds what can be said once the strokes are known.
func (r *reader) inspect() {
	b := r.board
	b.file = r.file
	if !b.complete {
		r.add(Warning, place{}, "", fmt.Sprintf("the layers can be combined in more than %d ways; strokes beyond them are not found", b.stateBound()), "")
	}
	r.unreached()
	r.covered()
	r.noWayBack()
	r.preferences()
	r.emptyKeys()
}

// unreached faults layers that nothing opens.
func (r *reader) unreached() {
	for l := 1; l < len(r.board.layers); l++ {
		if r.board.everActive(l) {
			continue
		}
		layer := r.board.layers[l]
		hint := fmt.Sprintf("give a key %s:hold, or remove the layer", layer.name)
		if len(layer.when) > 0 {
			hint = "the layers it waits for are never active together"
		}
		r.fault(layer.place, layer.name, fmt.Sprintf("layer %q is never reached with up to %d keys", layer.name, maxDepth), hint)
	}
}

func (b *Board) everActive(layer int) bool {
	return slices.ContainsFunc(b.states, func(s *state) bool { return slices.Contains(s.stack, layer) })
}

// covered faults entries under the key that has to be held for their layer,
// and warns of those that other layers always cover.
func (r *reader) covered() {
	seen, free := r.board.usable()
	for l, layer := range r.board.layers {
		if !r.board.everActive(l) {
			continue
		}
		if l > 0 && !slices.Contains(seen[l], true) && slices.Contains(free[l], true) {
			r.add(Warning, layer.place, layer.name, fmt.Sprintf("layer %q is always covered by a layer above it", layer.name),
				"a layer later in the file lies on top of an earlier one")
			continue
		}
		for k, e := range layer.cells {
			if e.tap.verb == through || e.tap.verb == nothing && e.hold.verb == nothing || seen[l][k] {
				continue
			}
			at := r.board.keys[k].Position
			if !free[l][k] {
				r.fault(e.place, e.text, fmt.Sprintf("%s is held for layer %q, so %q there is never pressed", at, layer.name, e.text), "write -- or .. there")
				continue
			}
			r.add(Warning, e.place, e.text, fmt.Sprintf("%q at %s on layer %q is always covered by a layer above it", e.text, at, layer.name),
				"a layer later in the file lies on top of an earlier one")
		}
	}
}

// usable says of every entry whether it is what its key does in some state,
// and whether the key is free in some state in which the layer is active.
func (b *Board) usable() (seen, free [][]bool) {
	for range b.layers {
		seen, free = append(seen, make([]bool, len(b.keys))), append(free, make([]bool, len(b.keys)))
	}
	for _, s := range b.states {
		for k := range b.keys {
			if slices.Contains(s.down, k) {
				continue
			}
			_, l := b.find(s.stack, k)
			seen[l][k] = true
			for _, l := range s.stack {
				free[l][k] = true
			}
		}
	}
	return seen, free
}

// lasting is what stays when all keys are up: the layer in place of the first
// one, and those locked.
type lasting struct {
	stay   int
	locked uint64
}

// maxLasting bounds how many of them are looked at for a way back.
const maxLasting = 256

// noWayBack faults locks and stays after which nothing leads back to rest.
func (r *reader) noWayBack() {
	next, complete := r.board.lastings()
	if !complete {
		return
	}
	home := map[lasting]bool{{}: true}
	for grown := true; grown; {
		grown = false
		for from, to := range next {
			if !home[from] && slices.ContainsFunc(to, func(t lasting) bool { return home[t] }) {
				home[from], grown = true, true
			}
		}
	}
	var stuck []int
	for from := range next {
		if !home[from] {
			stuck = append(stuck, from.culprit())
		}
	}
	slices.Sort(stuck)
	for _, l := range slices.Compact(stuck) {
		e := r.board.opener(l)
		r.fault(e.place, e.text, fmt.Sprintf("%q has no way back: nothing in layer %q closes it", e.text, r.board.layers[l].name),
			"leave .. at the same key in that layer, or give it "+r.board.layers[0].name+":stay")
	}
}

func (n lasting) culprit() int {
	if n.stay != 0 {
		return n.stay
	}
	l := 0
	for !has(n.locked, l) {
		l++
	}
	return l
}

// opener finds the entry that locks or stays in a layer.
func (b *Board) opener(layer int) entry {
	for _, l := range b.layers {
		for _, e := range l.cells {
			if e.tap.verb == opens && e.tap.layer == layer && (e.tap.as == AsLock || e.tap.as == AsStay) {
				return e
			}
		}
	}
	return entry{}
}

// lastings says for every lasting state that can come about which others one
// lock or stay leads to.
func (b *Board) lastings() (next map[lasting][]lasting, complete bool) {
	next = map[lasting][]lasting{}
	queue := []lasting{{}}
	for len(queue) > 0 {
		n := queue[0]
		queue = queue[1:]
		if _, done := next[n]; done {
			continue
		}
		if len(next) == maxLasting {
			return next, false
		}
		next[n] = b.lastingAfter(n)
		queue = append(queue, next[n]...)
	}
	return next, true
}

// lastingAfter tries every lock and stay that can be pressed with up to two
// keys held or latched first.
func (b *Board) lastingAfter(n lasting) []lasting {
	start := &state{stay: n.stay, locked: n.locked}
	start.stack = b.stackOf(start)
	todo, out := []*state{start}, []lasting{}
	seen := map[stateKey]bool{start.key(): true}
	for len(todo) > 0 && len(seen) < b.stateBound() {
		s := todo[0]
		todo = todo[1:]
		for _, a := range b.acts(s) {
			t := b.apply(s, a)
			switch {
			case a.as == AsLock || a.as == AsStay:
				out = append(out, lasting{t.stay, t.locked})
			case len(t.path) < maxDepth && !seen[t.key()]:
				seen[t.key()] = true
				todo = append(todo, t)
			}
		}
	}
	slices.SortFunc(out, func(a, b lasting) int { return cmp.Or(cmp.Compare(a.stay, b.stay), cmp.Compare(a.locked, b.locked)) })
	return slices.Compact(out)
}

// preferences faults those that name no stroke.
func (r *reader) preferences() {
	for _, p := range r.board.prefer {
		all := r.board.Strokes(p.symbol)
		if slices.ContainsFunc(all, p.means) {
			continue
		}
		hint := "the board cannot produce it at all"
		if len(all) > 0 {
			hint = fmt.Sprintf("its easiest stroke is %s@%s", all[0].Final().Position, all[0].Layer)
		}
		r.fault(p.place, p.text, fmt.Sprintf("no stroke of %s ends on %s", Safe(string(p.symbol)), p.text), hint)
	}
}

func (p preference) means(s Stroke) bool {
	return s.Final().Position == p.position && (p.layer == "" || p.layer == s.Layer)
}

// emptyKeys tells of entries that give nothing, or less than they seem to,
// under the OS layout.
func (r *reader) emptyKeys() {
	b := r.board
	told := map[string]bool{}
	for _, l := range b.layers {
		for _, e := range l.cells {
			switch m := e.tap; {
			case told[e.text]:
			case m.verb == physKey && b.layout.keys[m.code] == [4]glyph{}:
				told[e.text] = true
				r.add(Warning, e.place, e.text, fmt.Sprintf("the OS layout %s has nothing on %s", b.OSLayout, m.code), "")
			case m.verb == gives && m.symbol.IsCharacter() && !b.layout.has(m.symbol):
				told[e.text] = true
				r.add(Note, e.place, e.text, fmt.Sprintf("%s is not on the OS layout %s", Safe(string(m.symbol)), b.OSLayout),
					"the computer has to be set up to get it from this key")
			}
		}
	}
}

// Shares below this are not worth a warning: one stroke in twenty thousand.
const rareShare = 1.0 / 20000

// missingTold is how many missing symbols have a warning of their own.
const missingTold = 12

// Check tells what the board lacks for work in which the symbols have these
// frequencies (any unit; keys are spelt like Symbol): a warning for each symbol
// that no layer has, the commonest first, and a note for each preferred stroke
// that costs clearly more than another.
func (b *Board) Check(frequency map[string]float64) Findings {
	var found Findings
	total := 0.0
	for _, f := range frequency {
		total += f
	}
	var missing []string
	for s, f := range frequency {
		if f/total >= rareShare && len(b.waysTo(Symbol(s))) == 0 {
			missing = append(missing, s)
		}
	}
	slices.SortFunc(missing, func(s, t string) int {
		return cmp.Or(cmp.Compare(frequency[t], frequency[s]), strings.Compare(s, t))
	})
	for i, s := range missing {
		if i == missingTold {
			rest := strings.Join(missing[i:], " ")
			found = append(found, Finding{File: b.file, Level: Warning, Entry: rest,
				Message: fmt.Sprintf("and %d less common ones: %s", len(missing)-i, Safe(rest))})
			break
		}
		found = append(found, Finding{File: b.file, Level: Warning, Entry: s,
			Message: fmt.Sprintf("%s is on no layer, but your code has %.2g of it in a thousand strokes", Safe(s), 1000*frequency[s]/total),
			Hint:    "put it on a free key, or leave that code out of the mix"})
	}
	return append(found, b.awkward()...)
}

// awkwardBy is how much more a preferred stroke may cost without a note.
const awkwardBy = 0.3

func (b *Board) awkward() Findings {
	var found Findings
	for _, p := range b.prefer {
		all := b.Strokes(p.symbol)
		chosen, _ := b.Drilled(p.symbol)
		if len(all) > 0 && chosen.Effort > all[0].Effort+awkwardBy {
			found = append(found, Finding{File: b.file, Line: p.place.line, Col: p.place.col, Level: Note, Entry: p.text,
				Message: fmt.Sprintf("%s is drilled by %s, though %s is easier", Safe(string(p.symbol)), b.Words(chosen), b.Words(all[0])),
				Hint:    "remove it from prefer if that is not on purpose"})
		}
	}
	found.sort()
	return found
}
