package speech

import (
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"heapside/calc/measure"
)

// Language is one of the languages spoken here.
type Language struct {
	Code string // language tag, e.g. "de"
	Name string // as its speakers call it
}

// tongue is what a language needs besides its words: how it writes numbers and
// days. Names of days and months as the Unicode Common Locale Data Repository
// abbreviates them, from memory.
type tongue struct {
	code, name   string
	point, group string
	oneBelow     float64 // amounts below it are singular, as is 1; 0 for those below 1
	days         string  // from Sunday
	months       string  // from January
	date         string  // a day of this year: W weekday, D day, M month
	year         string  // a day of another year: D, M, and Y
	full         string  // months in full, from January
	long         string  // a day of this year in full: D, and F for the month
	longYear     string  // a day of another year in full
	capital      bool    // a sentence after a colon begins with a capital
}

const englishDays, englishMonths = "Sun Mon Tue Wed Thu Fri Sat", "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec"

const englishFull = "January February March April May June July August September October November December"

// tongues are the languages, the one that the code is written in first.
var tongues = []tongue{
	{code: "en-GB", name: "English", point: ".", group: ",", days: englishDays, months: englishMonths, date: "W D M", year: "D M Y",
		full: englishFull, long: "D F", longYear: "D F Y"},
	{code: "en-US", name: "American English", point: ".", group: ",", days: englishDays, months: englishMonths, date: "W M D", year: "M D, Y",
		full: englishFull, long: "F D", longYear: "F D, Y"},
	{code: "de", name: "Deutsch", point: ",", group: ".", days: "So Mo Di Mi Do Fr Sa",
		months: "Jan. Feb. März Apr. Mai Juni Juli Aug. Sept. Okt. Nov. Dez.", date: "W D. M", year: "D. M Y", capital: true,
		full: "Januar Februar März April Mai Juni Juli August September Oktober November Dezember", long: "D. F", longYear: "D. F Y"},
	{code: "fr", name: "français", point: ",", group: "\u202f", oneBelow: 2, days: "dim. lun. mar. mer. jeu. ven. sam.",
		months: "janv. févr. mars avr. mai juin juil. août sept. oct. nov. déc.", date: "W D M", year: "D M Y",
		full: "janvier février mars avril mai juin juillet août septembre octobre novembre décembre", long: "D F", longYear: "D F Y"},
	{code: "es", name: "español", point: ",", group: ".", days: "dom lun mar mié jue vie sáb",
		months: "ene feb mar abr may jun jul ago sept oct nov dic", date: "W D M", year: "D M Y",
		full: "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre", long: "D de F", longYear: "D de F de Y"},
	{code: "nl", name: "Nederlands", point: ",", group: ".", days: "zo ma di wo do vr za",
		months: "jan feb mrt apr mei jun jul aug sep okt nov dec", date: "W D M", year: "D M Y",
		full: "januari februari maart april mei juni juli augustus september oktober november december", long: "D F", longYear: "D F Y"},
}

// Languages are the languages spoken here, British English first.
func Languages() []Language {
	out := make([]Language, len(tongues))
	for i, t := range tongues {
		out[i] = Language{t.code, t.name}
	}
	return out
}

// Day writes a day of this year: "Mon 2 Jan", "Mo 2. Jan.".
func (s *Speech) Day(t time.Time) string { return s.own().write(s.own().date, t) }

// Date writes a day with its year: "2 Jan 2006".
func (s *Speech) Date(t time.Time) string { return s.own().write(s.own().year, t) }

// LongDay writes a day of this year in full: "2 January", "2. Januar".
func (s *Speech) LongDay(t time.Time) string { return s.own().write(s.own().long, t) }

// LongDate writes a day with its year in full: "2 January 2006".
func (s *Speech) LongDate(t time.Time) string { return s.own().write(s.own().longYear, t) }

// AfterColon is a sentence as it stands after a colon: but in German, its first
// letter is small.
func (s *Speech) AfterColon(sentence string) string {
	if s.own().capital {
		return sentence
	}
	r, size := utf8.DecodeRuneInString(sentence)
	return string(unicode.ToLower(r)) + sentence[size:]
}

func (s *Speech) own() tongue {
	if s == nil {
		return tongues[0]
	}
	return s.tongue
}

func (t tongue) write(pattern string, at time.Time) string {
	parts := strings.Fields(pattern)
	for i, p := range parts {
		mark := strings.TrimLeft(p, "WDMFY")
		switch p[0] {
		case 'W':
			p = strings.Fields(t.days)[at.Weekday()]
		case 'D':
			p = strconv.Itoa(at.Day())
		case 'M':
			p = strings.Fields(t.months)[at.Month()-1]
		case 'F':
			p = strings.Fields(t.full)[at.Month()-1]
		case 'Y':
			p = strconv.Itoa(at.Year())
		default: // a word between them
			mark = ""
		}
		parts[i] = p + mark
	}
	return strings.Join(parts, " ")
}

// Weekday is the short name of a day of the week: "Mon", "Mo".
func (s *Speech) Weekday(d time.Weekday) string { return strings.Fields(s.own().days)[d] }

// Style is how amounts are written in the language.
func (s *Speech) Style() measure.Style {
	if s == nil {
		return measure.Style{}
	}
	return measure.Style{Language: s.code, Point: s.point, Group: s.group, OneBelow: s.oneBelow, Words: s.words, Speaker: s}
}
