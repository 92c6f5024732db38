package screen

import "testing"

// Where only ASCII can be shown, all that we write ourselves is ASCII, and the
// states of strokes are told apart.
func TestOnlyASCII(t *testing.T) {
	var s sheet
	for _, size := range [][2]int{{60, 20}, {80, 24}, {120, 40}} {
		s.resize(size[0], size[1])
		for _, sc := range scenes() {
			s.clear()
			draw(&s, sc.view(t), true, new(places))
			for i, c := range s.cells {
				for _, r := range c.text {
					if r > 0x7e {
						t.Fatalf("%s at %d×%d: %q in row %d", sc.name, size[0], size[1], c.text, i/size[0])
					}
				}
			}
		}
	}
	seen := map[string]bool{}
	for _, sign := range []string{"·", "◔", "●", "◌"} {
		if a := inASCII(sign); seen[a] || len(a) != 1 {
			t.Errorf("%s is %q", sign, a)
		} else {
			seen[a] = true
		}
	}
}
