package corpus

// Mix joins tables by weight. Weights are shares of strokes: with weights 3
// and 1, three strokes of four are as in the first, however many bytes were
// counted for each. The strokes of the result sum to 1, and its other counts
// are by stroke. Parts without weight or strokes are left out.
func Mix(parts ...Part) *Table {
	out := &Table{Name: "mix"}
	var weights float64
	for _, p := range parts {
		if p.Weight > 0 && p.Table.Strokes() > 0 {
			out.Parts = append(out.Parts, p)
			weights += p.Weight
		}
	}
	for i, p := range out.Parts {
		out.Parts[i].Weight = p.Weight / weights
		out.join(p.Table, p.Weight/weights/p.Table.Strokes())
	}
	return out
}

// join adds the counts of u, scaled, and what is known of its sources.
func (t *Table) join(u *Table, scale float64) {
	t.Files += u.Files
	t.Bytes += u.Bytes
	t.Lines += u.Lines
	t.Sources = append(t.Sources, u.Sources...)
	t.Notes = append(t.Notes, u.Notes...)
	for s, counts := range u.counts {
		for k, n := range counts {
			t.add(s, k, n*scale)
		}
	}
}
