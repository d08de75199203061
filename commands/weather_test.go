package commands_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/process"
	"heapside/commands"
)

// climate is invented weather: every hour alike, but for what a test changes.
type climate struct {
	airC     float64
	rainMm   func(t time.Time) float64 // nil: none
	missing  func(t time.Time) bool    // nil: every hour is told
	rainless bool                      // nobody told of the rain
	note     string
	asOf     time.Time
}

func (c climate) Hour(t time.Time) (process.Hour, bool) {
	h := process.Hour{AirC: c.airC, RH: 0.7, ET0Mm: 0.1, WindMS: 1.5}
	if c.rainMm != nil {
		h.RainMm = c.rainMm(t.Truncate(time.Hour))
	}
	return h, c.missing == nil || !c.missing(t)
}

func (c climate) rain(t time.Time) (float64, bool) {
	h, told := c.Hour(t)
	return h.RainMm, told && !c.rainless
}

func (c climate) Sky(_ context.Context, _, _ float64, zone *time.Location, since, until time.Time) commands.Sky {
	sky := commands.Sky{Hours: c, Rain: c.rain, AsOf: c.asOf, Note: c.note, Credits: []string{"Weather: invented (https://weather.example/)"}}
	y, m, d := since.In(zone).Date()
	for n := 0; ; n++ {
		day := commands.SkyDay{Start: time.Date(y, m, d+n, 0, 0, 0, 0, zone), RainMm: -1, MeanC: c.airC, MinC: c.airC, Told: true}
		if !day.Start.Before(until) {
			return sky
		}
		for h := range 24 {
			if mm, told := c.rain(day.Start.Add(time.Duration(h) * time.Hour)); told {
				day.RainMm = max(0, day.RainMm) + mm
			}
		}
		day.Ahead = day.Start.AddDate(0, 0, 1).After(c.asOf)
		sky.Days = append(sky.Days, day)
	}
}

func (climate) Places(context.Context, string) ([]commands.Spot, error) { return nil, nil }

// plot is a garden with a place, in which lines are said at times.
type plot struct {
	t    *testing.T
	a    *commands.Assistant
	call commands.Call
}

func newPlot(t *testing.T, settings ...commands.Setting) *plot {
	t.Helper()
	p := &plot{t, assistant(t, settings...), commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer}}
	p.say(0, "garden place 51.75, -1.26")
	return p
}

// try says a line some hours after the beginning; say wants it to be answered.
func (p *plot) try(hours float64, line string) commands.Reply {
	p.call.Now = summer.Add(time.Duration(hours * float64(time.Hour)))
	return p.a.Line(context.Background(), p.call, line)
}

func (p *plot) say(hours float64, line string) commands.Reply {
	p.t.Helper()
	r := p.try(hours, line)
	require.Nil(p.t, r.Err, "%s: %+v", line, r.Err)
	return r
}

// dryBay starts a bay of dry leaves and straw, which wants water.
func (p *plot) dryBay() {
	p.say(0, `heap start Bay container:"pallet bay" size:"1 m3"`)
	p.say(0, "log add 6 barrows of dry leaves, 1 barrow of straw and 2 barrows of grass clippings")
}

// sensible holds that an outlook has numbers in order and in range for each day
// from tomorrow on: before noon one of its days is today.
func (p *plot) sensible(r commands.Reply) {
	p.t.Helper()
	require.Nil(p.t, r.Err)
	for n := 1; n < process.OutlookDays; n++ {
		for _, name := range []string{"temp.day.%d", "moisture.day.%d"} {
			name = fmt.Sprintf(name, n)
			low, mid, high := number(r, name+".low"), number(r, name), number(r, name+".high")
			require.True(p.t, low <= mid && mid <= high, "%s: %v, %v, %v", name, low, mid, high)
			require.True(p.t, low > -60 && high < 110, "%s: %v to %v", name, low, high)
		}
	}
}

// number is a value of a reply; NaN when it has none of that name.
func number(r commands.Reply, name string) float64 {
	v, ok := r.Values[name].Value.(float64)
	if !ok {
		return math.NaN()
	}
	return v
}

// lineWith is the first line of a reply that holds some words.
func lineWith(r commands.Reply, words string) string {
	for _, line := range strings.Split(show(r), "\n") {
		if strings.Contains(line, words) {
			return line
		}
	}
	return ""
}

