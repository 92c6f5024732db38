package corpus

import (
	"strings"

	"underlay/corpus/code"
)

// token is a token of a line as a number: a class, one mark, a word of the
// language, or several marks.
type token uint16

const (
	tokenName token = 1 + iota
	tokenCapital
	tokenUpper
	tokenNumber
	tokenBody
	tokenBreak
	tokenRest // marks that there was no number left for

	maxTokens = 1024
)

// lexicon numbers the tokens of a language.
type lexicon struct {
	texts   []string // by token
	words   map[string]token
	fold    bool             // words are the same in capitals
	ofMark  [256]token       // by byte
	ofMarks map[uint64]token // of several marks, packed
}

func newLexicon(lang *code.Language) *lexicon {
	l := &lexicon{
		texts: []string{"", AnyName, CapitalName, UpperName, AnyNumber, Body, LineBreak, ""},
		words: map[string]token{}, ofMarks: map[uint64]token{}, fold: lang.FoldsCase,
	}
	for i := range len(asciiMarks) {
		l.ofMark[asciiMarks[i]] = l.enter(asciiMarks[i : i+1])
	}
	for _, w := range lang.Words {
		if l.words[w] == 0 {
			l.words[w] = l.enter(w)
		}
	}
	return l
}

func (l *lexicon) enter(text string) token {
	if len(l.texts) == maxTokens {
		return tokenRest
	}
	l.texts = append(l.texts, text)
	return token(len(l.texts) - 1)
}

// word is the token of a word of the language, 0 if it is none.
func (l *lexicon) word(word []byte) token {
	if l.fold {
		return l.words[strings.ToLower(string(word))]
	}
	return l.words[string(word)]
}

// marks is the token of several marks, packed.
func (l *lexicon) marks(key uint64) token {
	t := l.ofMarks[key]
	if t == 0 {
		t = l.enter(unpack(key))
		l.ofMarks[key] = t
	}
	return t
}

// numbersOf returns our numbers of another lexicon's tokens.
func (l *lexicon) numbersOf(o *lexicon) []token {
	ours := make([]token, maxTokens)
	for i := range ours {
		ours[i] = token(i)
	}
	for key, theirs := range o.ofMarks {
		ours[theirs] = l.marks(key)
	}
	return ours
}
