package commands_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/commands"
)

// TestOutlookIsHeldAgainstReadings asks for an outlook, then logs what came.
func TestOutlookIsHeldAgainstReadings(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer}
	say := func(after time.Duration, line string) commands.Reply {
		call.Now = summer.Add(after)
		return a.Line(context.Background(), call, line)
	}
	const day = 24 * time.Hour
	for _, line := range []string{
		`heap start North Bay container:"pallet bay" size:"1 m3"`,
		`log add 3 barrows of grass clippings, 6 barrows of dry leaves and 1 barrow of horse manure`,
	} {
		require.Nil(t, say(0, line).Err, line)
	}
	for i, c := range []int{30, 52, 61, 63, 60} {
		require.Nil(t, say(time.Duration(i+1)*day, fmt.Sprintf("log temp %d depth:40cm", c)).Err)
	}

	first := say(5*day, "outlook")
	require.Nil(t, first.Err, first.Headline)
	assert.Equal(t, first.Headline, say(5*day, "outlook").Headline, "the same record gives the same answer")
	v := first.Values
	for n := 1; n <= 14; n++ {
		low, mid, high := v[fmt.Sprintf("temp.day.%d.low", n)].Value.(float64), v[fmt.Sprintf("temp.day.%d", n)].Value.(float64), v[fmt.Sprintf("temp.day.%d.high", n)].Value.(float64)
		assert.LessOrEqual(t, low, mid)
		assert.LessOrEqual(t, mid, high)
	}
	assert.Contains(t, show(first), "No earlier outlook has met its reading yet.")

	mid := v["temp.day.3"].Value.(float64)
	held := say(8*day-6*time.Hour, fmt.Sprintf("log temp %.0f depth:40cm", mid))
	require.Nil(t, held.Err)
	assert.Contains(t, show(held), "it held")
	missed := say(10*day-6*time.Hour, "log temp 5 depth:40cm")
	assert.Contains(t, show(missed), "it missed")
	assert.NotContains(t, show(say(10*day, "log temp 14 spot:air")), "outlook", "the air was not foretold")

	later := show(say(10*day, "outlook"))
	assert.Regexp(t, `Of \d+ earlier outlooks, \d+ held|one earlier outlook`, later)
	require.Nil(t, say(10*day, "undo 9").Err)
	assert.NotEqual(t, later, show(say(10*day, "outlook")), "a reading taken back is unlearned")
}

// TestOutlookCountsDaysFromToday: what it says of three days ahead is of that
// day, before noon as after.
func TestOutlookCountsDaysFromToday(t *testing.T) {
	notUnderRace(t)
	for _, hour := range []int{5, 11, 12, 23} {
		a := assistant(t)
		now := time.Date(2026, time.June, 20, hour, 30, 0, 0, time.UTC)
		call := commands.Call{Place: millrace, By: person("Wren"), Now: now}
		for _, line := range []string{"heap start North Bay", `log add 3 barrows of grass clippings and 6 barrows of dry leaves when:"6 days ago"`} {
			require.Nil(t, a.Line(context.Background(), call, line).Err, line)
		}
		r := a.Line(context.Background(), call, "outlook")
		said := show(r)
		for _, days := range []int{1, 3, 7} {
			assert.Contains(t, said, now.AddDate(0, 0, days).Format("Mon 2 Jan")+": ", "at %d:30", hour)
		}
		third := fmt.Sprintf("%.0f °C in 3 days", r.Values["temp.day.3"].Value)
		assert.Contains(t, r.Headline, third)
		assert.Contains(t, said, fmt.Sprintf("%s: %.0f °C, likely", now.AddDate(0, 0, 3).Format("Mon 2 Jan"), r.Values["temp.day.3"].Value))
	}
}

