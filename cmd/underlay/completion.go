package main

import (
	"github.com/spf13/cobra"
)

func newCompletion(env *Env) *cobra.Command {
	shells := []string{"bash", "fish", "powershell", "zsh"}
	return &cobra.Command{
		Use:   "completion SHELL",
		Short: "Print a completion script for a shell",
		Long: `Prints a script that completes commands, flags, boards and tables in one of four
shells: bash, fish, powershell or zsh. Load it from the shell's start-up file;
bash needs its package of completions, often named bash-completion, as well.`,
		Example: `  source <(underlay completion bash)
  underlay completion fish | source`,
		Args:      takes(1, 1),
		ValidArgs: shells,
		RunE: func(c *cobra.Command, got []string) error {
			root := c.Root()
			switch got[0] {
			case "bash":
				return root.GenBashCompletionV2(env.Stdout, true)
			case "fish":
				return root.GenFishCompletion(env.Stdout, true)
			case "powershell":
				return root.GenPowerShellCompletionWithDesc(env.Stdout)
			case "zsh":
				return root.GenZshCompletion(env.Stdout)
			}
			return misuse("completion: there is no script for the shell %q", got[0]).hinted("%s", "one of bash, fish, powershell, zsh")
		},
	}
}
