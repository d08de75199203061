package feedstock_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
)

var typed = []string{
	"grass clippings", "leavse", "hors manuer", "kitchen scraps with meat", "scraps without meat", "", "the", "🌱🍂",
	"\u202eevael", "@everyone", "'; DROP TABLE heaps; --", "\xff\xfe\xfd", "**bold** leaves", "café grounds", "non", "in in in",
	"d'herbe", "L’ail", "Äpfel ohne", "Rinderknochenß", "sans de la viande", "xœufs", "hojas en bolsas de plástico",
	"free", "İstanbul leaves", "ﬁr needles", "e\u0301gg shells", strings.Repeat("leaves and grass ", 300), strings.Repeat("x", 5000),
}

func FuzzFind(f *testing.F) {
	for _, words := range typed {
		f.Add(words)
	}
	tables := []*feedstock.Table{feedstock.Default(), feedstock.Default().In("")}
	for _, language := range feedstock.Languages() {
		tables = append(tables, feedstock.Default().In(language))
	}
	f.Fuzz(func(t *testing.T, words string) {
		for _, table := range tables {
			mustBeOneAnswer(t, table, words)
		}
	})
}

func mustBeOneAnswer(t *testing.T, table *feedstock.Table, words string) {
	t.Helper()
	m := table.Find(words)
	assert.Equal(t, m.Outcome == feedstock.Found || m.Outcome == feedstock.Guessed, m.Feedstock.ID != "")
	assert.Equal(t, m.Outcome == feedstock.Banned, m.Refusal.ID != "")
	switch m.Outcome {
	case feedstock.Ambiguous:
		assert.GreaterOrEqual(t, len(m.Near), 2)
		assert.LessOrEqual(t, len(m.Near), 4)
	case feedstock.None:
		assert.LessOrEqual(t, len(m.Near), 3)
	default:
		assert.Empty(t, m.Near)
	}
	assert.Equal(t, m, table.Find(words), "the same words give the same answer")
	assert.LessOrEqual(t, len(table.Complete(words, 5)), 5)
}

func FuzzFromLab(f *testing.F) {
	f.Add("brewery sludge", 20.0, 0.0, 0.0, 10.0, 80.0, 900.0)
	f.Add("our leaves", 0.0, 0.8, 44.0, 0.0, 0.0, 0.0)
	f.Add("@everyone", -1.0, 1e300, 1e-300, 99.0, 100.0, 1601.0)
	f.Fuzz(func(t *testing.T, name string, ratio, nitrogen, carbon, ash, moisture, density float64) {
		got, err := feedstock.FromLab(name, feedstock.Lab{
			CN: ratio, Nitrogen: nitrogen, Carbon: carbon, Ash: ash, Moisture: moisture, Density: density,
		})
		if err != nil {
			_, forPeople := fault.As(err)
			assert.True(t, forPeople, err)
			return
		}
		assert.NotEmpty(t, got.ID)
		assertWithin(t, got.Carbon, 1, 65)
		assertWithin(t, got.CN, 0.5, 1500)
		assertWithin(t, got.Moisture, 0, 98)
		assertWithin(t, got.Density, 5, 1600)
		assertWithin(t, got.Volatile, 1, 100)
		assertWithin(t, got.Degradable, 0, 1)
		m := feedstock.Default().With(got).Find(got.ID)
		assert.Equal(t, got.ID, m.Feedstock.ID)
	})
}

func BenchmarkFind(b *testing.B) {
	table := feedstock.Default()
	for name, words := range map[string]string{
		"exact": "grass clippings", "part": "brown maple leaves from the drive", "slips": "hors manuer", "nothing": "xyzzy plugh quux",
		"long": strings.Repeat("leavse gras ", 400),
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				table.Find(words)
			}
		})
	}
}

func BenchmarkComplete(b *testing.B) {
	table := feedstock.Default()
	b.ReportAllocs()
	for b.Loop() {
		table.Complete("gra", 25)
	}
}

func BenchmarkWith(b *testing.B) {
	table := feedstock.Default()
	grass, _ := table.ByID("grass-clippings")
	for name, own := range map[string]feedstock.Feedstock{
		"weighed": grass.WithDensity(300, "group"),
		"added":   {ID: "brewery-sludge", Name: "brewery sludge"},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				table.With(own)
			}
		})
	}
}
