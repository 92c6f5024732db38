// Package standing says where the user stands: how fast they are on their own
// code on each board, what holds them back, how it went from day to day, whether
// a key had better be moved, and whether the other board fades.
//
// A Tally counts the journal, drill by drill, and keeps what can be kept in a
// few bytes a day; it can be stored and gone on with. New joins it with the skill
// model and the boards into a Standing, which is plain values: the text, the
// page, the JSON and the CSV show the same ones.
//
// # What is never said
//
// No half-life and no share retained of a single stroke, since the data do not
// tell them; no date, since practice may stop; no forecast before ten practised
// sessions. A figure comes with the range in which it is expected four times
// of five, and where there is too little of something, with how much is missing.
//
// # Where figures come from
//
// The expected time a stroke is the model's: for every stroke of the board its
// share of the user's mix, times its latency and the repair of its slips; longer by
// the tail that people's latencies have beyond the model's. What a stroke costs is what
// it takes more than a quick stroke of the user's own.
// Beside it stand the probes, lines typed unaided, compared only with the same
// lines on the other board. Days are those of the journal's own time zone.
//
// It knows no terminal, no clock and no file system.
package standing
