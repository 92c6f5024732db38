// Proving drives the scheduler over JSON lines, for simulations and research:
// no board, no screen, no journal.
//
//	proving [--seed N]
//
// It reads one JSON object a line from standard input and writes one a line to
// standard output:
//
//	{"type":"hello","items":[…],"lines":[[id,…],…],"old_ms":…,"days":…,"session_s":…}   -> {"type":"ready"}
//	{"type":"ask","day":…,"now":…,"t":…,"left_s":…,"first":…}                           -> {"type":"exercise","items":[id,…]} or {"type":"end"}
//	{"type":"result","keys":[{"i":…,"p":…,"ms":…,"ok":…,"pr":…,"now":…},…]}             (no answer)
//	{"type":"predict","at":…,"items":[id,…]}                                            -> {"type":"prediction","ms":[…],"p_err":[…]}
//	{"type":"forecast","day":…,"target_ms":…}                                           -> {"type":"forecast","lo":…,"median":…,"hi":…}
//	{"type":"bye"}                                                                      (it leaves)
//
// Times are simulated seconds since day 0, 00:00. A stroke has id, board, layer, hand, finger,
// row, col, freq, pswitch and other, as scheduler.Stroke has them.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

func run(args []string, in io.Reader, out, errs io.Writer) int {
	flags := flag.NewFlagSet("proving", flag.ContinueOnError)
	flags.SetOutput(errs)
	seed := flags.Uint64("seed", 1, "for the choices that are made by chance")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(errs, "proving: no argument is wanted: %q\n", flags.Arg(0))
		return 2
	}
	if err := serve(in, out, *seed); err != nil {
		fmt.Fprintln(errs, "proving:", err)
		return 1
	}
	return 0
}
