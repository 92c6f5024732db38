package corpus

// maxCommon is the number of tokens of the longest line that is counted whole.
const maxCommon = 14

// lineTally counts whole lines by their tokens.
type lineTally struct {
	*tally
	lines map[uint64][]uint16 // by the key they are counted under
}

func newLineTally(most int) *lineTally {
	return &lineTally{newTally(most), map[uint64][]uint16{}}
}

// add counts a line of coded tokens.
func (t *lineTally) add(line []uint16) {
	if len(line) == 0 || len(line) > maxCommon {
		return
	}
	if key := lineKey(line); t.tally.add(key) {
		t.remember(key, line)
	}
}

func (t *lineTally) remember(key uint64, line []uint16) {
	if len(t.lines) > 2*t.most {
		kept := make(map[uint64][]uint16, t.used)
		for _, s := range t.top(-1) {
			kept[s.key] = t.lines[s.key]
		}
		t.lines = kept
	}
	t.lines[key] = append([]uint16(nil), line...)
}

// lineKey is a hash of the line (FNV-1a over its tokens), not 0.
func lineKey(line []uint16) uint64 {
	h := uint64(14695981039346656037)
	for _, t := range line {
		h = (h ^ uint64(t)) * 1099511628211
	}
	return h | 1
}

// merge adds lines counted elsewhere, whose tokens have the given numbers here.
func (t *lineTally) merge(o *lineTally, ours []token) {
	for _, s := range o.slots {
		if s.key == 0 {
			continue
		}
		line := append([]uint16(nil), o.lines[s.key]...)
		for i := range line {
			line[i] = recoded(line[i], ours)
		}
		s.key = lineKey(line)
		t.tally.merge([]slot{s})
		t.remember(s.key, line)
	}
}
