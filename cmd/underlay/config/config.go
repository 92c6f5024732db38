// Package config reads underlay.toml, tells all that is wrong with it, and
// changes it without losing the person's comments.
//
// Every line of the file is optional:
//
//	boards   = ["split-38", "ansi-61"]   # the first is being learned; one alone is fine
//	minutes  = 8                         # a day, 1 to 120
//	aim      = "speed"                   # or "coverage": every symbol reachable
//	mix      = { go = 3, shell = 1 }     # what the work is made of: tables and their weights
//	from     = ["~/src/project"]         # own code for own lines
//	wrong    = "auto"                    # wait, as-at-work, or auto by kind of drill
//	colours  = "auto"                    # auto, dark, light, none
//	keeps    = ["F11"]                   # keys that the desktop or terminal keeps for itself
package config

import "slices"

// Config is the configuration with the defaults filled in.
type Config struct {
	Boards  []string // names or files; the first is being learned
	Minutes int
	Aim     string // Speed, Coverage
	Mix     map[string]float64
	From    []string
	Wrong   string // Auto, Wait, AsAtWork
	Colours string // Auto, Dark, Light, None
	Keeps   []string

	file  string
	lines *document
}

// The words of the settings.
const (
	Speed    = "speed"
	Coverage = "coverage"
	Auto     = "auto"
	Wait     = "wait"
	AsAtWork = "as-at-work"
	Dark     = "dark"
	Light    = "light"
	None     = "none"
)

// Default is what holds without a file: two embedded boards, and the table
// that is embedded for Go.
func Default() Config {
	return Config{
		Boards:  []string{"split-38", "ansi-61"},
		Minutes: 8,
		Aim:     Speed,
		Mix:     map[string]float64{"go": 1},
		Wrong:   Auto,
		Colours: Auto,
	}
}

// Choices returns the words that a setting allows, or nil where it is free.
func Choices(key string) []string {
	switch key {
	case "aim":
		return []string{Speed, Coverage}
	case "wrong":
		return []string{Auto, Wait, AsAtWork}
	case "colours":
		return []string{Auto, Dark, Light, None}
	}
	return nil
}

// keys are the settings in the order of the documentation.
func keys() []string {
	return []string{"boards", "minutes", "aim", "mix", "from", "wrong", "colours", "keeps"}
}

// Place says where the value of a setting stands, or its element with the given
// index if that is not negative. ok is false for a setting that the file does
// not have.
func (c Config) Place(key string, index int) (file string, line, col int, ok bool) {
	e, ok := c.entry(key)
	if !ok {
		return c.file, 0, 0, false
	}
	at := e.from
	if index >= 0 && index < len(e.elements) {
		at = e.elements[index].from
	}
	line, col = c.lines.place(at)
	return c.file, line, col, true
}

// TablePlace says where the mix names a table.
func (c Config) TablePlace(name string) (file string, line, col int, ok bool) {
	e, ok := c.entry("mix." + name)
	if !ok {
		return c.file, 0, 0, false
	}
	line, col = c.lines.place(e.at)
	return c.file, line, col, true
}

// entry finds a setting, or a table of the mix as "mix.NAME". Of a table with
// lines of its own it is the head.
func (c Config) entry(key string) (entry, bool) {
	if c.lines == nil {
		return entry{}, false
	}
	if e, ok := c.lines.find(key); ok {
		return e, true
	}
	if e, ok := find(c.lines.inline, key); ok {
		return e, true
	}
	for _, t := range c.lines.tables {
		if t.name == key {
			return entry{at: t.at, from: t.at, to: t.at}, true
		}
	}
	return entry{}, false
}

// MixNames are the names of the tables in the mix, in alphabetical order.
func (c Config) MixNames() []string {
	names := make([]string, 0, len(c.Mix))
	for n := range c.Mix {
		names = append(names, n)
	}
	slices.Sort(names)
	return names
}
