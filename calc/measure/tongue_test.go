package measure

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func inLanguage(language string) Measures { return Measures{Style: Style{Language: language}} }

// TestItemsInLanguages: counts by their typical value, units by id.
func TestItemsInLanguages(t *testing.T) {
	for _, row := range []struct{ in, said, want string }{
		{"de", "zwei Eimer Rasenschnitt", "2 bucket Rasenschnitt"},
		{"de", "ein halber Eimer Kaffeesatz", "0.5 bucket Kaffeesatz"},
		{"de", "2 Eimer Gras und eine Schubkarre Laub", "2 bucket Gras; 1 barrow Laub"},
		{"de", "anderthalb Schubkarren Stroh", "1.5 barrow Stroh"},
		{"de", "zweieinhalb Säcke Laub, 3 Eimer Küchenabfälle und einen halben Eimer Kaffeesatz", "2.5 sack Laub; 3 bucket Küchenabfälle; 0.5 bucket Kaffeesatz"},
		{"de", "ZWEI EIMER RASENSCHNITT", "2 bucket RASENSCHNITT"},
		{"de", "fuenf Eimer voll Gras", "5 bucket Gras"},
		{"de", "2,5 l Kaffeesatz", "2.5 l Kaffeesatz"},
		{"de", "1,250 kg Kaffeesatz", "1.25 kg Kaffeesatz"},
		{"de", "1.500 Liter Laub", "1500 l Laub"},
		{"de", "3 bis 4 Eimer nasses Laub vom Nachbarn", "3.5 bucket nasses Laub vom Nachbarn"},
		{"de", "zwischen 2 und 3 Eimern Mist", "2.5 bucket Mist"},
		{"de", "etwa drei Eimer Laub", "3 bucket Laub"},
		{"de", "2 Strohballen", "2 bale Strohballen"},
		{"de", "wir haben heute 2 Eimer Unkraut gebracht", "2 bucket Unkraut"},
		{"de", "eine Handvoll Asche, einundzwanzig Liter Urin", "1 handful Asche; 21 l Urin"},
		{"de", "3 Säcke von 40 Litern", "3 sack "}, {"de", "3 Säcke je 40 l Laub", "3 sack Laub"}, {"fr", "3 sacs de 40 l de terreau", "3 sack terreau"},
		{"de", "2 gehäufte Eimer Gras", "2 bucket Gras"},
		{"de", "zwei Eimre Gras", "2 bucket Gras"},
		{"de", "zwei Pfund Kaffeesatz", "2 half_kilo Kaffeesatz"},
		{"de", "Rasenschnitt: 2 Eimer", "2 bucket Rasenschnitt"},
		{"de", "2 buckets of grass and a barrow of leaves", "2 bucket grass; 1 barrow leaves"},
		{"fr", "une brouette de feuilles", "1 barrow feuilles"},
		{"fr", "deux seaux et demi de tonte", "2.5 bucket tonte"},
		{"fr", "2 seaux d'herbe et une demi-brouette de paille", "2 bucket herbe; 0.5 barrow paille"},
		{"fr", "un demi seau de marc de café", "0.5 bucket marc de café"},
		{"fr", "3 sacs de feuilles mortes, un seau d’épluchures et 2 poignées de cendres", "3 sack feuilles mortes; 1 bucket épluchures; 2 handful cendres"},
		{"fr", "la moitié d'un seau de fumier", "0.5 bucket fumier"},
		{"fr", "un quart de seau de cendre", "0.25 bucket cendre"},
		{"fr", "2 à 3 brouettes de fumier de cheval", "2.5 barrow fumier de cheval"},
		{"fr", "deux gros seaux de feuilles de chêne", "2 bucket feuilles de chêne"},
		{"fr", "deux seaux pleins de feuilles", "2 bucket feuilles"},
		{"fr", "vingt-deux litres de café", "22 l café"},
		{"fr", "vingt et un litres de café", "21 l café"},
		{"fr", "1 200 litres de broyat", "1200 l broyat"},
		{"fr", "une douzaine de seaux de feuilles", "12 bucket feuilles"},
		{"fr", "un sac poubelle de feuilles", "1 bin_bag feuilles"},
		{"fr", "nous avons 2 seaux de la tonte", "2 bucket tonte"},
		{"fr", "une livre de marc de café", "1 half_kilo marc de café"},
		{"fr", "2 bottes de paille et 3 kg de pain", "2 bale paille; 3 kg pain"},
		{"es", "3 sacos de hojas secas", "3 sack hojas secas"},
		{"es", "medio cubo de posos de café", "0.5 bucket posos de café"},
		{"es", "dos cubos y medio de hierba y una carretilla de paja", "2.5 bucket hierba; 1 barrow paja"},
		{"es", "una carretilla y media de estiércol", "1.5 barrow estiércol"},
		{"es", "2 cubos de restos de cocina, un saco de hojas", "2 bucket restos de cocina; 1 sack hojas"},
		{"es", "dos cubos grandes de césped", "2 bucket césped"},
		{"es", "un par de puñados de ceniza", "2 handful ceniza"},
		{"es", "2 o 3 cubos de hojas", "2.5 bucket hojas"},
		{"es", "entre 2 y 3 cubos de hojas", "2.5 bucket hojas"},
		{"es", "treinta y dos litros de orina", "32 l orina"},
		{"es", "2,5 kg de posos", "2.5 kg posos"},
		{"es", "la mitad de un cubo de serrín", "0.5 bucket serrín"},
		{"es", "un cuarto de cubo de ceniza", "0.25 bucket ceniza"},
		{"es", "dos tobos y tres costales de hojas", "2 bucket ; 3 sack hojas"},
		{"nl", "een halve kruiwagen stro", "0.5 barrow stro"},
		{"nl", "twee emmers gras en een kruiwagen blad", "2 bucket gras; 1 barrow blad"},
		{"nl", "anderhalve emmer koffiedik", "1.5 bucket koffiedik"},
		{"nl", "twee en een halve emmer koffiedik", "2.5 bucket koffiedik"},
		{"nl", "tweeëntwintig liter urine", "22 l urine"},
		{"nl", "2 of 3 emmers bladeren", "2.5 bucket bladeren"},
		{"nl", "3 zakken droog blad, een kan water", "3 sack droog blad; 1 jug water"},
		{"nl", "een paar scheppen aarde", "3 shovelful aarde"},
		{"nl", "2 strobalen", "2 bale strobalen"},
		{"nl", "een emmer vol met keukenafval", "1 bucket keukenafval"},
		{"nl", "een pond koffiedik", "1 half_kilo koffiedik"},
	} {
		t.Run(row.in+" "+row.said, func(t *testing.T) {
			items, err := inLanguage(row.in).ParseItems(row.said)
			require.NoError(t, err)
			var got []string
			for _, it := range items {
				got = append(got, fmt.Sprintf("%v %s %s", it.Amount.Count.Typical, it.Amount.Unit.ID, it.Material))
			}
			assert.Equal(t, row.want, strings.Join(got, "; "))
		})
	}
}

