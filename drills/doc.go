// Package drills makes what there is to type and says how it went: it
// generates drills for a board from a mix of tables, grades what was typed,
// and names the kind of each slip. It never chooses what to practise; the
// scheduler does.
//
// # What to type
//
// A Generator makes drills of every Kind, the same for the same seed. It asks
// only for strokes that the board drills, that a terminal receives (Received
// lists what does not arrive), that nothing keeps for itself, and that are not
// marked as never to be pressed in vain. What is wanted comes in its
// proportion: systematic draws (draw.go) give each drill its demand, and the
// pieces of a drill take from it (demand.go).
//
// Lines are made from a table alone (language.go): the commonest lines as they
// are, in tokens; all others grow from those by the expressions that are in
// them (phrase.go, free.go), or, in languages that have few, are walked from
// token to token (walk.go). Names and numbers are spelled by the language's
// letters and shapes (name.go). Blocks end in the drill that begins them
// (block.go), so that all brackets are balanced. Of a few texts, one that has
// more of what came too seldom so far is likelier (line.go); where strokes are
// wanted, the one of many that brings them best is taken (bring.go).
//
// # How it went
//
// A Grader takes keys with their times and gives one Try for each first
// attempt, and text-entry Figures by the published definitions. Diagnose names
// the likeliest kind of a slip, from the geometry of the board, its layers, and
// the other board that the hands know (weigh.go says how kinds are weighed).
package drills
