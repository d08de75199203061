package speech_test

import (
	"regexp"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/calc/measure"
	"heapside/commands/speech"
)

// translated are the languages with a file of sentences.
var translated = []string{"de", "fr", "es", "nl"}

func TestEveryLanguageSaysTheSame(t *testing.T) {
	source := speech.Keys("de")
	assert.NotEmpty(t, source)
	for _, code := range translated {
		assert.ElementsMatch(t, source, speech.Keys(code), "%s lacks or has more", code)
	}
}

// verb is one argument in a format, with its number where it has one.
var verb = regexp.MustCompile(`%(?:\[\d\])?[^%\s]`)

// TestSentencesTakeTheirArguments: a translation that drops an argument, or
// takes one that is not there, would be said with a gap.
func TestSentencesTakeTheirArguments(t *testing.T) {
	plain := regexp.MustCompile(`\[\d\]`)
	kinds := func(format string) []string {
		var out []string
		for _, v := range verb.FindAllString(regexp.MustCompile(`%%`).ReplaceAllString(format, ""), -1) {
			out = append(out, plain.ReplaceAllString(v, ""))
		}
		slices.Sort(out)
		return out
	}
	for _, code := range translated {
		for _, e := range speech.Entries(code) {
			assert.Equal(t, kinds(e.Key), kinds(e.Other), "%s: %q", code, e.Key)
			if e.One != "" {
				assert.Subset(t, kinds(e.Key), kinds(e.One), "%s: %q", code, e.Key)
			}
		}
	}
}

func TestMatching(t *testing.T) {
	for _, row := range []struct {
		name string
		tags []string
		want string
	}{
		{"nothing known", nil, "en-GB"},
		{"an empty tag", []string{""}, "en-GB"},
		{"the language itself", []string{"de"}, "de"},
		{"a region of it", []string{"de-AT"}, "de"},
		{"Latin American Spanish", []string{"es-419"}, "es"},
		{"Spanish of Spain", []string{"es-ES"}, "es"},
		{"American", []string{"en-US"}, "en-US"},
		{"British", []string{"en-GB"}, "en-GB"},
		{"one that is not spoken", []string{"pt-BR"}, "en-GB"},
		{"another script", []string{"zh-TW"}, "en-GB"},
		{"nonsense", []string{"not a tag!"}, "en-GB"},
		{"the garden's before the caller's", []string{"nl", "de"}, "nl"},
		{"the caller's where the garden has none", []string{"", "fr"}, "fr"},
	} {
		t.Run(row.name, func(t *testing.T) { assert.Equal(t, row.want, speech.Of(row.tags...).Code()) })
	}
}

func TestWhatIsMissingIsEnglish(t *testing.T) {
	assert.Equal(t, "3 of a kind", speech.Of("de").Say("%d of a kind", 3))
	assert.Equal(t, "100 % unheard of", speech.Of("de").Word("100 % unheard of"))
	assert.False(t, speech.Of("de").Knows("%d of a kind"))
}

// TestAmericanWords: a sentence is spelled anew, what is typed in it is not.
func TestAmericanWords(t *testing.T) {
	s := speech.Of("en-US")
	assert.Equal(t, "somebody else who left; organizers only", s.Word("somebody else who left; organisers only"))
	assert.Equal(t, "4 wheelbarrows (about 28 buckets)", measure.Measures{Style: s.Style()}.SayVolume(340))
	assert.Equal(t, "an organizer; garden organiser Wren", speech.Respell("an organiser; garden organiser Wren"))
}

func TestDays(t *testing.T) {
	day := time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC) // a Monday
	for code, want := range map[string][2]string{
		"": {"Mon 2 Mar", "2 Mar 2026"}, "en-US": {"Mon Mar 2", "Mar 2, 2026"}, "de": {"Mo 2. März", "2. März 2026"},
		"fr": {"lun. 2 mars", "2 mars 2026"}, "es": {"lun 2 mar", "2 mar 2026"}, "nl": {"ma 2 mrt", "2 mrt 2026"},
	} {
		s := speech.Of(code)
		assert.Equal(t, want, [2]string{s.Day(day), s.Date(day)}, code)
	}
	for code, want := range map[string][2]string{
		"": {"2 March", "2 March 2026"}, "en-US": {"March 2", "March 2, 2026"}, "de": {"2. März", "2. März 2026"},
		"fr": {"2 mars", "2 mars 2026"}, "es": {"2 de marzo", "2 de marzo de 2026"}, "nl": {"2 maart", "2 maart 2026"},
	} {
		s := speech.Of(code)
		assert.Equal(t, want, [2]string{s.LongDay(day), s.LongDate(day)}, code)
	}
	for d := range 400 { // the English is what the standard library prints
		at := day.AddDate(0, 0, d)
		assert.Equal(t, at.Format("Mon 2 Jan"), speech.Of().Day(at))
		assert.Equal(t, at.Format("2 Jan 2006"), speech.Of().Date(at))
		assert.Equal(t, at.Format("2 January"), speech.Of().LongDay(at))
	}
}

func TestAmounts(t *testing.T) {
	said := func(code string) []string {
		m := measure.Measures{Style: speech.Of(code).Style()}
		return []string{m.SayVolume(30), m.SayVolume(6), m.SayVolume(12), m.SayWater(20), m.SayMass(1300), m.SayLength(120), m.SayBulk(1400)}
	}
	for code, want := range map[string][]string{
		"":      {"2½ buckets", "half a bucket", "1 bucket", "20 litres (2 cans)", "1.3 tonnes", "1.2 m", "1.4 m³ (about 115 buckets)"},
		"en-US": {"2½ buckets", "half a bucket", "1 bucket", "20 liters (2 cans)", "1.3 tonnes", "1.2 m", "1.4 m³ (about 115 buckets)"},
		"de":    {"2½ Eimer", "½ Eimer", "1 Eimer", "20 Liter (2 Kannen)", "1,3 Tonnen", "1,2 m", "1,4 m³ (etwa 115 Eimer)"},
		"fr":    {"2½ seaux", "½ seau", "1 seau", "20 litres (2 arrosoirs)", "1,3 tonne", "1,2 m", "1,4 m³ (environ 115 seaux)"},
		"es":    {"2½ cubos", "½ cubo", "1 cubo", "20 litros (2 regaderas)", "1,3 toneladas", "1,2 m", "1,4 m³ (unos 115 cubos)"},
		"nl":    {"2½ emmers", "½ emmer", "1 emmer", "20 liter (2 gieters)", "1,3 ton", "1,2 m", "1,4 m³ (ongeveer 115 emmers)"},
	} {
		assert.Equal(t, want, said(code), code)
	}
}

func FuzzOf(f *testing.F) {
	for _, tag := range []string{"de", "es-419", "pt-BR", "", "x-", "en_US"} {
		f.Add(tag)
	}
	f.Fuzz(func(t *testing.T, tag string) {
		assert.Contains(t, speech.Languages(), speech.Language{Code: speech.Of(tag).Code(), Name: speech.Of(tag).Name()})
	})
}