func TestOutlookOfNothing(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	require.Nil(t, a.Line(context.Background(), call, "heap start North Bay").Err)
	r := a.Line(context.Background(), call, "outlook")
	require.NotNil(t, r.Err)
	assert.Equal(t, fault.Missing, r.Err.Code)
	require.Nil(t, a.Line(context.Background(), call, "next").Err, "next does without a model")
	require.Nil(t, a.Line(context.Background(), call, "ready").Err)
}

// sky is rainless weather that counts how often it was asked.
type sky struct{ asked int }

func (s *sky) Sky(_ context.Context, _, _ float64, _ *time.Location, _, _ time.Time) commands.Sky {
	s.asked++
	return commands.Sky{Note: "It is only a test.", Credits: []string{"Weather by nobody"}}
}

func (s *sky) Places(_ context.Context, name string) ([]commands.Spot, error) {
	spots := []commands.Spot{{Name: "Milford, Here", Lat: 51.17, Lon: -0.65, Zone: "Europe/London"}, {Name: "Milford, There", Lat: 43.75, Lon: -71.6, Zone: "America/New_York"}}
	if name == "Ghent" {
		spots = []commands.Spot{{Name: "Ghent, Belgium", Lat: 51.05, Lon: 3.72, Zone: "Europe/Brussels"}}
	}
	return spots, nil
}

func TestPlaceByName(t *testing.T) {
	over := &sky{}
	a := assistant(t, commands.Under(over))
	call := commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer}
	which := a.Line(context.Background(), call, "garden place Milford")
	require.Nil(t, which.Err)
	require.Len(t, which.Actions, 2, "several places of a name are a choice")
	require.Nil(t, a.Line(context.Background(), call, which.Actions[0].Line).Err)
	assert.Contains(t, show(a.Line(context.Background(), call, "garden show")), "51.17, -0.65")

	r := a.Line(context.Background(), call, "garden place Ghent")
	assert.Contains(t, r.Headline, "Ghent, Belgium (51.05, 3.72), time zone Europe/Brussels")

	for _, line := range []string{"heap start Bay", "log add 2 barrows of grass and 3 barrows of leaves"} {
		require.Nil(t, a.Line(context.Background(), call, line).Err)
	}
	assert.Zero(t, over.asked, "logging asks no service")
	out := a.Line(context.Background(), call, "outlook")
	assert.Contains(t, show(out), "It is only a test.")
	assert.Contains(t, out.Basis, "Weather by nobody")
}

// TestHistoryDrawsOneHeap holds that one heap's history comes with its chart.
func TestHistoryDrawsOneHeap(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: person("Wren"), Now: summer}
	require.Nil(t, a.Line(context.Background(), call, "heap start Bay").Err)
	require.Empty(t, a.Line(context.Background(), call, "history").Files, "nothing to draw yet")
	require.Nil(t, a.Line(context.Background(), call, "log temp 55").Err)
	files := a.Line(context.Background(), call, "history").Files
	require.Len(t, files, 1)
	assert.Equal(t, "image/png", files[0].ContentType)
	assert.Equal(t, "\x89PNG", string(files[0].Data[:4]))
	assert.Contains(t, files[0].Alt, "Bay")
	assert.NotEmpty(t, files[0].Text)
}

// TestOneVolumeOfAHeap: what a heap holds now is the same wherever it is asked.
func TestOneVolumeOfAHeap(t *testing.T) {
	a := assistant(t)
	call := commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer}
	volume := func(after time.Duration, line, name string) float64 {
		call.Now = summer.Add(after)
		r := a.Line(context.Background(), call, line)
		require.Nil(t, r.Err, r.Headline)
		return r.Values[name].Value.(float64)
	}
	for _, line := range []string{
		`heap start North Bay container:"pallet bay" size:"1.5 m3"`,
		"log add 20 buckets of dry leaves and 15 buckets of grass clippings",
	} {
		require.Nil(t, a.Line(context.Background(), call, line).Err)
	}
	const tenDays = 10 * 24 * time.Hour
	assert.Equal(t, volume(tenDays, "heap show", "volume"), volume(tenDays, "outlook", "volume.now"))
}
