// Underlay trains the layers of a small keyboard.
//
// Each subcommand lives in a file of its own and is built by one constructor,
// listed in commands (root.go). A command gets all it needs from the Env it is
// built with, returns an error, and prints results to its standard output; only
// voice.go prints errors.
package main

import "os"

func main() { os.Exit(run(os.Args[1:], system())) }

// run performs one command line in env and returns the exit status: 0; 1, it
// failed; 2, it was used wrongly or a file of the user's is at fault.
func run(args []string, env *Env) int {
	root := newRoot(env)
	root.SetArgs(args)
	root.SetIn(env.Stdin)
	root.SetOut(env.Stdout)
	root.SetErr(env.Stderr)
	if err := root.Execute(); err != nil {
		return env.tell(err)
	}
	return 0
}
