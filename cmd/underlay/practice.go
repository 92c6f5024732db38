package main

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"underlay/cmd/underlay/config"
	"underlay/cmd/underlay/course"
	"underlay/cmd/underlay/session"
)

// wish is what a command line asks for beyond the configuration.
type wish struct {
	board   string
	minutes minutesFlag
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
	written session.Settings // those of the configuration that the file has
	late    bool             // the file could not be written
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
	p.written = p.settings()
	return p, nil
}

// use takes a configuration into use; on an error nothing changes.
func (p *practice) use(cfg config.Config) error {
	c, err := p.env.courseOf(cfg, p.wish, p.seed)
	if err != nil {
		return err
	}
	if p.wish.minutes > 0 {
		cfg.Minutes = int(p.wish.minutes)
	}
	p.config, p.course = cfg, c
	return nil
}

// sitting returns the state machine of a sitting. offer is nil but at a first
// start; notice is told at its beginning.
func (p *practice) sitting(offer *session.Offer, notice string) *session.Model {
	return session.New(p.course, session.Options{Session: sessionName(p.started), Settings: p.settings(),
		Reports: true, Now: p.env.Now(), Notice: notice, Offer: offer})
}

// sessionName names a sitting by when it started, to the millisecond.
func sessionName(at time.Time) string { return strconv.FormatInt(at.UnixMilli(), 36) }

// notice is what has to be told before practice: boards that have changed
// or got a new name, and lines of the journal that cannot be read.
func (p *practice) notice() string {
	var parts []string
	for _, r := range p.course.NewNames() {
		parts = append(parts, r.Words())
	}
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
