package drills

import (
	"math/rand/v2"
	"strings"
)

// shellForms are commands as the shell of POSIX has them (IEEE Std 1003.1,
// Shell Command Language). A word in angle marks stands for what shellWords
// lists, or for what shellWord makes.
func shellForms() []string {
	return []string{
		"<command> <path> | <filter>", "<command> <flag> <path> | <filter> | <filter>", "<filter> < <file> > <file>",
		"<command> <path> > <file>", "<command> <path> >> <file> 2>&1", "<command> <flag> <path> 2> /dev/null",
		"<command> > /dev/null 2>&1 &", "<command> <file> && <command> <file>", "<command> <file> || exit <digit>",
		"[ -<test> <file> ] && <command> <file>", "[ \"$<var>\" = <word> ] || <command> <word>", "[ $# -<compare> <digit> ] && exit <digit>",
		"if [ ! -<test> <path> ]; then mkdir -p <path>; fi", "test -n \"$<var>\" && <command> \"$<var>\"",
		"for <letter> in <glob>; do <command> \"$<letter>\"; done", "while read -r <word>; do echo \"$<word>\"; done < <file>",
		"<VAR>=${<VAR>:-<word>}", "<VAR>=$(<command> <path>)", "<VAR>=\"${<VAR>%.<ending>}\"", "<VAR>=\"${<VAR>##*/}\"",
		"export <VAR>=\"$<VAR>:$HOME/<word>\"", "echo \"${#<var>} $(( <digit> + <digit> ))\"", "<word>() { <command> \"$@\"; }",
		"case $<digit> in -<letter>) <command>;; *) exit <digit>;; esac", "set -- <word> \"$@\"", "trap '<command> <file>' EXIT",
		"find <dir> -name '*.<ending>' -type f", "find <dir> -name '<glob>' -exec <command> {} +", "find . ! -path '*/<word>/*' -print",
		"grep -n '^<word>' <glob>", "grep -v '<word>$' <file> | <filter>", "grep -e '[0-9]*' -e '<word>' <file>",
		"sed 's/<word>/<word>/g' <file>", "sed -n '<digit>,<digit>p' <file>", "sed -e '/^#/d' -e 's|<word>|<word>|' <file>",
		"awk '{ print $<digit> }' <file>", "awk -F: '$<digit> > <digit> { print $1 }' <file>", "sort -t, -k<digit>,<digit> <file> | uniq -c",
		"cd ~/<word> && ls -l", "cp -r ./<word> ../<word>", "mv <file>{,.old}", "rm -f *.<ending> .<word>~", "ls -l | wc -l",
		"chmod u+x,g-w <file>", "tar -cf - <dir> | <filter>", "cat <file> - <<EOF", "printf '%s\\n' \"$<VAR>\"", "kill -<digit> $!", "echo $?",
		"xargs -n <digit> <command> < <file>", "<command> <file>; echo \"<word>: $?\"", "diff <file> <file> | tee <file>",
	}
}

// shellWords are what the forms' words may stand for: utilities of POSIX and
// their options.
func shellWords() map[string][]string {
	return map[string][]string{
		"command": {"ls", "cat", "cp", "mv", "rm", "diff", "echo", "touch", "file", "head", "tail", "wc", "cksum", "du"},
		"filter":  {"sort", "sort -u", "uniq -c", "head -n <digit>", "tail -n <digit>", "wc -l", "cut -d: -f<digit>", "tr a-z A-Z", "grep <word>", "tee <file>", "sed '$d'", "nl"},
		"flag":    {"-l", "-a", "-r", "-n", "-f", "-la", "-rf", "-p"},
		"test":    {"f", "d", "e", "r", "x", "s"},
		"compare": {"eq", "ne", "gt", "lt", "ge"},
		"ending":  {"c", "h", "go", "py", "sh", "txt", "tar", "o", "md", "log"},
		"path":    {"<word>/<file>", "./<word>", "../<word>/<word>", "~/<word>", "/<word>/<word>", "\"$HOME\"/<word>", "<file>", "/tmp/<word>.$$"},
		"dir":     {".", "..", "<word>", "./<word>", "~/<word>", "/usr/<word>"},
		"file":    {"<word>.<ending>", "<word>", "<word>_<word>.<ending>", "<word>-<digit>.<ending>"},
		"glob":    {"*.<ending>", "<word>*", "*.[ch]", "<word>?.<ending>", "*/<word>.<ending>"},
		"letter":  {"i", "f", "n", "d", "x"},
	}
}

// shell makes a drill of one command line.
func (g *Generator) shell(plan []want, rng *rand.Rand) Drill {
	forms, words := shellForms(), shellWords()
	var best Drill
	fit := -1.0
	for range candidates {
		text := g.expand(forms[rng.IntN(len(forms))], words, rng)
		if !g.typed(text) {
			continue
		}
		d := g.drill(Shell, symbolsOf(text+"\n"), true)
		if f := fits(d, plan); f > fit {
			best, fit = d, f
		}
		if len(plan) == 0 {
			break
		}
	}
	return best
}

// candidates is how many lines are made for one that brings what is wanted.
const candidates = 12

// fits is how well a drill brings what is wanted: the share of the plan that
// it has, each symbol once more at half its worth.
func fits(d Drill, plan []want) float64 {
	var fit float64
	for _, w := range plan {
		worth := w.share
		for _, k := range d.Keys {
			if k.Symbol == w.symbol {
				fit += worth
				worth /= 2
			}
		}
	}
	return fit
}

// expand puts words in the place of the angle marks of a form.
func (g *Generator) expand(form string, words map[string][]string, rng *rand.Rand) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(form, "<")
		word, after, closed := strings.Cut(rest, ">")
		b.WriteString(before)
		switch {
		case !found:
			return b.String()
		case closed && word != "" && strings.Trim(word, "abcdefghijklmnopqrstuvwxyzVAR") == "":
			b.WriteString(g.shellWord(word, words, rng))
			form = after
		default: // a redirection
			b.WriteByte('<')
			form = rest
		}
	}
}

func (g *Generator) shellWord(word string, words map[string][]string, rng *rand.Rand) string {
	switch word {
	case "digit":
		return string('1' + rune(rng.IntN(9)))
	case "word", "var":
		return g.text(rng)
	case "VAR":
		return strings.ToUpper(g.text(rng))
	}
	list := words[word]
	return g.expand(list[rng.IntN(len(list))], words, rng)
}

// text makes a short word; of the letters of the mix, if it has a language.
func (g *Generator) text(rng *rand.Rand) string {
	speech := g.speech()
	if len(speech.languages) == 0 {
		return "new"
	}
	word := speech.languages[0].names.word("a", rng)
	if len(word) > 5 {
		word = word[:5]
	}
	return word
}
