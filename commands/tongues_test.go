package commands_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/commands"
)

// asked is a call with one argument.
func asked(path, option, said string) commands.Call {
	return commands.Call{Place: millrace, By: person("Wren"), Now: summer, Organiser: true, Path: path, Args: map[string]string{option: said}}
}

// TestAnyLanguageIsReadInAnyGarden: a guest says what was brought in words of
// another language than the garden's; nothing is guessed, and what must stay out
// stays out.
func TestAnyLanguageIsReadInAnyGarden(t *testing.T) {
	for _, row := range []struct{ said, headline string }{
		{"2 buckets of grass", "2 buckets of grass clippings (about 6 kg)"},
		{"zwei Eimer Rasenschnitt", "2 buckets of grass clippings (about 6 kg)"},
		{"zwei Eimer Rasenschnitt und ein halber Eimer Kaffeesatz", "2 buckets of grass clippings (about 6 kg) and half a bucket of coffee grounds (about 2½ kg)"},
		{"une brouette de feuilles mortes", "1 barrow of dry leaves (about 7½ kg)"},
		{"tres cubos de hojas secas", "3 buckets of dry leaves (about 3 kg)"},
		{"een halve kruiwagen stro", "half a barrow of straw (about 1½ kg)"},
		{"2 kg Gras und 1 Eimer Laub", "2 kg of grass clippings (about 2 kg) and 1 bucket of dry leaves (about 1 kg)"},
	} {
		t.Run(row.said, func(t *testing.T) {
			a := assistant(t)
			require.Nil(t, a.Do(context.Background(), asked("heap start", "name", "North Bay")).Err)
			r := a.Do(context.Background(), asked("log add", "what", row.said))
			require.Nil(t, r.Err)
			assert.Contains(t, r.Headline, row.headline)
		})
	}
	for _, said := range []string{"zwei Eimer Katzenstreu", "un seau de viande", "500 g de viande", "dos cubos de huesos", "een emmer vlees", "2 Eimer Gras und 1 Eimer Fleisch"} {
		a := assistant(t)
		r := a.Do(context.Background(), asked("mix", "what", said))
		require.NotNil(t, r.Err, said)
		assert.Equal(t, fault.Refused, r.Err.Code, said)
	}
	for _, said := range []string{"zwei Eimer", "2 emmers plugh", "some grass", "une brouette", "10,000 buckets of grass", "9.500 Eimer Laub"} {
		a := assistant(t)
		require.NotNil(t, a.Do(context.Background(), asked("mix", "what", said)).Err, said)
	}
}

// TestCompleteInTheLanguageOfTheCall: names of both languages are found, and
// those of the caller's are written.
func TestCompleteInTheLanguageOfTheCall(t *testing.T) {
	for _, row := range []struct{ locale, path, option, typed, want string }{
		{"de", "mix", "what", "2 Ei", "2 Eimer Rasenschnitt"}, {"de", "mix", "what", "2 Eimer Ras", "2 Eimer Rasenschnitt"},
		{"de", "mix", "what", "zwei Eimer Ras", "zwei Eimer Rasenschnitt"}, {"de", "mix", "what", "2 Eimer grass cl", "2 Eimer Rasenschnitt"},
		{"de", "mix", "what", "2 Eimer Rasenschnitt und 1 Sack trock", "2 Eimer Rasenschnitt und 1 Sack trockenes Laub"},
		{"de", "mix", "from", "Stroh und Pap", "Stroh und Pappe"}, {"de", "mix", "what", "Kaff", "1 Eimer Kaffeesatz"},
		{"fr", "mix", "what", "2 seaux d'her", "2 seaux d'herbe tondue"}, {"fr", "mix", "what", "2 seaux de feu", "2 seaux de feuilles mortes"}, {"fr", "mix", "what", "une br", "une brouette de feuilles mortes"},
		{"es", "mix", "what", "3 sacos de ho", "3 sacos de hojas secas"}, {"es", "mix", "what", "medio cubo de pos", "medio cubo de posos de café"},
		{"nl", "mix", "what", "2 emmers gra", "2 emmers grasmaaisel"}, {"nl", "mix", "what", "", "1 emmer grasmaaisel"},
	} {
		t.Run(row.locale+" "+row.typed, func(t *testing.T) {
			c := asked(row.path, "", "")
			c.Locale = row.locale
			var got []string
			for _, choice := range assistant(t).Complete(context.Background(), c, row.option, row.typed) {
				got = append(got, choice.Value)
			}
			assert.Contains(t, got, row.want)
			if row.option != "what" {
				return
			}
			for _, list := range got[:min(len(got), 8)] {
				again := asked("stock set", "what", list)
				again.Locale = row.locale
				assert.Nil(t, assistant(t).Do(context.Background(), again).Err, "a suggestion that is not read: %s", list)
			}
		})
	}
}
