package main

import (
	"os"
	"path/filepath"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

func newMan(env *Env) *cobra.Command {
	var into string
	c := &cobra.Command{
		Use:   "man [COMMAND]",
		Short: "Print a manual page",
		Long: `Prints the manual page of the program, or of one of its commands, as troff for
man(1). With --into it writes a page for every command into a directory.`,
		Example: `  underlay man | man -l -
  underlay man plan | man -l -
  underlay man --into ~/.local/share/man/man1`,
		RunE: func(c *cobra.Command, got []string) error {
			root := c.Root()
			root.DisableAutoGenTag = true
			if into != "" {
				return manTree(env, root, into)
			}
			page, rest, err := root.Find(got)
			if err != nil {
				return err
			}
			if len(rest) > 0 {
				return onlySubcommands(page, rest)
			}
			return doc.GenMan(page, manHead(env), env.Stdout)
		},
	}
	c.Flags().StringVar(&into, "into", "", "write every page into `DIR`")
	return c
}

func manHead(env *Env) *doc.GenManHeader {
	today := env.Now()
	return &doc.GenManHeader{Date: &today, Section: "1", Source: "underlay", Manual: "Underlay"}
}

func manTree(env *Env, root *cobra.Command, dir string) error {
	if err := os.MkdirAll(filepath.Clean(dir), 0o755); err != nil {
		return tried("make the directory", dir, err)
	}
	return doc.GenManTree(root, manHead(env), dir)
}
