package main

import (
	"strings"

	"underlay/corpus"
	"underlay/corpus/code"
)

// Names in programs are mostly their authors' own, and a name that several
// packages use is everybody's. Scripts, settings and documents name other
// programs, products and hosts again and again. Of their names a table keeps
// only general ones: those that a table without this rule has too, words
// that are reserved in some language, and what the recipe lists besides.

// generalNames returns what tells whether a name is general.
func generalNames(besides string) (func(string) bool, error) {
	known := map[string]bool{}
	for w := range strings.FieldsSeq(besides) {
		known[w] = true
	}
	for _, l := range code.All().List() {
		for _, w := range l.Words {
			known[w] = true
		}
	}
	for _, r := range recipes() {
		if r.general {
			continue
		}
		table, err := corpus.Load(r.language)
		if err != nil {
			return nil, err
		}
		for name := range table.Counts(corpus.Name) {
			known[name] = true
		}
	}
	return func(name string) bool {
		return known[name] || known[strings.ToLower(name)] || single(name)
	}, nil
}

// single tells whether a name is one letter, or one with a digit.
func single(name string) bool {
	return len(name) == 1 || len(name) == 2 && '0' <= name[1] && name[1] <= '9'
}

// functionWords are those that hold sentences of English together: articles,
// pronouns, prepositions, conjunctions and auxiliary verbs.
const functionWords = `a an the this that these those it its he she they we you i your our their his her my me us them who which what whose
	of in to for on with at by from as into about over under between after before through during without within against since until
	and or but nor so if then else when while where because than whether though unless not no yes all any both each few more most other some such only own same too very also just
	is are was were be been being have has had do does did will would shall should may might must can could here there how why`

// utilities are those that scripts use, and the directories that all systems
// have: the shell's commonest, and here those that are names of variables too,
// rarer ones (IEEE Std 1003.1-2017, Shell and Utilities, from memory), the
// shell's own words and its variables.
func utilities() string {
	const others = `alias bc bg break chgrp chown cksum cmp comm command continue dd df diff du echo env eq eval exec exit expand export expr fg file
	fold ge getconf getopts gt hash head iconv id jobs join kill le link ln locale logname lt m4 make mkfifo ne newgrp nice nl nohup
	od paste patch pathchk pax pr ps readonly renice return rmdir set shift split stty tabs tail tee test time times tput trap tsort
	tty type ulimit umask unalias uname unexpand uniq unlink unset wait who write IFS HOME PATH PWD OPTARG OPTIND bin dev etc home lib
	null opt proc root sbin src tmp usr var stdin stdout stderr`
	return others + " " + strings.Join(code.All().Named("shell").Grammar.Utilities, " ")
}
