package main

import (
	"errors"
	"io"
	"os"
	"os/signal"
	"strconv"
	"syscall"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/screen"
)

func newToday(env *Env) *cobra.Command {
	var w wish
	c := &cobra.Command{
		Use:   "today",
		Short: "Practise: today's session, full screen",
		Long: `Shows what today's session holds and why, and practises it: what comes back, what
is new, lines of code, and what the other board needs. Leaving at any time keeps
what was done. Without a terminal, or with --plain, it goes line by line.`,
		Example: `  underlay today --minutes 3
  underlay today --board ansi-61
  underlay today --from ~/src/project --kind own
  underlay today --plain`,
		Args: takes(0, 0),
		RunE: func(*cobra.Command, []string) error { return env.today(w) },
	}
	w.flags(c, env)
	return c
}

// flags adds the flags of a sitting to a command.
func (w *wish) flags(c *cobra.Command, env *Env) {
	f := c.Flags()
	f.StringVar(&w.board, "board", "", "practise on `BOARD`, a name or a file")
	f.Var(&w.minutes, "minutes", "last for `N` minutes, 1 to 120")
	f.StringVar(&w.kind, "kind", "", "drills of one `KIND` alone, such as position, line or motion")
	f.StringArrayVar(&w.from, "from", nil, "take lines from a `FILE` or directory of yours; never stored")
	f.BoolVar(&w.plain, "plain", false, "line by line, for screen readers, pipes and slow links")
	completeNames(c, "board", env.boardNames)
	completeNames(c, "kind", kindNames)
}

// completeNames completes the value of a flag.
func completeNames(c *cobra.Command, flag string, names func() []string) {
	err := c.RegisterFlagCompletionFunc(flag, func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return names(), cobra.ShellCompDirectiveDefault
	})
	if err != nil {
		panic(err) // the flag is not there: a mistake of ours
	}
}

// minutesFlag is how long a sitting lasts, from 1 to 120 minutes; 0: the command
// line does not say.
type minutesFlag int

// Set reads the value of the flag.
func (m *minutesFlag) Set(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > 120 {
		return errors.New("a sitting lasts from 1 to 120 minutes, and 8 a day are usual")
	}
	*m = minutesFlag(n)
	return nil
}

// String writes the value; one that was not given is empty, so that help shows no default.
func (m *minutesFlag) String() string {
	if *m == 0 {
		return ""
	}
	return strconv.Itoa(int(*m))
}

// Type names the values in messages.
func (*minutesFlag) Type() string { return "minutes" }

// today runs a sitting.
func (e *Env) today(w wish) error {
	p, err := e.practise(w)
	if err != nil {
		return err
	}
	if w.plain || !e.interactive() {
		err = p.plainly()
	} else {
		err = p.onScreen()
	}
	return errors.Join(err, p.writeLate(), p.writer.close())
}

// onScreen runs the sitting full screen. The journal is taken first: a second
// instance learns at once that it cannot practise.
func (p *practice) onScreen() error {
	if err := p.writer.open(); err != nil {
		return err
	}
	_ = p.course.Keep() // without a cache all is read again next time
	quiet := *p.env     // the screen is taken: nothing else may print on it
	quiet.Stderr = io.Discard
	p.env = &quiet
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, syscall.SIGTERM, syscall.SIGHUP, os.Interrupt)
	defer signal.Stop(signals)
	err := p.show(screen.Options{Colours: p.config.Colours, Env: p.env.Getenv, Signals: signals, Now: p.env.Now})
	if err != nil && !errors.As(err, new(*problem)) {
		return failure("%w", err).hinted("TERM is %q; --plain needs no terminal of any kind", p.env.Getenv("TERM"))
	}
	return err
}
