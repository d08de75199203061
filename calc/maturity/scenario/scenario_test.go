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

func TestParseRefusesWhatItDoesNotKnow(t *testing.T) {
	rows := []struct{ name, text string }{
		{"before the first title", "today: turn"},
		{"no colon", "## a\nturned it"},
		{"unknown entry", "## a\ntoday: dance"},
		{"unknown attribute", "## a\ncolour: red"},
		{"no number", "## a\ntoday: temp hot"},
		{"missing word", "## a\ntoday: add leaves-dry 100 litres"},
		{"unknown unit of time", "## a\n2 moons ago: turn"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			_, err := scenario.Parse(r.text)
			assert.Error(t, err)
		})
	}
}
