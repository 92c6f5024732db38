// Package report turns results into text and files: progress as a screen of
// lines, as a page for a browser, and as a table of values.
//
// What is shown is decided in package standing; here it is put into words,
// bars and curves. The words of a figure are the same in the text and on the
// page (words.go).
package report
