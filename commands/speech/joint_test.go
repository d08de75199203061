package speech_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/commands/speech"
)

// TestWordsJoin holds what French and Spanish change before an argument: elision
// (Grevisse, Le bon usage) and the vowels of y and o (Real Academia Española,
// Ortografía), both from memory.
func TestWordsJoin(t *testing.T) {
	const of = "%s of %s"
	for _, row := range []struct{ code, key, first, second, want string }{
		{"fr", of, "4 seaux", "paille", "4 seaux de paille"},
		{"fr", of, "4 seaux", "écorces", "4 seaux d'écorces"},
		{"fr", of, "4 seaux", "herbe coupée", "4 seaux d'herbe coupée"},
		{"fr", of, "4 seaux", "haricots", "4 seaux de haricots"},
		{"fr", of, "4 seaux", "Œufs", "4 seaux d'Œufs"},
		{"es", of, "4 cubos", "hojas secas", "4 cubos de hojas secas"},
		{"es", "%s and %s", "paja", "hierba", "paja y hierba"},
		{"es", "%s and %s", "paja", "hilos", "paja e hilos"},
		{"es", "Add about %s, or %s.", "1 cubo de paja", "8 cubos de heno", "Añade más o menos 1 cubo de paja, u 8 cubos de heno."},
		{"es", "Add about %s, or %s.", "1 cubo de paja", "11 cubos de heno", "Añade más o menos 1 cubo de paja, u 11 cubos de heno."},
		{"es", "Add about %s, or %s.", "1 cubo de paja", "110 litros", "Añade más o menos 1 cubo de paja, o 110 litros."},
		{"de", of, "4 Eimer", "Äste", "4 Eimer Äste"},
	} {
		assert.Equal(t, row.want, speech.Of(row.code).Say(row.key, row.first, row.second))
	}
	assert.Equal(t, "Wren ist weg ab 3. Aug.", speech.Of("de").Say("%s is away %s.", "Wren", speech.Of("de").Say("from %s on", "3. Aug.")))
	assert.Equal(t, "paja, heno u hojas", speech.Of("es").List([]string{"paja", "heno", "hojas"}, "or"))
	assert.Equal(t, "paja, heno o papel", speech.Of("es").List([]string{"paja", "heno", "papel"}, "or"))
	assert.Equal(t, "straw, hay or leaves", speech.Of().List([]string{"straw", "hay", "leaves"}, "or"))
	assert.Equal(t, "contenu d'Old Bay", speech.Of("fr").Say("what is in %s", "Old Bay"))
}
