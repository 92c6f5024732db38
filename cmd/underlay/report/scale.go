package report

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"underlay/cmd/underlay/standing"
)

// scale draws the readiness by model and by probes over each other, on a scale
// from nothing to as fast as the other board and beyond.
func scale(r standing.Readiness) template.HTML {
	rows := []standing.Range{r.Share}
	names := []string{"model"}
	if r.Probe != nil {
		rows, names = append(rows, r.Probe.Share), append(names, "probes")
	}
	most := 1.2
	for _, row := range rows {
		most = max(most, math.Min(1.04*row.Hi, 3))
	}
	var svg, labels strings.Builder
	x := func(v float64) float64 { return plotWidth * math.Min(v, most) / most }
	height := 40.0 * float64(len(rows))
	step := roundStep(most / 4)
	for i := 0; float64(i)*step <= most+1e-9; i++ {
		v := float64(i) * step
		class, place := "grid", "x"
		if math.Abs(v-1) < .01 {
			class = "mark"
		}
		if v > .97*most {
			place = "x last"
		}
		fmt.Fprintf(&svg, `<path class="%s" d="M%.1f 0V%.0f"/>`, class, x(v), height)
		fmt.Fprintf(&labels, `<span class="%s" style="left:%.2f%%;top:100%%">%s</span>`, place, x(v)/plotWidth*100, percent(v))
	}
	var says []string
	for i, row := range rows {
		y := 40*float64(i) + 20
		fmt.Fprintf(&svg, `<path class="reach" d="M%.1f %.0fH%.1f"/><path class="here" d="M%.1f %.0fV%.0f"/>`, x(row.Lo), y, x(row.Hi), x(row.Value), y-12, y+12)
		fmt.Fprintf(&labels, `<span class="y" style="left:0;top:%.2f%%">%s</span>`, y/height*100, names[i])
		says = append(says, fmt.Sprintf("by the %s %s, %s", names[i], percent(row.Value), percents(row)))
	}
	return template.HTML(fmt.Sprintf(`<div class="plot" style="height:%.0fpx"><svg role="img" aria-label="Readiness %s" viewBox="0 0 %.0f %.0f" preserveAspectRatio="none">%s</svg><div aria-hidden="true">%s</div></div>`,
		height, strings.Join(says, "; "), plotWidth, height, svg.String(), labels.String()))
}
