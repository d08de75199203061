package feedstock_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/feedstock"
	"heapside/calc/measure"
)

func TestTableIsWhole(t *testing.T) {
	kinds := []feedstock.Kind{feedstock.Green, feedstock.Brown, feedstock.Manure, feedstock.Activator, feedstock.Neutral}
	all := feedstock.Default().All()
	assert.GreaterOrEqual(t, len(all), 120)
	for _, f := range all {
		t.Run(f.ID, func(t *testing.T) {
			assert.NotEmpty(t, f.Name)
			assert.Equal(t, strings.ToLower(f.Name), f.Name)
			assert.Contains(t, kinds, f.Kind)
			assert.Contains(t, []int{0, 1, 2, 3}, f.Everyday)
			assert.LessOrEqual(t, len(f.Caution), 260, "a caution is short")
			for _, alias := range f.Aliases {
				assert.Equal(t, strings.TrimSpace(strings.ToLower(alias)), alias)
				assert.NotEmpty(t, alias)
			}
			least := 1.0
			if f.Mineral {
				least = 0
			}
			assertWithin(t, f.Carbon, least, 65)
			assertWithin(t, f.CN, 0.5, 1500)
			assertWithin(t, f.Moisture, 0, 98)
			assertWithin(t, f.Density, 5, 1600)
			assertWithin(t, f.Volatile, 0, 100)
			assertWithin(t, f.Degradable, 0, 1)
			assert.Less(t, f.Carbon.Typical, f.Volatile.Typical, "carbon is part of the organic matter")
		})
	}
}

func assertWithin(t *testing.T, p feedstock.Property, low, high float64) {
	t.Helper()
	assert.LessOrEqual(t, low, p.Low)
	assert.LessOrEqual(t, p.Low, p.Typical)
	assert.LessOrEqual(t, p.Typical, p.High)
	assert.LessOrEqual(t, p.High, high)
	require.NotEmpty(t, p.Source)
	for _, id := range strings.Fields(p.Source) {
		_, ok := feedstock.SourceOf(id)
		assert.True(t, ok, "source %q is not listed", id)
	}
	assert.Len(t, p.Sources(), len(strings.Fields(p.Source)))
}

// Published single values that the typical values must stay near, each with
// the table it stands in.
func TestTypicalValuesFollowTheSources(t *testing.T) {
	for _, row := range []struct {
		id     string
		of     func(feedstock.Feedstock) float64
		want   float64
		within float64
		source string
	}{
		{"grass-clippings", cn, 17, 0, "NRCS-NEH637-T2A1"},
		{"grass-clippings", moisture, 82, 2, "NRCS-NEH637-T2A1"},
		{"grass-clippings", density, 250, 0, "SWOLF"},
		{"grass-clippings", carbon, 44.8, 0.5, "SWOLF"},
		{"leaves-dry", cn, 54, 0, "NRCS-NEH637-T2A1"},
		{"leaves-dry", density, 90, 0, "SWOLF"},
		{"leaves-dry", carbon, 43.7, 0.5, "SWOLF"},
		{"straw-general", cn, 80, 0, "NRCS-NEH637-T2A1"},
		{"straw-general", density, 40, 0, "RUTGERS-FS537"},
		{"straw-wheat", moisture, 9.7, 2, "INRAE-FEEDTABLES"},
		{"hay-grass", moisture, 14.4, 1, "PHM2018 (hay)"},
		{"sawdust", cn, 442, 0, "NRCS-NEH637-T2A1"},
		{"sawdust", moisture, 39, 0, "SWOLF"},
		{"wood-shavings", density, 144, 0, "RUTGERS-FS537"},
		{"wood-shavings", moisture, 13.2, 0.5, "PHM2018"},
		{"wood-chips", cn, 400, 0, "UCSC-UNIT1.7"},
		{"cardboard", carbon, 40.7, 0.5, "SWOLF"},
		{"cardboard", density, 63, 5, "EPA2016"},
		{"newspaper", cn, 490, 0, "SWOLF"},
		{"office-paper", cn, 373, 0, "SWOLF"},
		{"office-paper", moisture, 8.75, 0.5, "SWOLF"},
		{"vegetable-waste", cn, 19, 0, "NRCS-NEH637-T2A1"},
		{"fruit-waste", cn, 40, 0, "NRCS-NEH637-T2A1"},
		{"coffee-grounds", cn, 20, 0, "HUMANURE-T3.2"},
		{"manure-horse", cn, 30, 0, "NRCS-NEH637-T2A1"},
		{"manure-horse", moisture, 72, 3, "NRCS-NEH637-T2A1"},
		{"manure-cow", cn, 19, 0, "NRCS-NEH637-T2A1"},
		{"manure-cow", moisture, 79, 0, "GRUD2017"},
		{"manure-sheep", cn, 16, 0, "NRCS-NEH637-T2A1"},
		{"manure-layer", cn, 7.4, 0.5, "GRUD2017"},
		{"seaweed", cn, 19, 0, "HUMANURE-T3.2"},
		{"urine", cn, 0.8, 0, "BIOGAS-HB"},
		{"compost-finished", cn, 14.7, 0.5, "AFSETOOLS"},
		{"compost-finished", moisture, 45, 0, "SWOLF"},
	} {
		t.Run(row.id+" "+row.source, func(t *testing.T) {
			assert.InDelta(t, row.want, row.of(stock(t, row.id)), row.within)
		})
	}
}

