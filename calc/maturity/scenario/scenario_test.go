package scenario_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/heap"
	"heapside/calc/maturity/scenario"
)

func TestParse(t *testing.T) {
	stories, err := scenario.Parse(`
# a remark
## One heap
aim: fast
container: tumbler
size: 220 litres
9 days ago: add leaves-dry 100 litres 9 kg
3 hours ago: temp 58
today: air 12
=> anything: at all
## Another
`)
	require.NoError(t, err)
	require.Len(t, stories, 2)
	one := stories[0].State
	assert.Equal(t, heap.Heap{Aim: heap.Fast, Container: heap.Tumbler, SizeL: 220, Started: scenario.Now.AddDate(0, 0, -9)}, one.Heap)
	assert.Equal(t, 9*24*time.Hour, one.Age)
	assert.Equal(t, 9.0, one.Content[0].MassKg)
	assert.Equal(t, 58.0, one.Readings[0].C)
	assert.Equal(t, scenario.Now.Add(-3*time.Hour), one.Readings[0].At)
	assert.Equal(t, 12.0, one.Air[0].C)
	assert.Equal(t, []string{"anything: at all"}, stories[0].Expect)
	assert.Empty(t, stories[1].State.Entries)
}

func TestParseWeatherStockAndModel(t *testing.T) {
	stories, err := scenario.Parse(`
## In another season
date: 2026-10-20
place: -34
weather: 24
9 days ago: add leaves-dry 100 litres 9 kg
2 days ago: rained 22
tomorrow: night -4
in 2 days: rain 12
model: dry 0.7 30 litres
stock: leaves-dry 120 litres
`)
	require.NoError(t, err)
	s := stories[0]
	assert.Equal(t, time.Date(2026, time.October, 20, 9, 0, 0, 0, time.UTC), s.State.Now)
	assert.Equal(t, 9*24*time.Hour, s.State.Age)
	assert.True(t, s.Located)
	assert.Equal(t, -34.0, s.Lat)
	require.Len(t, s.Days, 14)
	assert.Equal(t, scenario.Day{In: -7, MeanC: 24, NightC: 19}, s.Days[0])
	assert.Equal(t, scenario.Day{In: -2, RainMm: 22, MeanC: 24, NightC: 19}, s.Days[5])
	assert.Equal(t, scenario.Day{In: 1, MeanC: 1, NightC: -4}, s.Days[8])
	assert.Equal(t, scenario.Day{In: 2, RainMm: 12, MeanC: 24, NightC: 19}, s.Days[9])
	assert.Equal(t, &scenario.Model{Dry: 0.7, WaterL: 30}, s.Model)
	require.Len(t, s.Stock, 1)
	assert.Equal(t, 120.0, s.Stock[0].VolumeL)
}

func TestParseRefusesWhatItDoesNotKnow(t *testing.T) {
	rows := []struct{ name, text string }{
		{"before the first title", "today: turn"},
		{"no colon", "## a\nturned it"},
		{"unknown entry", "## a\ntoday: dance"},
		{"unknown attribute", "## a\ncolour: red"},
		{"no number", "## a\ntoday: temp hot"},
		{"missing word", "## a\ntoday: add leaves-dry 100 litres"},
		{"weather too far ahead", "## a\nin 9 days: rain 12"},
		{"unknown weather", "## a\ntomorrow: fog 3"},
		{"nothing of the model", "## a\nmodel: sad 0.4"},
		{"no litres in stock", "## a\nstock: leaves-dry"},
		{"no date", "## a\ndate: autumn"},
		{"nothing behind the colon", "## a\ntoday: "},
		{"unknown unit of time", "## a\n2 moons ago: turn"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			_, err := scenario.Parse(r.text)
			assert.Error(t, err)
		})
	}
}
