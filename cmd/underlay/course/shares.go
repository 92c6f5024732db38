package course

import (
	"maps"
	"slices"
	"unicode/utf8"

	"underlay/corpus"
	"underlay/drills/board"
)

// setShares gives the strokes of a board their frequencies, which sum to 1,
// and how often they follow a stroke of another layer.
func (s *strokes) setShares(b int, mix *corpus.Table) {
	counts, total := mix.Symbols(), 0.0
	var ids []int
	for id, st := range s.all {
		if st.Board == b && !s.features[id].Retired {
			ids = append(ids, id)
			total += counts[string(st.Symbol)]
		}
	}
	for _, id := range ids {
		f := &s.features[id]
		if total == 0 { // nothing is known: all the same
			f.Freq = 1 / float64(len(ids))
			continue
		}
		n := counts[string(s.all[id].Symbol)]
		_, text := s.all[id].Symbol.Rune()
		f.Freq, f.Text = n/total, text && n > 0
	}
	s.setSwitches(b, mix)
}

// setSwitches estimates how often a stroke follows one of another layer, from
// the pairs of the mix. Pairs know letters and digits as classes; the layers of
// a class are as those of its symbols by frequency. Strokes that no text shows
// follow what is common.
func (s *strokes) setSwitches(b int, mix *corpus.Table) {
	byClass := s.layersByClass(b)
	before := map[string]map[string]float64{} // class -> class before it -> count
	pairs := mix.Counts(corpus.Pair)
	for _, pair := range slices.Sorted(maps.Keys(pairs)) {
		n := pairs[pair]
		first, size := utf8.DecodeRuneInString(pair)
		second := pair[size:]
		if before[second] == nil {
			before[second] = map[string]float64{}
		}
		before[second][string(first)] += n
	}
	for id, st := range s.all {
		if st.Board != b {
			continue
		}
		f := &s.features[id]
		f.Switch = 1 - byClass[""][f.Layer]
		same, all := 0.0, 0.0
		counts := before[classOf(st.Symbol)]
		for _, class := range slices.Sorted(maps.Keys(counts)) { // sums are to be the same each time
			n := counts[class]
			if l, ok := byClass[class]; ok {
				same += n * l[f.Layer]
				all += n
			}
		}
		if all > 0 {
			f.Switch = 1 - same/all
		}
	}
}

// layersByClass returns, for each class of symbols, the share of its strokes
// that each layer has; "" stands for all symbols.
func (s *strokes) layersByClass(b int) map[string]map[int]float64 {
	out := map[string]map[int]float64{}
	for id, st := range s.all {
		if st.Board != b {
			continue
		}
		for _, class := range []string{classOf(st.Symbol), ""} {
			if out[class] == nil {
				out[class] = map[int]float64{}
			}
			out[class][s.features[id].Layer] += s.features[id].Freq
		}
	}
	for _, l := range out {
		total := 0.0
		for _, n := range slices.Sorted(maps.Keys(l)) {
			total += l[n]
		}
		for n := range l {
			if total > 0 {
				l[n] /= total
			}
		}
	}
	return out
}

// classOf is how the pairs of a table spell a symbol; keys without a character
// have a class of their own.
func classOf(s board.Symbol) string {
	r, ok := s.Rune()
	switch {
	case !ok:
		return "key"
	case r >= 'a' && r <= 'z':
		return "a"
	case r >= 'A' && r <= 'Z':
		return "A"
	case r >= '0' && r <= '9':
		return "0"
	}
	return string(r)
}
