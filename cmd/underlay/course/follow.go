package course

import (
	"maps"
	"slices"
	"unicode/utf8"

	"underlay/corpus"
)

// Follow says how often one stroke comes right after another.
type Follow struct {
	First, Then int     // ids
	Share       float64 // of all strokes of the mix
}

// Follows returns what follows what on a board, by the pairs of the mix. These
// know letters and digits as classes; within a class strokes count by frequency.
// Strokes that no text shows are in no pair, so they are taken to come before and after
// everything, each time as often as it is typed.
func (c *Course) Follows(b int) []Follow {
	of := c.strokes.byClass(b)
	pairs := c.mix.Counts(corpus.Pair)
	begun := map[string]float64{}                          // by class: what it is followed by, in all
	for _, pair := range slices.Sorted(maps.Keys(pairs)) { // sums are to be the same each time
		first, _ := splitPair(pair)
		begun[first] += pairs[pair]
	}
	var paired, alone []member
	alike := 0.0 // share of the strokes in no pair
	for _, class := range slices.Sorted(maps.Keys(of)) {
		if begun[class] > 0 {
			paired = append(paired, of[class]...)
			continue
		}
		for _, m := range of[class] {
			alone, alike = append(alone, m), alike+m.freq
		}
	}
	out := withAlone(paired, alone)
	for _, pair := range slices.Sorted(maps.Keys(pairs)) {
		first, then := splitPair(pair)
		if begun[then] == 0 {
			continue
		}
		for _, f := range of[first] {
			for _, t := range of[then] {
				out = append(out, Follow{f.id, t.id, (1 - alike) * f.freq * t.share * pairs[pair] / begun[first]})
			}
		}
	}
	return out
}

// withAlone are the pairs of strokes in no pair with all others and among themselves.
func withAlone(paired, alone []member) (out []Follow) {
	for _, k := range alone {
		for _, m := range paired {
			share := k.freq * m.freq
			out = append(out, Follow{k.id, m.id, share}, Follow{m.id, k.id, share})
		}
		for _, m := range alone {
			out = append(out, Follow{k.id, m.id, k.freq * m.freq})
		}
	}
	return out
}

func splitPair(pair string) (first, then string) {
	r, size := utf8.DecodeRuneInString(pair)
	return string(r), pair[size:]
}

// member is a stroke of a class.
type member struct {
	id    int
	freq  float64 // share of all strokes
	share float64 // of its class
}

// byClass lists the strokes of a board that are used, by the class that pairs know them as.
func (s *strokes) byClass(b int) map[string][]member {
	out := map[string][]member{}
	for id, st := range s.all {
		if f := s.features[id]; st.Board == b && !f.Retired && f.Freq > 0 {
			class := classOf(st.Symbol)
			out[class] = append(out[class], member{id: id, freq: f.Freq})
		}
	}
	for _, all := range out {
		total := 0.0
		for _, m := range all {
			total += m.freq
		}
		for i := range all {
			all[i].share = all[i].freq / total
		}
	}
	return out
}
