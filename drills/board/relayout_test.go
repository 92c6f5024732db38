package board_test

import (
	"reflect"
	"testing"

	"underlay/drills/board"
)

// A board on another OS layout is the one that its source says: what is read
// from a journal later is what was practised.
func TestOSLayoutIsInTheSource(t *testing.T) {
	bare := "[shape]\nkind = \"split\"\n[[layer]]\nname = \"base\"\nkeys = '''\na . || ; '\nShift || Space\n'''\n"
	sources := map[string]string{
		"there":     "name = \"mine\" # here\nos-layout = 'us' # and here\n" + bare,
		"not there": "name = \"mine\"\n" + bare,
		"quoted":    "title = \"name = 1\"\nname   =   '''mine'''\n\"os-layout\" = \"us\"\n" + bare,
	}
	for name, src := range sources {
		t.Run(name, func(t *testing.T) {
			b, found := board.Read("mine.toml", []byte(src))
			if b == nil {
				t.Fatal(found.Err())
			}
			german, err := b.WithOSLayout("de")
			if err != nil {
				t.Fatal(err)
			}
			again, found := board.Read("again.toml", german.Source())
			if again == nil {
				t.Fatal(found.Err())
			}
			if german.Name != "mine-de" || again.Name != german.Name || again.OSLayout != "de" || again.Hash() != german.Hash() || german.Hash() == b.Hash() {
				t.Errorf("%s %s %s, read again %s %s %s; first %s", german.Name, german.OSLayout, german.Hash(), again.Name, again.OSLayout, again.Hash(), b.Hash())
			}
			if !reflect.DeepEqual(german.Symbols(), again.Symbols()) || len(again.Strokes(":")) == 0 || len(b.Strokes(":")) == 0 {
				t.Errorf("%v, read again %v", german.Symbols(), again.Symbols())
			}
			if back, err := german.WithOSLayout("de"); err != nil || back != german {
				t.Errorf("the same OS layout makes another board: %v", err)
			}
		})
	}
}
