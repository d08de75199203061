package commands_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/advice"
	"heapside/calc/heap"
	"heapside/commands"
)

// jobsOf are the kinds of job that are found some hours after the beginning, by heap.
func (p *plot) jobsOf(hours float64) []string {
	p.t.Helper()
	found, err := p.a.Jobs(context.Background(), millrace, summer.Add(time.Duration(hours*float64(time.Hour))))
	require.NoError(p.t, err)
	var said []string
	for i, f := range found {
		require.True(p.t, i == 0 || f.Urgency <= found[i-1].Urgency, "the most useful first")
		require.NotEmpty(p.t, f.Title)
		said = append(said, f.Heap.Name+" "+f.Kind)
	}
	return said
}

// TestJobsAreThoseOfNext holds that reminders and the command find the same.
func TestJobsAreThoseOfNext(t *testing.T) {
	p := newPlot(t)
	p.dryBay()
	p.say(1, `heap start "Old Bay" container:"open heap"`)
	p.say(1, `log add 8 barrows of grass clippings heap:"Old Bay"`)
	p.say(1, `log temp 72 heap:"Old Bay"`)
	jobs := p.jobsOf(2)
	r := p.say(2, "next")
	require.NotEmpty(t, jobs)
	assert.Equal(t, "Old Bay "+advice.Cool, jobs[0])
	assert.Equal(t, float64(len(jobs)), r.Values["jobs"].Value)
	assert.Equal(t, advice.Cool, r.Values["job.1.kind"].Value)
	assert.Contains(t, jobs, " "+advice.Stock, "a garden in June that fed greens and has no browns in stock")
	p.say(3, "stock set 20 barrows of straw")
	assert.NotContains(t, p.jobsOf(3), " "+advice.Stock)
}

func TestJobsOfAPlaceWithoutHeaps(t *testing.T) {
	p := newPlot(t)
	found, err := p.a.Jobs(context.Background(), millrace, summer)
	require.NoError(t, err)
	assert.Empty(t, found)
	_, err = p.a.Jobs(context.Background(), heap.Place{}, summer)
	assert.Error(t, err)
}

// TestRainToComeWaitsWithTheCan: rain that has fallen already does not water a
// heap that is dry now.
func TestRainToComeWaitsWithTheCan(t *testing.T) {
	rows := []struct {
		name string
		rain func(t time.Time) float64
		want string
	}{
		{"dry days", func(time.Time) float64 { return 0 }, "Bay " + advice.Water},
		{"rain tomorrow", func(t time.Time) float64 { return within(t, 20, 30, 4) }, "Bay " + advice.Wait},
		{"rain this evening", func(t time.Time) float64 { return within(t, 2, 4, 15) }, "Bay " + advice.Wait},
		{"rain this morning", func(t time.Time) float64 { return within(t, -10, 0, 4) }, "Bay " + advice.Water},
		{"rain in four days", func(t time.Time) float64 { return within(t, 96, 110, 4) }, "Bay " + advice.Water},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			p := newPlot(t, commands.Under(climate{airC: 16, rainMm: row.rain, asOf: summer}))
			p.dryBay()
			p.say(1, "log feel crumbles")
			jobs := p.jobsOf(1)
			assert.Contains(t, jobs, row.want)
			assert.False(t, slices.Contains(jobs, "Bay "+advice.Water) && slices.Contains(jobs, "Bay "+advice.Wait), "%v", jobs)
		})
	}
}

// within is mm an hour between two hours after the beginning, and none else.
func within(t time.Time, from, to, mm float64) float64 {
	if h := t.Sub(summer).Hours(); h >= from && h < to {
		return mm
	}
	return 0
}

// TestWeatherIsCredited holds that who told of the weather is named with what rests on it.
func TestWeatherIsCredited(t *testing.T) {
	rain := func(t time.Time) float64 { return within(t, 20, 30, 4) }
	p := newPlot(t, commands.Under(climate{airC: 16, rainMm: rain, asOf: summer}))
	p.dryBay()
	p.say(1, "log feel crumbles")
	r := p.say(1, "next")
	assert.Contains(t, r.Basis, "Weather: invented (https://weather.example/)")
	found, err := p.a.Jobs(context.Background(), millrace, summer.Add(time.Hour))
	require.NoError(t, err)
	for _, f := range found {
		if f.Kind == advice.Wait {
			assert.Contains(t, f.Source, "Weather: invented")
		}
		if f.Kind == advice.Reading {
			assert.NotContains(t, f.Source, "Weather: invented")
		}
	}
}

func TestFrostPutsTurningOff(t *testing.T) {
	for _, c := range []struct {
		airC float64
		want bool
	}{{8, false}, {-5, true}} {
		p := newPlot(t, commands.Under(climate{airC: c.airC, asOf: summer.AddDate(0, 0, 8)}))
		p.say(0, `heap start Bin container:"plastic bin" cover:lid`)
		p.say(0, "log add 8 barrows of grass clippings")
		p.say(24*4, "log temp 58")
		p.say(24*8, "log temp 47")
		jobs := p.jobsOf(24 * 8)
		assert.Equal(t, c.want, slices.Contains(jobs, "Bin "+advice.Rest), "%v", jobs)
		assert.Equal(t, !c.want, slices.Contains(jobs, "Bin "+advice.Turn), "%v", jobs)
	}
}
