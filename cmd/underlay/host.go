package main

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"underlay/cmd/underlay/config"
	"underlay/cmd/underlay/report"
	"underlay/cmd/underlay/session"
)

// Record puts a drill on the journal. Its error is told beside a drill, so it
// is short: underlay journal path tells the file.
func (p *practice) Record(r session.Record) error {
	err := p.writer.record(r.Drill, r.Board)
	if at, ok := errors.AsType[*fs.PathError](err); ok {
		return fmt.Errorf("%s the journal: %w", at.Op, at.Err)
	}
	return err
}

// Report tells progress. It reads the journal anew: what was just practised is
// in it.
func (p *practice) Report(width int) session.Reported {
	s, _, err := p.env.standing(p.wish.board)
	if err != nil {
		return session.Reported{Lines: strings.Split(err.Error(), "\n")}
	}
	return session.Reported{About: report.About(s, width-len("progress")-2), Lines: report.Text(s, width)}
}

// Configure writes settings to underlay.toml and takes them into use. What the
// command line had asked for holds until it is changed here.
func (p *practice) Configure(c session.Configure) session.Configured {
	before, wish, cfg := p.settings(), p.wish, p.config
	if c.Settings.Minutes != before.Minutes {
		p.wish.minutes = 0
	}
	if !slices.Equal(c.Settings.Boards, before.Boards) {
		p.wish.board = ""
	}
	if c.First {
		c.Settings.Boards = p.env.alike(c.Settings.Boards)
	}
	if c.Layout != "" {
		c.Settings.Boards = p.env.setTo(c.Layout, c.Settings.Boards)
	}
	apply(&cfg, c.Settings)
	if err := p.use(cfg); err != nil {
		p.wish = wish
		return session.Configured{Settings: before, Err: err}
	}
	if c.First {
		p.written.Boards = nil // the file gets them even where the defaults are chosen
	}
	err := p.write()
	return session.Configured{Settings: p.settings(), Planner: p.course, Err: err}
}

// settings are the configuration as a sitting knows it.
func (p *practice) settings() session.Settings {
	c := p.config
	s := session.Settings{Minutes: c.Minutes, Boards: c.Boards, Aim: c.Aim, Colours: c.Colours, Wrong: c.Wrong,
		Keeps: c.Keeps, AllTables: slices.DeleteFunc(p.env.tableNames(), func(n string) bool { return n == "keys" })}
	for _, name := range c.MixNames() {
		s.Mix = append(s.Mix, session.Weight{Table: name, Share: c.Mix[name]})
	}
	names := p.env.boardNames()
	for _, name := range c.Boards { // such as iso-62-de, or a file
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, name := range names {
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

// write changes in underlay.toml what a person has changed, also before where
// that could not be written, and nothing else.
func (p *practice) write() error {
	now := p.settings()
	err := p.writeOver(p.written, now)
	if p.late = err != nil; !p.late {
		p.written = now
	}
	return err
}

// writeLate writes, at leaving, settings that could not be written before.
func (p *practice) writeLate() error {
	if !p.late {
		return nil
	}
	if err := p.write(); err != nil {
		return failure("settings that were changed are not written: %w", err)
	}
	return nil
}

// writeOver puts into the file the settings in which now differs from before.
func (p *practice) writeOver(before, now session.Settings) error {
	file, err := need(p.env.Dirs.ConfigFile())
	if err != nil {
		return err
	}
	src, err := readFile(file)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return tried("read the configuration", file, err)
	}
	if _, found := config.Read(file, src); found.Err() != nil {
		return found.Err()
	}
	text := changed(string(src), before, now)
	if text == string(src) {
		return nil
	}
	if err := config.Write(file, text); err != nil {
		return tried("write the configuration", file, err)
	}
	return nil
}

// changed returns the text of a configuration with the settings in which now
// differs from before put in.
func changed(src string, before, now session.Settings) string {
	var from, to config.Config
	apply(&from, before)
	apply(&to, now)
	set := func(differs bool, key string, value any) {
		if differs {
			src = config.Set(src, key, value)
		}
	}
	set(!slices.Equal(from.Boards, to.Boards), "boards", to.Boards)
	set(from.Minutes != to.Minutes, "minutes", to.Minutes)
	set(from.Aim != to.Aim, "aim", to.Aim)
	set(!maps.Equal(from.Mix, to.Mix), "mix", to.Mix)
	set(from.Wrong != to.Wrong, "wrong", to.Wrong)
	set(from.Colours != to.Colours, "colours", to.Colours)
	set(!slices.Equal(from.Keeps, to.Keeps), "keeps", to.Keeps)
	return src
}