// TestWhatForecastRainDoes holds that the outlook weighs rain to come against
// the can, by how much of it gets in.
func TestWhatForecastRainDoes(t *testing.T) {
	notUnderRace(t)
	ahead := func(from, to int, mm float64) func(time.Time) float64 {
		return func(at time.Time) float64 {
			if h := int(at.Sub(summer.Truncate(time.Hour)) / time.Hour); h >= 48+from && h < 48+to {
				return mm
			}
			return 0
		}
	}
	for _, row := range []struct {
		name string
		over climate
		also string // said before the outlook
		want []string
		not  string
	}{
		{"none to come", climate{}, "", []string{"No rain worth waiting for is expected within three days."}, "let in"},
		{"some", climate{rainMm: ahead(10, 20, 0.8)}, "", []string{"The 8 mm of rain", "let in about", "too little to wait for"}, "cover off"},
		{"a downpour", climate{rainMm: ahead(10, 20, 60)}, "", []string{"The 600 mm of rain", "enough, so wait for it"}, "cover off"},
		{"under a sheet", climate{rainMm: ahead(10, 20, 6)}, "log cover tarp", []string{"The 60 mm of rain", "With the cover off it would be about"}, ""},
		{"after three days", climate{rainMm: ahead(80, 90, 6)}, "", []string{"No rain worth waiting for"}, "let in"},
		{"fallen already", climate{rainMm: ahead(-12, 0, 0.5)}, "", []string{"No rain worth waiting for"}, "let in"},
		{"rain nobody told of", climate{rainless: true}, "", []string{"None needed|would bring it to 58 %"}, "rain"},
	} {
		t.Run(row.name, func(t *testing.T) {
			row.over.airC, row.over.asOf = 18, summer
			p := newPlot(t, commands.Under(row.over))
			p.dryBay()
			if row.also != "" {
				p.say(0, row.also)
			}
			r := p.say(48, "outlook")
			require.Greater(t, number(r, "dry"), 0.5, "the heap wants water in this test")
			said := lineWith(r, "rain")
			for _, want := range row.want {
				assert.Regexp(t, want, show(r))
			}
			if row.not != "" {
				assert.NotContains(t, said, row.not)
			}
		})
	}
}

// TestOutlookNamesItsWeather holds that whose weather it is, how old it is, and
// what is wrong with it is said.
func TestOutlookNamesItsWeather(t *testing.T) {
	over := climate{airC: 15, asOf: summer.Add(-20 * time.Hour), note: "No newer weather: the service did not answer in time."}
	p := newPlot(t, commands.Under(over))
	p.dryBay()
	r := p.say(1, "outlook")
	assert.Contains(t, r.Basis, "Weather: invented (https://weather.example/)")
	assert.Contains(t, show(r), "Weather as of yesterday 22:20.")
	assert.Contains(t, show(r), "No newer weather: the service did not answer in time.")
	assert.NotContains(t, show(r), "a plain climate stands in")
}

// TestNoWeather holds that without a service, without a place and without an
// answer there is still an outlook, wider, that says so.
func TestNoWeather(t *testing.T) {
	// The sum over the fortnight: on one day the members may happen to agree.
	band := func(r commands.Reply) (wide float64) {
		for n := 1; n <= 14; n++ {
			wide += number(r, fmt.Sprintf("temp.day.%d.high", n)) - number(r, fmt.Sprintf("temp.day.%d.low", n))
		}
		return wide
	}
	told := newPlot(t, commands.Under(climate{airC: 18, asOf: summer}))
	told.dryBay()
	known := told.say(24, "outlook")
	told.sensible(known)
	for _, row := range []struct {
		name     string
		settings []commands.Setting
		place    bool
		want     string
	}{
		{"no service", nil, true, "No weather service is asked here."},
		{"no place", []commands.Setting{commands.Under(climate{airC: 18, asOf: summer})}, false, "No place is set for the garden (garden place), so no weather is known."},
		{"no answer", []commands.Setting{commands.Under(&sky{})}, true, "It is only a test."},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := &plot{t, assistant(t, row.settings...), commands.Call{Place: millrace, By: person("Wren"), Organiser: true, Now: summer}}
			if row.place {
				p.say(0, "garden place 51.75, -1.26")
			}
			p.dryBay()
			r := p.say(24, "outlook")
			p.sensible(r)
			assert.Contains(t, show(r), row.want)
			assert.Contains(t, show(r), "100 % of the days ahead) a plain climate stands in, with wider bands")
			assert.NotContains(t, show(r), "Weather as of")
			assert.Greater(t, band(r), band(known))
		})
	}
}

// TestGaugeOverridesTheSky holds that rain in the garden's own gauge stands
// against what a service said: in the model, and on the chart.
func TestGaugeOverridesTheSky(t *testing.T) {
	over := climate{airC: 12, asOf: summer.Add(72 * time.Hour)} // the services saw no rain
	moisture := func(lines ...string) (float64, string) {
		p := newPlot(t, commands.Under(over))
		p.dryBay()
		for _, line := range lines {
			p.say(72, line)
		}
		files := p.say(73, "history").Files
		require.Len(t, files, 1)
		return number(p.say(73, "outlook"), "moisture.now"), files[0].Alt
	}
	dry, dryAlt := moisture()
	wet, wetAlt := moisture("log rain 60 mm")
	assert.Greater(t, wet, dry+2)
	assert.NotEqual(t, dryAlt, wetAlt)
	assert.Contains(t, wetAlt, "60 mm")
}

