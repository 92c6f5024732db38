package main

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"underlay/cmd/underlay/config"
)

// commands lists the subcommands, in the order of the help text. A command is
// listed when it works. Each constructor has a file of its own, with its help
// text; it keeps env and reads its flags into local variables.
func commands(env *Env) []*cobra.Command {
	return []*cobra.Command{
		newToday(env),
		newPlan(env),
		newWhere(env),
		newBoard(env),
		newCorpus(env),
		newProgress(env),
		newJournal(env),
		newSimulate(env),
		newCompletion(env),
		newMan(env),
		newVersion(env),
		newPictures(env),
	}
}

func newRoot(env *Env) *cobra.Command {
	var w wish
	root := &cobra.Command{
		Use:   "underlay",
		Short: "Train the layers of a small keyboard",
		Long: `Underlay trains the layers of a small keyboard, a few minutes a day, on what
you really type. Practise short: take breaks, and stop when anything hurts.`,
		Args:          onlySubcommands,
		SilenceErrors: true,
		SilenceUsage:  true,
		RunE:          func(*cobra.Command, []string) error { return env.today(w) },
	}
	w.flags(root, env)
	cobra.EnableCommandSorting = false // a setting of the library; the order of commands is ours
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetHelpCommand(&cobra.Command{Use: "help", Hidden: true, RunE: func(c *cobra.Command, args []string) error {
		of, _, err := root.Find(args)
		if err != nil {
			return err
		}
		return of.Help()
	}})
	root.SetFlagErrorFunc(flagError)
	root.SetUsageTemplate(usage)
	root.AddCommand(commands(env)...)
	return root
}

// group makes a command that only holds others, such as board: alone it shows
// its help.
func group(use, short, long string, of ...*cobra.Command) *cobra.Command {
	c := &cobra.Command{Use: use, Short: short, Long: long, Args: onlySubcommands,
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() }}
	c.AddCommand(of...)
	return c
}

// onlySubcommands refuses an argument that names no subcommand.
func onlySubcommands(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	p := misuse("%sthere is no command %q", tag(c), args[0])
	if near := config.DidYouMean(args[0], names(c)); near != "" {
		return p.hinted("%s", near)
	}
	return p.hinted("%q lists the commands", c.CommandPath()+" --help")
}

// names are those of the subcommands that are listed.
func names(c *cobra.Command) []string {
	var out []string
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() {
			out = append(out, sub.Name())
		}
	}
	return out
}

// tag names a subcommand at the head of a message.
func tag(c *cobra.Command) string {
	if !c.HasParent() {
		return ""
	}
	return strings.TrimPrefix(c.CommandPath(), c.Root().Name()+" ") + ": "
}

// flagError words what was found wrong with a flag.
func flagError(c *cobra.Command, err error) error {
	if p, ok := errors.AsType[*problem](err); ok {
		return p
	}
	return misuse("%s%w", tag(c), err).hinted("%q lists the flags", c.CommandPath()+" --help")
}

// takes refuses fewer than least or more than most positional arguments; most
// below 0 is any number.
func takes(least, most int) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		var p *problem
		switch {
		case len(args) < least:
			p = misuse("%san argument is missing", tag(c))
		case most >= 0 && len(args) > most:
			p = misuse("%sthere is an argument too many, %q", tag(c), args[most])
		default:
			return nil
		}
		return p.hinted("usage: %s", c.UseLine())
	}
}

// usage is the part of a help text below the description.
const usage = `Usage
  {{.UseLine}}{{if .HasAvailableSubCommands}}
  {{.CommandPath}} COMMAND --help

Commands{{range .Commands}}{{if .IsAvailableCommand}}
  {{rpad .Name .NamePadding}} {{.Short}}{{end}}{{end}}{{end}}{{if .HasExample}}

Examples
{{.Example}}{{end}}{{if .HasAvailableLocalFlags}}

Flags
{{.LocalFlags.FlagUsages | trimTrailingWhitespaces}}{{end}}
`
