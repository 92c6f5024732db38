// Package journal keeps everything practised: append-only files of checked
// lines, one file a machine. All else is derived from it.
package journal