func cn(f feedstock.Feedstock) float64       { return f.CN.Typical }
func carbon(f feedstock.Feedstock) float64   { return f.Carbon.Typical }
func moisture(f feedstock.Feedstock) float64 { return f.Moisture.Typical }
func density(f feedstock.Feedstock) float64  { return f.Density.Typical }

func stock(t *testing.T, id string) feedstock.Feedstock {
	t.Helper()
	f, ok := feedstock.Default().ByID(id)
	require.True(t, ok, id)
	return f
}

// Greens and browns in about equal volumes come near 30:1 (Raabe, University of
// California, Rapid Composting Method); over the usual pairs the table must.
func TestEqualVolumesComeNearTheAim(t *testing.T) {
	per := func(f feedstock.Feedstock) (c, n float64) {
		dry := f.Density.Typical * (1 - f.Moisture.Typical/100)
		return dry * f.Carbon.Typical, dry * f.Nitrogen()
	}
	for _, green := range []string{"grass-clippings", "weeds", "food-scraps", "vegetable-waste"} {
		for _, brown := range []string{"leaves-dry", "straw-general", "leaves-shredded"} {
			t.Run(green+" and "+brown, func(t *testing.T) {
				c1, n1 := per(stock(t, green))
				c2, n2 := per(stock(t, brown))
				ratio := (c1 + c2) / (n1 + n2)
				assert.GreaterOrEqual(t, ratio, 20.0)
				assert.LessOrEqual(t, ratio, 40.0)
			})
		}
	}
}

func TestNitrogenIsCarbonOverRatio(t *testing.T) {
	for _, f := range feedstock.Default().All() {
		if f.Mineral {
			assert.Zero(t, f.Nitrogen(), f.ID)
			continue
		}
		assert.InDelta(t, f.Carbon.Typical, f.Nitrogen()*f.CN.Typical, 1e-9, f.ID)
		assert.Less(t, f.Nitrogen(), 20.0, f.ID)
	}
	assert.Zero(t, feedstock.Feedstock{Carbon: feedstock.Property{Range: measure.Exact(40)}}.Nitrogen())
}

func TestRefusalsAreWhole(t *testing.T) {
	refusals := feedstock.Default().Refusals()
	assert.GreaterOrEqual(t, len(refusals), 25)
	for _, r := range refusals {
		assert.NotEmpty(t, r.Name, r.ID)
		assert.True(t, strings.HasSuffix(r.Reason, "."), r.ID)
		assert.NotEmpty(t, r.Source, r.ID)
		assert.NotEmpty(t, r.Aliases, r.ID)
	}
}

func TestSourcesAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range feedstock.Sources() {
		assert.False(t, seen[s.ID], "%s is listed twice", s.ID)
		seen[s.ID] = true
		assert.NotEmpty(t, s.Citation, s.ID)
		if strings.HasPrefix(s.ID, "memory:") {
			assert.Equal(t, feedstock.Memory, s.Sure, s.ID)
		}
		if s.Sure != feedstock.Memory && s.Sure != feedstock.Own {
			assert.Contains(t, "ABC", string(s.Sure), s.ID)
			assert.NotEmpty(t, s.Address, s.ID)
		}
	}
	_, ok := feedstock.SourceOf("no such source")
	assert.False(t, ok)
}

func TestWithReplacesAndAdds(t *testing.T) {
	table := feedstock.Default()
	count := len(table.All())
	grass := stock(t, "grass-clippings").WithDensity(310, "group")
	sludge := feedstock.Feedstock{ID: "brewery-sludge", Name: "brewery sludge", Aliases: []string{"sludge"}}
	own := table.With(grass, sludge)

	assert.Len(t, own.All(), count+1)
	assert.Len(t, table.All(), count, "the table it was made from stays")
	got, _ := own.ByID("grass-clippings")
	assert.InDelta(t, 310, got.Density.Typical, 0)
	assert.Equal(t, "brewery-sludge", own.Find("sludge").Feedstock.ID)
	assert.InDelta(t, 310, own.Find("gras clipings").Feedstock.Density.Typical, 0)
	assert.NotEqual(t, "brewery-sludge", table.Find("sludge").Feedstock.ID)
	assert.True(t, slices.IsSortedFunc(own.All(), func(a, b feedstock.Feedstock) int { return strings.Compare(a.ID, b.ID) }))
}

// A group's own name wins over the built-in words it is made of.
func TestWithOwnName(t *testing.T) {
	straw, err := feedstock.FromLab("our straw", feedstock.Lab{CN: 70})
	require.NoError(t, err)
	own := feedstock.Default().With(straw)
	assert.Equal(t, "our-straw", own.Find("Our straw").Feedstock.ID)
	assert.Equal(t, "our-straw", own.Find("our-straw").Feedstock.ID)
	assert.Equal(t, "straw-general", own.Find("straw").Feedstock.ID)
}

func TestWithDensity(t *testing.T) {
	grass := stock(t, "grass-clippings")
	assert.Equal(t, feedstock.Property{Range: measure.Range{Low: 270, Typical: 300, High: 330}, Source: "group"},
		grass.WithDensity(300, "group").Density)
	assert.InDelta(t, 1600, grass.WithDensity(1590, "group").Density.High, 0)
	for _, bad := range []float64{0, -3, 4.9, 1601, math.NaN(), math.Inf(1)} {
		assert.Equal(t, grass.Density, grass.WithDensity(bad, "group").Density)
	}
}

func TestComplete(t *testing.T) {
	table := feedstock.Default()
	for typed, first := range map[string]string{
		"gra": "grass-clippings", "coff": "coffee-grounds", "lea": "leaves-dry", "card": "cardboard",
		"Wood c": "wood-chips", "zuc": "courgette", "grsas clip": "grass-clippings",
	} {
		t.Run(typed, func(t *testing.T) {
			list := table.Complete(typed, 5)
			require.NotEmpty(t, list)
			assert.LessOrEqual(t, len(list), 5)
			assert.Equal(t, first, list[0].ID)
		})
	}
	for _, f := range table.Complete("", 8) {
		assert.Equal(t, 3, f.Everyday, f.ID)
	}
	assert.Len(t, table.Complete("", 25), 25)
	assert.Empty(t, table.Complete("gra", 0))
	assert.Empty(t, table.Complete("gra", -1))
	assert.Empty(t, table.Complete("zzzzqqq", 5))
}
