package session

import (
	"slices"

	"underlay/drills"
)

// stage is the part of a task that is under way. Strokes never met are first
// shown, each by itself, then asked for alone, then mixed with others; all
// other tasks have one stage.
type stage int8

const (
	stageShow  stage = iota // each new stroke once, lit
	stageAlone              // each a few times, nothing else between
	stageAsk                // the task's drill
	stageOver
)

func firstStage(t Task) stage {
	if t.Unmet && len(introduction(t).Keys) > 0 {
		return stageShow
	}
	return stageAsk
}

// next returns the stage after this one. Strokes that the task's drill asks for
// alone need no stage for that.
func (s stage) next(t Task) stage {
	if s == stageShow && alone(t) {
		return stageAsk
	}
	return min(s+1, stageOver)
}

// alone tells whether a task's drill has nothing but what it is for.
func alone(t Task) bool {
	return !slices.ContainsFunc(t.Drill.Keys, func(a drills.Ask) bool { return !slices.Contains(t.Wanted, a.Symbol) })
}

func (s stage) drill(t Task) drills.Drill {
	switch s {
	case stageShow:
		return introduction(t)
	case stageAlone:
		return rehearsal(t)
	}
	return t.Drill
}

// rehearsal asks for each new stroke twice in a row, then for all in turn: a
// few times each before others come between.
func rehearsal(t Task) drills.Drill {
	once := introduction(t)
	d := drills.Drill{Kind: drills.Position}
	add := func(i int, gap bool) {
		c := once.Prompt[i]
		c.Gap = gap && len(d.Keys) > 0
		d.Keys, d.Prompt = append(d.Keys, once.Keys[i]), append(d.Prompt, c)
	}
	for i := range once.Keys {
		add(i, true)
		add(i, false)
	}
	for range 2 {
		for i := range once.Keys {
			add(i, true)
		}
	}
	return d
}

// introduction is a drill of each new stroke of a task, once.
func introduction(t Task) drills.Drill {
	d := drills.Drill{Kind: drills.Position, Notes: []string{"Not met before: find each one by the picture or the words."}}
	for _, w := range t.Wanted {
		for i, k := range t.Drill.Keys {
			if k.Symbol == w && i < len(t.Drill.Prompt) {
				c := t.Drill.Prompt[i]
				c.Gap = len(d.Keys) > 0
				d.Keys = append(d.Keys, k)
				d.Prompt = append(d.Prompt, c)
				break
			}
		}
	}
	return d
}
