package course

import (
	"testing"

	"underlay/drills/board"
	"underlay/scheduler/journal/journaltest"
)

// Who sets the computer to another OS layout keeps the skill of all strokes that
// give the same symbol as before.
func TestSkillSurvivesAnotherOSLayout(t *testing.T) {
	before := embedded(t, nil)
	var store journaltest.Store
	kept(t, &store, before.Boards(), practised(t, before, start, 60))
	after := embedded(t, func(c *Config) {
		c.Past.Journal = store.FS()
		for i, b := range c.Boards {
			other, err := b.WithOSLayout("gb")
			if err != nil {
				t.Fatal(err)
			}
			c.Boards[i] = other
		}
	})
	met := 0
	for id, st := range before.strokes.all {
		tries := before.scheduler.Level(id, start).Tries
		if tries == 0 {
			continue
		}
		met++
		now, ok := after.strokes.spelled[spelled{st.Board, string(st.Symbol), st.Stroke.String()}]
		if !ok || after.scheduler.Level(now, start).Tries != tries {
			t.Errorf("%s by %s is not what it was", st.Symbol, st.Stroke)
		}
	}
	if met < 20 {
		t.Errorf("%d strokes were met, too few to tell", met)
	}
	if board.PlainName("split-38-gb") != "split-38" || board.PlainName("split-38") != "split-38" {
		t.Error("a board's plain name")
	}
}