// TestWordsOfMeasuresThatTwoLanguagesHave decides what each means where; "" is
// asked about.
func TestWordsOfMeasuresThatTwoLanguagesHave(t *testing.T) {
	for _, row := range []struct{ said, in, want string }{
		{"1 can", "", "can"}, {"1 can", "nl", "can"}, {"1 kan", "nl", "jug"}, {"1 Kanne", "de", "can"}, {"1 kan", "", ""},
		{"1 sac", "fr", "sack"}, {"1 sack", "de", "sack"}, {"1 sac", "", ""},
		{"1 lata", "es", ""}, {"1 pot", "fr", "pot"}, {"1 pot", "nl", "pot"}, {"1 pot", "", "pot"},
		{"1 Tonne", "de", ""}, {"1 tonne", "fr", "t"}, {"1 tonne", "", "t"}, {"1 ton", "nl", ""}, {"1 tonelada", "es", "t"},
		{"1 tas", "fr", ""}, {"1 tas", "nl", "carrier_bag"}, {"1 box", "de", "box"}, {"1 bol", "fr", "cup"},
		{"1 bac", "fr", "tub"}, {"1 bak", "nl", "tub"}, {"1 karre", "de", "barrow"}, {"1 kar", "nl", "barrow"},
		{"1 bala", "es", "bale"}, {"1 balle", "fr", ""}, {"1 pond", "nl", "half_kilo"}, {"1 Pfund", "de", "half_kilo"}, {"1 pound", "de", "lb"}, {"1 libra", "es", "lb"},
		{"1 bucket", "es", "bucket"}, {"a bucket", "es", "bucket"}, {"1 liter", "nl", "l"}, {"1 l", "fr", "l"},
	} {
		a, err := inLanguage(row.in).ParseAmount(row.said)
		assert.Equal(t, row.want, a.Unit.ID, "%q in %q: %v", row.said, row.in, err)
		assert.Equal(t, row.want == "", err != nil, "%q in %q", row.said, row.in)
	}
}

