package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"heapside/calc/fault"
)

// setting is one thing that whoever runs the program decides, by environment or
// in the file of settings. usual is what holds when nothing is said.
type setting struct{ name, what, usual string }

// settings are all there are. Nothing else of the name HEAPSIDE_… is read.
var settings = []setting{
	{"HEAPSIDE_TOKEN", "the bot's token; better in a file that only its user can read", ""},
	{tokenFileEnv, "the file that holds the bot's token, readable by its owner only", ""},
	{"HEAPSIDE_DB", "the file that keeps the record", "heapside.db"},
	{configEnv, "the file of settings; only by environment", ""},
	{logEnv, "how serve logs: text or json", "text"},
	{logLevelEnv, "from where on serve logs: debug, info, warn or error", "info"},
	{metricsEnv, "where serve shows metrics and health, an address of this machine's own such as 127.0.0.1:9464", "off"},
	{weatherEnv, "off, or the weather services to ask in order", "open-meteo, met-norway, nws"},
	{weatherContactEnv, "how the weather services can reach whoever runs this", ""},
	{"HEAPSIDE_OPEN_METEO_URL", "another address of Open-Meteo", ""},
	{"HEAPSIDE_MET_NORWAY_URL", "another address of MET Norway", ""},
	{"HEAPSIDE_NWS_URL", "another address of the US National Weather Service", ""},
	{"HEAPSIDE_PLACES_URL", "another address of the search for places", ""},
}

const (
	configEnv    = "HEAPSIDE_CONFIG"
	tokenFileEnv = "HEAPSIDE_TOKEN_FILE"
	maxConfig    = 64 << 10 // bytes; far above what the settings need
)

// setting is what the environment says, else the file of settings, else nothing.
// An empty value is none.
func (m *Main) setting(name string) string {
	if said := m.Getenv(name); said != "" {
		return said
	}
	return m.configured[name]
}

// configure reads the file of settings, if there is one to read.
func (m *Main) configure(path string) error {
	if path == "" {
		path = m.Getenv(configEnv)
	}
	if path == "" {
		return nil
	}
	f, err := os.Open(path)
	if err != nil {
		return fmt.Errorf("read the settings: %w", err)
	}
	defer f.Close()
	read, err := parseSettings(path, io.LimitReader(f, maxConfig+1))
	if err != nil {
		return err
	}
	if read["HEAPSIDE_TOKEN"] != "" {
		info, err := f.Stat()
		if err != nil {
			return fmt.Errorf("read the settings: %w", err)
		}
		if info.Mode().Perm()&0o077 != 0 {
			return fault.New(fault.Refused, "“%s” holds the token and others can read it (%v); chmod 600 it, then start again.", path, info.Mode())
		}
	}
	m.configured, m.settingsFile = read, path
	return nil
}

// parseSettings reads lines of KEY=VALUE. Empty lines and those that begin with
// # say nothing; blanks around a key and a value, and one pair of quotes around
// a value, are no part of them. No error shows a value: it could be the token.
func parseSettings(path string, r io.Reader) (map[string]string, error) {
	read := map[string]string{}
	lines := bufio.NewScanner(r)
	size := 0
	for n := 1; lines.Scan(); n++ {
		if size += len(lines.Bytes()) + 1; size > maxConfig {
			return nil, fault.New(fault.TooLong, "“%s” is no file of settings: it has more than %d bytes.", path, maxConfig)
		}
		line := strings.TrimSpace(lines.Text())
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		key, value, ok := strings.Cut(line, "=")
		key = strings.TrimSpace(key)
		switch {
		case !ok:
			return nil, fault.New(fault.NotUnderstood, "Line %d of “%s” is no KEY=VALUE.", n, path)
		case !slices.ContainsFunc(settings, func(s setting) bool { return s.name == key && key != configEnv }):
			return nil, fault.New(fault.Unknown, "Line %d of “%s” sets %q, which is no setting; the nearest is %s. heapside help settings lists them.", n, path, shortened(key, shownKey), nearest(key))
		}
		if _, twice := read[key]; twice {
			return nil, fault.New(fault.Ambiguous, "Line %d of “%s” sets %s again; keep one.", n, path, key)
		}
		read[key] = unquoted(strings.TrimSpace(value))
	}
	if err := lines.Err(); errors.Is(err, bufio.ErrTooLong) {
		return nil, fault.New(fault.TooLong, "“%s” is no file of settings: a line is too long.", path)
	} else if err != nil {
		return nil, fmt.Errorf("read the settings: %w", err)
	}
	return read, nil
}

func unquoted(value string) string {
	if n := len(value); n >= 2 && (value[0] == '"' || value[0] == '\'') && value[n-1] == value[0] {
		return value[1 : n-1]
	}
	return value
}

// shownKey is how much of a key that is no setting is shown, in characters.
const shownKey = 40

// shortened is a text of at most some characters, with a mark where it was cut.
func shortened(text string, most int) string {
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// nearest is the setting whose name takes the fewest changes to come to.
func nearest(key string) string {
	key = strings.ToUpper(shortened(key, shownKey))
	if !strings.HasPrefix(key, "HEAPSIDE_") {
		key = "HEAPSIDE_" + key
	}
	best, least := "", len(key)+100
	for _, s := range settings {
		if n := changes(key, s.name); n < least && s.name != configEnv {
			best, least = s.name, n
		}
	}
	return best
}

// changes is how many letters must be put in, taken out or exchanged to come
// from one word to the other (Levenshtein's distance).
func changes(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		before := row[0]
		row[0] = i + 1
		for j := range len(b) {
			exchanged := before
			if a[i] != b[j] {
				exchanged++
			}
			before = row[j+1]
			row[j+1] = min(exchanged, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

// helpSettings prints the table of settings.
func helpSettings(w io.Writer) error {
	var b strings.Builder
	b.WriteString("Settings come from the environment, or from a file of lines KEY=VALUE that HEAPSIDE_CONFIG or\nheapside -config FILE names. The environment wins.\n\n")
	for _, s := range settings {
		fmt.Fprintf(&b, "  %-26s %s", s.name, s.what)
		if s.usual != "" {
			fmt.Fprintf(&b, " (default %s)", s.usual)
		}
		b.WriteString("\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}
