package session

import "underlay/drills"

// stage is the part of a task that is under way. Strokes never met are first
// shown, each by itself; all other tasks have one stage.
type stage int8

const (
	stageShow stage = iota // each new stroke once, lit
	stageAsk               // the task's drill
	stageOver
)

func firstStage(t Task) stage {
	if t.Unmet && len(introduction(t).Keys) > 0 {
		return stageShow
	}
	return stageAsk
}

func (s stage) next() stage { return min(s+1, stageOver) }

func (s stage) drill(t Task) drills.Drill {
	if s == stageShow {
		return introduction(t)
	}
	return t.Drill
}

// introduction is a drill of each new stroke of a task, once.
func introduction(t Task) drills.Drill {
	d := drills.Drill{Kind: drills.Position, Note: "Not met before: find each one by the picture or the words."}
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
