package screen

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"underlay/cmd/underlay/session"
	"underlay/drills/board"
)

// Every key that a place tells does something there: another view, or an effect.
func TestKeysThatAreToldDoSomething(t *testing.T) {
	for _, sc := range scenes() {
		v := sc.model(t).m.View()
		for _, hint := range slices.Concat(v.Keys, v.Places) {
			for key := range strings.FieldsSeq(hint.Key) {
				s := sc.model(t)
				before := copyOf(s.m.View())
				s.at = s.at.Add(session.Surprise)
				effects := s.m.Update(session.Key{Symbol: board.Symbol(key), At: s.at})
				after := copyOf(s.m.View())
				edge := hint.Does == "move" || hint.Does == "back up" || hint.Does == "before" || hint.Does == "next" || hint.Does == "further"
				if len(effects) == 0 && reflect.DeepEqual(before, after) && !edge {
					t.Errorf("%s: %s (%s) does nothing", sc.name, key, hint.Does)
				}
			}
		}
	}
}

// copyOf returns what a view shows, drawn, since views share memory with the
// model.
func copyOf(v session.View) []cell {
	var s sheet
	s.resize(100, 40)
	s.clear()
	draw(&s, v, false, new(places))
	return s.cells
}