// TestWhatIsSaidIsReadAgain: what is printed in a language is an amount in it.
func TestWhatIsSaidIsReadAgain(t *testing.T) {
	for language := range readings {
		m := inLanguage(language)
		for _, u := range m.Units() {
			for _, v := range []float64{1, 2} {
				said, ok := m.SayAmount(Amount{Count: Exact(v), Unit: u})
				if !ok {
					continue // not said in the language
				}
				a, err := m.ParseAmount(said)
				require.NoError(t, err, "%s: %s", language, said)
				assert.Equal(t, u.ID, a.Unit.ID, "%s: %s", language, said)
				assert.Equal(t, v, a.Count.Typical, "%s: %s", language, said)
			}
		}
		for _, c := range containers {
			for _, word := range []string{c.one, c.many} {
				assert.NotEmpty(t, m.Style.reading().said[word], "%s has no word for %s", language, word)
			}
		}
	}
}

// TestSayAmount says again what somebody counted.
func TestSayAmount(t *testing.T) {
	for _, row := range []struct{ in, said, as, want string }{
		{"", "3 buckets", "de", "3 Eimer"}, {"", "half a bucket", "de", "½ Eimer"}, {"de", "zwei Eimer", "", "2 buckets"}, {"de", "ein Sack", "fr", "1 sac"},
		{"", "2-3 sacks", "de", "2–3 Säcke"}, {"", "about 3 barrows", "nl", "about 3 kruiwagens"}, {"", "1 sack", "es", "1 saco"}, {"", "2.5 litres", "es", "2½ litros"},
		{"", "3 bags of 40 l", "de", ""}, {"", "2 heaped buckets", "de", ""}, {"", "3 US gallons", "de", ""},
	} {
		m := inLanguage(row.in)
		a, err := m.ParseAmount(row.said)
		require.NoError(t, err)
		as := inLanguage(row.as)
		as.Style.Point, as.Style.Group = ",", "."
		as.Style.Words = map[string]string{"half a %s": "½ %s"}
		said, ok := as.SayAmount(a)
		assert.Equal(t, row.want, said, row.said)
		assert.Equal(t, row.want != "", ok, row.said)
	}
}

// TestTonguesAreWhole: the English side is what this package reads.
func TestTonguesAreWhole(t *testing.T) {
	known := []string{"of", "the", "to", "or", "times", "add", "please", "full", "hundred", "a", "and", "with", "plus", "wet", "dry", "each", "between", "about", "straw", "hay", "third"}
	for language, of := range readings {
		for said, english := range of().phrases {
			phrase := strings.Join(english, " ")
			_, unit := names[phrase]
			_, fill := fills[phrase]
			_, count := countPhrases[phrase]
			_, _, number := numeral(lex(phrase), 0)
			rest := slices.DeleteFunc(slices.Clone(english), func(w string) bool {
				_, ten := tensWords[w]
				_, one := onesWords[w]
				_, part := fractions[w]
				_, container := names[w]
				return ten || one || part || container || slices.Contains(known, w) || vagueMeasures[w]
			})
			assert.True(t, unit || fill || count || number || len(rest) == 0, "%s: %q is %q", language, said, phrase)
		}
	}
}

func BenchmarkParseItemsInGerman(b *testing.B) {
	m := inLanguage("de")
	b.ReportAllocs()
	for b.Loop() {
		_, _ = m.ParseItems("zwei Eimer Rasenschnitt und ein halber Eimer Kaffeesatz")
	}
}
