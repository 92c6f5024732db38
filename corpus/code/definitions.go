package code

import "strings"

// definitions are all languages. The words are those the languages' own
// standards and references list as reserved.
func definitions() []*Language {
	return []*Language{goLanguage()}
}

func goLanguage() *Language {
	return &Language{
		Name: "go", endings: []string{"go"},
		Words: strings.Fields(`break case chan const continue default defer else fallthrough for func go goto if import
			interface map package range return select struct switch type var true false nil iota`),
		rules: newRules(line("//"), block("/*", "*/"), escaped(`"`, oneLine), escaped("'", oneLine), verbatim("`", "`")),
	}
}
