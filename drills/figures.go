package drills

// Figures are the counts of keystrokes from which the text-entry measures
// follow; P is the text presented, T the text transcribed. Source of the
// classes and rates: Soukoreff and MacKenzie, Metrics for text entry
// research: an evaluation of MSD and KSPC, and a new unified error metric,
// CHI 2003, 113-120. Figures of several drills can be added.
//
// Rates are shares from 0 to 1, and 0 where nothing was typed.
type Figures struct {
	C   int // correct: max(|P|,|T|) - MSD(P,T)
	INF int // incorrect and not fixed: MSD(P,T)
	IF  int // incorrect and fixed: in the input, not in T, and no editing key
	F   int // fixes: editing keys
	// Aligned is the mean length of the optimal alignments of P and T.
	Aligned float64
	// Timed is the number of symbols that took Seconds. The first symbol of a
	// text starts the clock and is not among them; neither is one after a
	// pause, whose time is left out as well.
	Timed   int
	Seconds float64
}

// Add returns the figures of both together.
func (f Figures) Add(g Figures) Figures {
	return Figures{
		C: f.C + g.C, INF: f.INF + g.INF, IF: f.IF + g.IF, F: f.F + g.F,
		Aligned: f.Aligned + g.Aligned, Timed: f.Timed + g.Timed, Seconds: f.Seconds + g.Seconds,
	}
}

// WPM is the speed in words of five symbols a minute:
// (|T|-1)/S * 60 * 1/5 for one text typed without a pause.
func (f Figures) WPM() float64 { return f.CPM() / 5 }

// CPM is the speed in symbols a minute.
func (f Figures) CPM() float64 {
	if f.Seconds <= 0 {
		return 0
	}
	return float64(f.Timed) / f.Seconds * 60
}

// KSPC is keystrokes per character: (C+INF+IF+F)/(C+INF).
func (f Figures) KSPC() float64 { return share(f.C+f.INF+f.IF+f.F, f.C+f.INF) }

// OldErrorRate is MSD/max(|P|,|T|), which is INF/(C+INF).
func (f Figures) OldErrorRate() float64 { return share(f.INF, f.C+f.INF) }

// NewErrorRate is MSD divided by the mean length of the optimal alignments
// (Soukoreff and MacKenzie, CHI EA 2001, 319-320).
func (f Figures) NewErrorRate() float64 {
	if f.Aligned == 0 {
		return 0
	}
	return float64(f.INF) / f.Aligned
}

// CorrectedErrorRate is IF/(C+INF+IF).
func (f Figures) CorrectedErrorRate() float64 { return share(f.IF, f.C+f.INF+f.IF) }

// UncorrectedErrorRate is INF/(C+INF+IF).
func (f Figures) UncorrectedErrorRate() float64 { return share(f.INF, f.C+f.INF+f.IF) }

// TotalErrorRate is (INF+IF)/(C+INF+IF).
func (f Figures) TotalErrorRate() float64 { return share(f.INF+f.IF, f.C+f.INF+f.IF) }

// CorrectionEfficiency is IF/F: how many errors one fix mends. It is 0
// without fixes, as under Wait, where the program mends.
func (f Figures) CorrectionEfficiency() float64 { return share(f.IF, f.F) }

// Conscientiousness is IF/(IF+INF): the share of errors that were mended.
func (f Figures) Conscientiousness() float64 { return share(f.IF, f.IF+f.INF) }

// UtilisedBandwidth is C/(C+INF+IF+F): the share of keystrokes that serve.
func (f Figures) UtilisedBandwidth() float64 { return share(f.C, f.C+f.INF+f.IF+f.F) }

func share(part, whole int) float64 {
	if whole == 0 {
		return 0
	}
	return float64(part) / float64(whole)
}

// Classify counts the keystrokes of one text: what was presented, what stood
// at the end, how many symbols were entered on the way (without the editing
// keys), and how many editing keys were pressed. Times are left at zero.
func Classify[S comparable](presented, transcribed []S, entered, fixes int) Figures {
	msd := MSD(presented, transcribed)
	return Figures{
		C:       max(len(presented), len(transcribed)) - msd,
		INF:     msd,
		IF:      entered - len(transcribed),
		F:       fixes,
		Aligned: MeanAlignment(presented, transcribed),
	}
}
