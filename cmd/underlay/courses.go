package main

import (
	"errors"
	"io/fs"
	"slices"
	"strings"

	"underlay/cmd/underlay/config"
	"underlay/cmd/underlay/course"
	"underlay/corpus"
	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
	"underlay/scheduler/journal"
)

// courseOf joins what a configuration names, for practice.
func (e *Env) courseOf(cfg config.Config, w wish, seed uint64) (*course.Course, error) {
	c, err := e.joined(cfg, w.board)
	if err != nil {
		return nil, err
	}
	if c.Kind, err = kindOf(w.kind); err != nil {
		return nil, err
	}
	c.Seed = seed
	c.Own, err = e.ownLines(slices.Concat(w.from, cfg.From), len(w.from), c.Boards[0], c.Keeps, seed)
	if err != nil {
		return nil, err
	}
	k, err := e.recalled(c)
	if err == nil && c.Kind != "" {
		err = has(k, c)
	}
	return k, err
}

// has refuses a kind of drill of which there is nothing.
func has(k *course.Course, c course.Config) error {
	err := k.Has(c.Kind)
	if err == nil {
		return nil
	}
	p := misuse("--kind %s on %s: %w", c.Kind, c.Boards[0].Name, err)
	if c.Kind == drills.OwnLine {
		return p.hinted("name files or directories with --from, or with from in the configuration")
	}
	return p
}

// joined finds what a configuration names. first, if there, takes the place of
// the board being learned.
func (e *Env) joined(cfg config.Config, first string) (c course.Config, err error) {
	c.Keeps, c.Aim, c.Past = symbols(cfg.Keeps), aimOf(cfg.Aim), e.past()
	if c.Boards, err = e.boardsOf(cfg, first); err != nil {
		return c, err
	}
	if c.Mix, err = e.mixOf(cfg); err != nil {
		return c, err
	}
	c.Keys, err = e.table("keys")
	return c, err
}

// recalled reads the journal; where that takes long, a terminal sees how far it is.
func (e *Env) recalled(c course.Config) (*course.Course, error) {
	tell := e.reading()
	c.Past.Progress = tell
	k, err := course.New(c)
	if tell != nil {
		tell(0)
	}
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		return nil, tried("read the journal", e.Dirs.Journal(), path)
	}
	return k, newerAdvised(err)
}

// newerAdvised says what to do about a journal of a newer version.
func newerAdvised(err error) error {
	if errors.Is(err, course.ErrNewer) {
		return newerJournal(err)
	}
	return err
}

// boardsOf returns the boards of a configuration; first, if there, takes the
// place of the one being learned.
func (e *Env) boardsOf(cfg config.Config, first string) ([]*board.Board, error) {
	var out []*board.Board
	names := cfg.Boards
	if first != "" {
		names = append([]string{first}, slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == first })...)
		if len(names) > 2 { // the other board stays the other one
			names = []string{first, names[len(names)-1]}
		}
	}
	for _, name := range names {
		b, err := e.board(name)
		if err != nil {
			if i := slices.Index(cfg.Boards, name); i >= 0 && name != first {
				file, line, col, ok := cfg.Place("boards", i)
				err = placed(err, file, line, col, ok)
			}
			return nil, err
		}
		out = append(out, b)
	}
	return out, nil
}

// mixOf returns the tables of a configuration with their weights.
func (e *Env) mixOf(cfg config.Config) ([]corpus.Part, error) {
	var out []corpus.Part
	for _, name := range cfg.MixNames() {
		t, err := e.table(name)
		if err != nil {
			file, line, col, ok := cfg.TablePlace(name)
			return nil, placed(err, file, line, col, ok)
		}
		out = append(out, corpus.Part{Table: t, Weight: cfg.Mix[name]})
	}
	return out, nil
}

// placed gives an error about a name the place where the configuration has it,
// if that is known. Errors with a place of their own keep it.
func placed(err error, file string, line, col int, known bool) error {
	p, ok := errors.AsType[*problem](err)
	if !ok || !known {
		return err
	}
	return board.Findings{{File: file, Line: line, Col: col, Level: board.Fault, Message: p.Error(), Hint: p.hint}}.Err()
}

func kindOf(name string) (drills.Kind, error) {
	if name == "" || slices.Contains(kindNames(), name) {
		return drills.Kind(name), nil
	}
	p := misuse("there is no kind of drill %q", name)
	if hint := config.DidYouMean(name, kindNames()); hint != "" {
		return "", p.hinted("%s", hint)
	}
	return "", p.hinted("one of %s", strings.Join(kindNames(), ", "))
}

func kindNames() []string {
	var names []string
	for _, k := range drills.Kinds() {
		names = append(names, string(k))
	}
	return names
}

func aimOf(word string) scheduler.Aim {
	if word == config.Coverage {
		return scheduler.Coverage
	}
	return scheduler.Speed
}

func symbols(names []string) []board.Symbol {
	out := make([]board.Symbol, len(names))
	for i, n := range names {
		out[i] = board.Symbol(n)
	}
	return out
}

// past is where the journal is, if there is a place for one.
func (e *Env) past() course.Past {
	if e.Dirs.Data == "" {
		return course.Past{}
	}
	p := course.Past{Journal: journal.NewDisk(e.Dirs.Journal()).FS(), Build: build().String()}
	if e.Dirs.Cache != "" {
		p.Cache = journal.Cache{Store: journal.NewDisk(e.Dirs.Cache), Name: "skill"}
	}
	return p
}
