package speech

// Entry is what a file holds for one key, for tests.
type Entry struct{ Key, One, Other string }

// Entries are the entries of a language's file.
func Entries(code string) []Entry {
	var out []Entry
	for _, e := range entries(code) {
		out = append(out, Entry{e.key, e.one, e.other})
	}
	return out
}

// Respell is a text in American spelling.
func Respell(text string) string { return respell(text) }

// Parse reads a file.
func Parse(text string) ([]Entry, error) {
	read, err := parse(text)
	var out []Entry
	for _, e := range read {
		out = append(out, Entry{e.key, e.one, e.other})
	}
	return out, err
}
