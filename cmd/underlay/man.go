package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"unicode"

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
			text, err := manPage(env, page)
			if err != nil {
				return err
			}
			_, err = io.WriteString(env.Stdout, text)
			return err
		},
	}
	c.Flags().StringVar(&into, "into", "", "write every page into `DIR`")
	return c
}

func manHead(env *Env) *doc.GenManHeader {
	today := env.Now()
	return &doc.GenManHeader{Date: &today, Section: "1", Source: "underlay", Manual: "Underlay"}
}

// manPage writes a page in ASCII, which every troff reads: other characters by
// their code points, as groff_char(7) has them.
func manPage(env *Env, c *cobra.Command) (string, error) {
	var page, out strings.Builder
	if err := doc.GenMan(c, manHead(env), &page); err != nil {
		return "", err
	}
	for _, r := range page.String() {
		if r > unicode.MaxASCII {
			fmt.Fprintf(&out, "\\[u%04X]", r)
		} else {
			out.WriteRune(r)
		}
	}
	return out.String(), nil
}

// manTree writes the pages of a command and of all below it.
func manTree(env *Env, c *cobra.Command, dir string) error {
	if err := os.MkdirAll(filepath.Clean(dir), 0o755); err != nil {
		return tried("make the directory", dir, err)
	}
	text, err := manPage(env, c)
	if err != nil {
		return err
	}
	file := filepath.Join(dir, strings.ReplaceAll(c.CommandPath(), " ", "-")+".1")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		return tried("write the page", file, err)
	}
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() {
			if err := manTree(env, sub, dir); err != nil {
				return err
			}
		}
	}
	return nil
}
