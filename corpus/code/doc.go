// Package code knows programming languages as far as counting needs it: how to
// tell them, their words, and where their comments and literals are. For those
// who make lines of a language it says what lines keep to (grammar.go).
//
// A language is a table of rules, each with the text that opens something and
// the function that reads it (view.go). Most languages need but the few shapes
// of comment and literal of literals.go; what is peculiar to one family is in a
// file of its own.
package code
