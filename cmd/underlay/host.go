package main

import (
	"errors"
	"io/fs"
	"os"
	"slices"

	"underlay/cmd/underlay/config"
	"underlay/cmd/underlay/session"
)

// Record puts a drill on the journal.
func (p *practice) Record(r session.Record) error {
	return p.writer.record(r.Drill, p.course.Boards())
}

// Configure writes settings to underlay.toml and takes them into use.
func (p *practice) Configure(c session.Configure) session.Configured {
	cfg := p.config
	apply(&cfg, c.Settings)
	if err := p.use(cfg); err != nil {
		return session.Configured{Settings: p.settings(), Err: err}
	}
	if err := p.write(c.Settings); err != nil {
		return session.Configured{Settings: p.settings(), Planner: p.course, Err: err}
	}
	return session.Configured{Settings: p.settings(), Planner: p.course}
}

// settings are the configuration as a sitting knows it.
func (p *practice) settings() session.Settings {
	c := p.config
	s := session.Settings{Minutes: c.Minutes, Boards: c.Boards, Aim: c.Aim, Colours: c.Colours, Wrong: c.Wrong,
		Keeps: c.Keeps, AllTables: slices.DeleteFunc(p.env.tableNames(), func(n string) bool { return n == "keys" })}
	for _, name := range c.MixNames() {
		s.Mix = append(s.Mix, session.Weight{Table: name, Share: c.Mix[name]})
	}
	for _, name := range p.env.boardNames() {
		s.AllBoards = append(s.AllBoards, session.Choice{Name: name, Title: p.env.boardTitle(name)})
	}
	return s
}

func apply(c *config.Config, s session.Settings) {
	c.Minutes, c.Boards, c.Aim, c.Colours, c.Wrong, c.Keeps = s.Minutes, s.Boards, s.Aim, s.Colours, s.Wrong, s.Keeps
	c.Mix = map[string]float64{}
	for _, w := range s.Mix {
		c.Mix[w.Table] = w.Share
	}
}

// write changes in underlay.toml what differs from what is there.
func (p *practice) write(s session.Settings) error {
	file, err := need(p.env.Dirs.ConfigFile())
	if err != nil {
		return err
	}
	src, err := os.ReadFile(file)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return tried("read the configuration", file, err)
	}
	now, found := config.Read(file, src)
	if err := found.Err(); err != nil {
		return err
	}
	text := changed(string(src), now, s)
	if text == string(src) {
		return nil
	}
	if err := config.Write(file, text); err != nil {
		return tried("write the configuration", file, err)
	}
	return nil
}

// changed returns the text of a configuration with settings put in where they
// are others than it has.
func changed(src string, now config.Config, s session.Settings) string {
	var to config.Config
	apply(&to, s)
	set := func(differs bool, key string, value any) {
		if differs {
			src = config.Set(src, key, value)
		}
	}
	set(!slices.Equal(now.Boards, to.Boards), "boards", to.Boards)
	set(now.Minutes != to.Minutes, "minutes", to.Minutes)
	set(now.Aim != to.Aim, "aim", to.Aim)
	set(!sameMix(now, to), "mix", to.Mix)
	set(now.Wrong != to.Wrong, "wrong", to.Wrong)
	set(now.Colours != to.Colours, "colours", to.Colours)
	set(!slices.Equal(now.Keeps, to.Keeps), "keeps", to.Keeps)
	return src
}

func sameMix(a, b config.Config) bool {
	if len(a.Mix) != len(b.Mix) {
		return false
	}
	for name, w := range a.Mix {
		if b.Mix[name] != w {
			return false
		}
	}
	return true
}