// TestOddRecords asks of records that no tidy garden has.
func TestOddRecords(t *testing.T) {
	notUnderRace(t)
	type step struct {
		at   float64 // hours
		line string
	}
	year := 365 * 24.0
	for _, row := range []struct {
		name  string
		over  climate
		place string
		start string
		steps []step
		ask   float64
		drawn bool // ask the slow questions too
	}{
		{"at the north pole", climate{airC: -20}, "90, 0", "heap start Bay", nil, 24, true},
		{"at the south pole", climate{airC: -50}, "-90, 180", "heap start Bay", nil, 24, false},
		{"on the date line", climate{airC: 25}, "-17.8, -180", "heap start Bay", nil, 24, false},
		{"weather with gaps", climate{airC: 15, missing: func(t time.Time) bool { return t.Hour()%3 == 1 || t.Day()%4 == 0 }}, "", "heap start Bay", nil, 200, true},
		{"a year without entries", climate{airC: 12}, "", "heap start Bay", nil, year, false},
		{"a year without entries, then a reading", climate{airC: 12}, "", "heap start Bay", []step{{year - 1, "log temp 14"}}, year, true},
		{"a heap with no size", climate{airC: 15}, "", "heap start Bay container:tumbler", []step{{10, "log temp 40"}}, 24, false},
		{"readings out of order", climate{airC: 15}, "", "heap start Bay", []step{
			{70, "log temp 58"}, {71, `log temp 45 when:"yesterday 18:00"`}, {72, `log temp 30 when:"2 days ago"`}}, 74, false},
		{"readings twice", climate{airC: 15}, "", "heap start Bay", []step{
			{48, "log temp 55"}, {48, "log temp 55"}, {48.1, "log temp 55 depth:40cm"}, {48.2, "log feel holds"}, {48.2, "log feel holds"}}, 49, false},
		{"readings that fight", climate{airC: 15}, "", "heap start Bay", []step{
			{48, "log temp 70"}, {48, "log temp 2"}, {49, "log temp 95"}, {50, "log temp 0"}}, 51, false},
		{"two turns in a minute", climate{airC: 15}, "", "heap start Bay", []step{{48, "log turn"}, {48 + 0.5/60, "log turn"}}, 49, false},
		{"all of it moved on", climate{airC: 15}, "", "heap start Bay", []step{
			{48, "heap start Other"}, {48, "log move to:Other heap:Bay"}, {50, "log add 3 barrows of grass clippings heap:Bay"}}, 60, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			row.over.asOf = summer
			p := newPlot(t, commands.Under(row.over))
			if row.place != "" {
				p.say(0, "garden place "+row.place)
			}
			p.say(0, row.start)
			p.say(0, "log add 3 barrows of grass clippings and 4 barrows of dry leaves")
			for _, s := range row.steps {
				p.say(s.at, s.line)
			}
			r := p.say(row.ask, "outlook heap:Bay")
			p.sensible(r)
			assert.NotContains(t, show(r), "NaN")
			assert.NotContains(t, show(p.say(row.ask, "next heap:Bay")), "NaN")
			if row.drawn {
				assert.NotContains(t, show(p.say(row.ask, "ready heap:Bay")), "NaN")
				require.Len(t, p.say(row.ask, "history heap:Bay").Files, 1)
			}
		})
	}
}

// TestTwiceSaidIsOnceMeant holds that what was logged twice moves the model no
// more than once.
func TestTwiceSaidIsOnceMeant(t *testing.T) {
	for _, row := range []struct{ name, line string }{{"a reading", "log temp 55 depth:40cm"}, {"a turning", "log turn"}} {
		t.Run(row.name, func(t *testing.T) {
			outlook := func(times int) string {
				p := newPlot(t, commands.Under(climate{airC: 15, asOf: summer}))
				p.dryBay()
				for i := range times {
					p.say(48+float64(i)/120, row.line)
				}
				return p.say(60, "outlook").Headline
			}
			assert.Equal(t, outlook(1), outlook(2))
		})
	}
}

// TestImpossibleReadings holds that they are refused with what was typed.
func TestImpossibleReadings(t *testing.T) {
	p := newPlot(t)
	p.dryBay()
	for _, said := range []string{"580", "-60", "NaN", "1e9", "hot"} {
		r := p.try(24, "log temp "+said)
		require.NotNil(t, r.Err, said)
		assert.Contains(t, r.Err.Message, said)
	}
	p.sensible(p.say(24, "outlook"))
}

// counted counts how often the weather is asked for.
type counted struct {
	climate
	asked *int
}

func (c counted) Sky(ctx context.Context, lat, lon float64, zone *time.Location, since, until time.Time) commands.Sky {
	*c.asked++
	return c.climate.Sky(ctx, lat, lon, zone, since, until)
}

func TestNextAsksForTheWeatherOnce(t *testing.T) {
	asked := 0
	p := newPlot(t, commands.Under(counted{climate{airC: 15}, &asked}))
	p.dryBay()
	p.say(0, `heap start Bin container:"plastic bin" size:"300 l"`)
	asked = 0
	p.say(24, "next")
	assert.Equal(t, 1, asked)
}
