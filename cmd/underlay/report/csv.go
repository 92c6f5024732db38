package report

import (
	"encoding/csv"
	"io"
	"iter"
	"strconv"

	"underlay/cmd/underlay/standing"
)

// CSV writes a row a stroke and day (RFC 4180), with a line of names first.
// Times are in ms; what is not known is empty.
func CSV(w io.Writer, rows iter.Seq[standing.Row]) error {
	out := csv.NewWriter(w)
	head := []string{"date", "board", "symbol", "stroke", "tries", "slips", "timed_tries", "median_ms", "first_ms", "minutes"}
	if err := out.Write(head); err != nil {
		return err
	}
	for r := range rows {
		if err := out.Write([]string{r.Date, r.Board, r.Symbol, r.Stroke, strconv.Itoa(r.Tries), strconv.Itoa(r.Slips), strconv.Itoa(r.Timed),
			decimal(r.MedianMS, 1), decimal(r.FirstMS, 1), decimal(r.Minutes, 3)}); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// decimal writes a number; nothing for 0, which stands for what is not known.
func decimal(x float64, digits int) string {
	if x == 0 {
		return ""
	}
	return strconv.FormatFloat(x, 'f', digits, 64)
}
