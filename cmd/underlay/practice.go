package main

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"time"

	"underlay/cmd/underlay/config"
	"underlay/cmd/underlay/course"
	"underlay/cmd/underlay/report"
	"underlay/cmd/underlay/session"
	"underlay/corpus"
	"underlay/drills"
	"underlay/drills/board"
	"underlay/scheduler"
	"underlay/scheduler/journal"
)

// wish is what a command line asks for beyond the configuration.
type wish struct {
	board   string
	minutes int
	kind    string
	from    []string
	plain   bool
}

// practice is what a sitting rests on: the settings and all that follows from
// them. It is the screen's Host as well (host.go).
type practice struct {
	env     *Env
	wish    wish
	config  config.Config
	course  *course.Course
	started time.Time
	writer  *writer
	seed    uint64
}

// practise reads configuration, boards, tables and journal.
func (e *Env) practise(w wish) (*practice, error) {
	cfg, err := e.configuration()
	if err != nil {
		return nil, err
	}
	now := e.Now()
	p := &practice{env: e, wish: w, started: now, seed: uint64(now.UnixNano()), writer: newWriter(e.Dirs)}
	if err := p.use(cfg); err != nil {
		return nil, err
	}
	return p, nil
}

// use takes a configuration into use; on an error nothing changes.
func (p *practice) use(cfg config.Config) error {
	c, err := p.env.courseOf(cfg, p.wish, p.seed)
	if err != nil {
		return err
	}
	if p.wish.minutes > 0 {
		cfg.Minutes = p.wish.minutes
	}
	p.config, p.course = cfg, c
	return nil
}

// courseOf joins what a configuration names.
func (e *Env) courseOf(cfg config.Config, w wish, seed uint64) (*course.Course, error) {
	boards, err := e.boardsOf(cfg, w.board)
	if err != nil {
		return nil, err
	}
	mix, err := e.mixOf(cfg)
	if err != nil {
		return nil, err
	}
	keys, err := e.table("keys")
	if err != nil {
		return nil, err
	}
	kind, err := kindOf(w.kind)
	if err != nil {
		return nil, err
	}
	keeps := symbols(cfg.Keeps)
	own, err := e.ownLines(slices.Concat(w.from, cfg.From), len(w.from), boards[0], keeps, seed)
	if err != nil {
		return nil, err
	}
	c, err := course.New(course.Config{
		Boards: boards, Mix: mix, Keys: keys, Keeps: keeps, Own: own, Kind: kind,
		Aim: aimOf(cfg.Aim), Seed: seed, Past: e.past(),
	})
	err = newerAdvised(err)
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		return nil, tried("read the journal", e.Dirs.Journal(), path)
	}
	if err == nil && kind != "" {
		err = c.Has(kind)
	}
	if errors.Is(err, drills.ErrNothing) {
		p := misuse("--kind %s on %s: %w", kind, boards[0].Name, err)
		if kind == drills.OwnLine {
			return nil, p.hinted("name files or directories with --from, or with from in the configuration")
		}
		return nil, p
	}
	return c, err
}

// newerAdvised says what to do about a journal of a newer version.
func newerAdvised(err error) error {
	if errors.Is(err, course.ErrNewer) {
		return failure("%w", err).hinted("update underlay on this machine; the journal was left as it is")
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
	p := course.Past{Journal: journal.NewDisk(e.Dirs.Journal()).FS()}
	if e.Dirs.Cache != "" {
		p.Cache = journal.Cache{Store: journal.NewDisk(e.Dirs.Cache), Name: "skill"}
	}
	return p
}

// sitting returns the state machine of a sitting that starts now.
func (p *practice) sitting() *session.Model {
	o := session.Options{Session: sessionName(p.started), Settings: p.settings(), Now: p.started,
		Notice: p.notice(), First: !p.course.Past(p.started).Ever}
	if file := p.env.Dirs.ConfigFile(); o.Notice == "" && !exists(file) {
		o.Notice = "The boards are examples: b chooses yours. Enter starts with them."
	}
	return session.New(p.planner(), o)
}

// planner returns the course, with progress to look at.
func (p *practice) planner() session.Planner { return withProgress{p.course, p.env, p.wish.board} }

// withProgress tells progress in lines of text besides.
type withProgress struct {
	*course.Course
	env   *Env
	board string
}

// Progress reads the journal anew: what was just practised is in it.
func (w withProgress) Progress(time.Time) []string {
	s, _, err := w.env.standing(w.board)
	if err != nil {
		return strings.Split(err.Error(), "\n")
	}
	return report.Text(s, pageWidth)
}

// pageWidth is the width of a page within a sitting: it fits the smallest
// window but for its margins.
const pageWidth = 76

// sessionName names a sitting by when it started, to the millisecond.
func sessionName(at time.Time) string { return strconv.FormatInt(at.UnixMilli(), 36) }

// notice is what has to be told before practice: boards that have changed,
// and lines of the journal that cannot be read.
func (p *practice) notice() string {
	var parts []string
	for _, ch := range p.course.Changed() {
		parts = append(parts, ch.Words())
	}
	if n := len(p.course.Problems()); n > 0 {
		parts = append(parts, unreadable(n))
	}
	return strings.Join(parts, " ")
}

func unreadable(places int) string {
	if places == 1 {
		return "The journal has 1 place that cannot be read; underlay journal verify shows it."
	}
	return fmt.Sprintf("The journal has %d places that cannot be read; underlay journal verify shows them.", places)
}

// length is how long a sitting lasts.
func (p *practice) length() time.Duration { return time.Duration(p.config.Minutes) * time.Minute }
