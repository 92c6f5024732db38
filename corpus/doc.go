// Package corpus counts what is typed: source code and recordings of keys go
// in, tables of frequencies come out. It reads, writes and mixes such tables.
//
// It knows no board, no terminal, no clock and no file system.
package corpus
