// Package drills makes what there is to type and says how it went: it
// generates drills for a board from a mix of tables, grades what was typed,
// and names the kind of each slip. It never chooses what to practise; the
// scheduler does.
package drills
