package feedstock

import (
	"embed"
	"slices"
	"strings"
	"sync"
)

// names are what a garden calls the materials and refusals of the tables in
// other languages, a file a language: common words, from memory.
//
//go:embed names/*.csv
var names embed.FS

// lexicon is one language's words for the materials and refusals of the tables.
type lexicon struct {
	language string
	called   map[string]naming // by the ID of a material or refusal
	index    *index
}

// naming is what one thing is called. plain are the name and the other words as
// split leaves them.
type naming struct {
	name  string
	words []string
	plain []string
}

// lexicons are the languages, in the order in which they are asked.
var lexicons = sync.OnceValue(func() []*lexicon {
	var all []*lexicon
	for _, t := range tongues {
		text, err := names.ReadFile("names/" + t.language + ".csv")
		if err == nil {
			var l *lexicon
			if l, err = readLexicon(t.language, t.grammar(), string(text)); err == nil {
				all = append(all, l)
			}
		}
		if err != nil {
			panic("feedstock: names/" + t.language + ".csv: " + err.Error())
		}
	}
	return all
})

func readLexicon(language string, g *grammar, text string) (*lexicon, error) {
	rows, err := readRows(text, "id", "name", "words")
	if err != nil {
		return nil, err
	}
	l := &lexicon{language: language, called: make(map[string]naming, len(rows))}
	for _, r := range rows {
		n := naming{name: r["name"], words: r.list("words")}
		for _, w := range append([]string{n.name}, n.words...) {
			n.plain = append(n.plain, strings.Join(split(w), " "))
		}
		l.called[r["id"]] = n
	}
	table := builtIn()
	stocks, refusals := make([][]*called, len(table.stocks)), make([][]*called, len(table.refusals))
	ids := make([]string, len(table.stocks))
	for i, f := range table.stocks {
		ids[i], stocks[i] = f.ID, l.called[f.ID].read(g)
	}
	for i, r := range table.refusals {
		refusals[i] = l.called[r.ID].read(g)
	}
	l.index = newIndex(g, stocks, refusals)
	l.index.ids = ids
	return l, nil
}

func (n naming) read(g *grammar) []*called {
	if n.name == "" {
		return nil
	}
	return g.callings(n.name, n.words)
}

func lexiconOf(language string) *lexicon {
	i := slices.IndexFunc(lexicons(), func(l *lexicon) bool { return l.language == language })
	if i < 0 {
		return nil
	}
	return lexicons()[i]
}

// Languages are the language tags whose names of materials are known besides
// English.
func Languages() []string {
	codes := make([]string, len(tongues))
	for i, t := range tongues {
		codes[i] = t.language
	}
	return codes
}

// In is the table as it is asked in a language: a language tag of Languages, or
// anything else for English. It reads the words of all languages, as Find says.
func (t *Table) In(language string) *Table {
	out := *t
	out.own, out.others = nil, nil
	for _, l := range lexicons() {
		if l.language == language {
			out.own = l
			continue
		}
		out.others = append(out.others, l)
	}
	return &out
}

// English is the table without the words of other languages.
func (t *Table) English() *Table {
	if t.own == nil && t.others == nil {
		return t
	}
	out := *t
	out.own, out.others = nil, nil
	return &out
}

// In is what the material is called in a language, its English name where the
// language has none or the group gave it a name.
func (f Feedstock) In(language string) string {
	if n, ok := lexiconOf(language).naming(f); ok {
		return n.name
	}
	return f.Name
}

// Words are the name of the material in a language and other words for it
// there; those in English where the language has none.
func (f Feedstock) Words(language string) []string {
	if n, ok := lexiconOf(language).naming(f); ok {
		return append([]string{n.name}, n.words...)
	}
	return append([]string{f.Name}, f.Aliases...)
}

// naming is what a material of the built-in table is called.
func (l *lexicon) naming(f Feedstock) (naming, bool) {
	if l == nil {
		return naming{}, false
	}
	n, ok := l.called[f.ID]
	return n, ok && builtInName(f)
}

// In is what is refused, as it is called in a language; in English where the
// language has no name for it.
func (r Refusal) In(language string) string {
	if l := lexiconOf(language); l != nil {
		if n, ok := l.called[r.ID]; ok {
			return n.name
		}
	}
	return r.Name
}
