package audit

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/duty"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
)

var (
	wren   = heap.Person{ID: "7", Name: "Wren"}
	odalys = heap.Person{ID: "8", Name: "Odalys"}
	tobias = heap.Person{ID: "9", Name: "Tobias"}
)

// lines write changes plainly.
func lines(changes []Change) []string {
	var all []string
	for _, c := range changes {
		line := string(c.What)
		if c.Of != "" {
			line += " " + c.Of
		}
		for _, p := range c.People {
			line += " " + p.Name
		}
		for _, p := range c.Was {
			line += " -" + p.Name
		}
		all = append(all, line+": "+string(c.From)+" > "+string(c.To))
	}
	return all
}

func TestGarden(t *testing.T) {
	zero := heap.Garden{}
	at := func(lat, lon float64) heap.Garden { return heap.Garden{Located: true, Lat: lat, Lon: lon} }
	sized := func(sizes map[string]float64) heap.Garden {
		return heap.Garden{Measures: measure.Measures{Sizes: sizes}}
	}
	for _, row := range []struct {
		name     string
		was, now heap.Garden
		want     []string
	}{
		{"nothing", zero, zero, nil},
		{"metric is what is not said", zero, heap.Garden{Measures: measure.Measures{System: measure.Metric}}, nil},
		{"units", zero, heap.Garden{Measures: measure.Measures{System: measure.US, Fahrenheit: true}},
			[]string{`units: {"system":"metric","fahrenheit":false} > {"system":"us","fahrenheit":true}`}},
		{"a first size, a new one, one that went", sized(map[string]float64{"bucket": 10, "sack": 50}), sized(map[string]float64{"bucket": 14, "barrow": 90}),
			[]string{"measure barrow:  > 90", "measure bucket: 10 > 14", "measure sack: 50 > "}},
		{"zone and language", heap.Garden{Zone: "UTC", Language: "de"}, heap.Garden{Zone: "Europe/London"},
			[]string{`zone: "UTC" > "Europe/London"`, `language: "de" > `}},
		{"no closer than a kilometre", at(51.7534, -1.2612), at(51.7588, -1.2612), []string{`place: {"lat":51.75,"lon":-1.26} > {"lat":51.76,"lon":-1.26}`}},
		{"a step within it", at(51.7534, -1.2612), at(51.7512, -1.2588), nil},
		{"a place at nought is one", zero, at(0, 0), []string{`place:  > {"lat":0,"lon":0}`}},
		{"who rules and who only reads", heap.Garden{Organisers: []heap.Person{wren}, ReadOnly: []heap.Person{tobias}}, heap.Garden{Organisers: []heap.Person{tobias}},
			[]string{"organiser Wren: true > ", "organiser Tobias:  > true", "readonly Tobias: true > "}},
	} {
		t.Run(row.name, func(t *testing.T) {
			changes, err := Garden(row.was, row.now)
			require.NoError(t, err)
			assert.Equal(t, row.want, lines(changes))
		})
	}
}

func TestPlan(t *testing.T) {
	usual := duty.Usual()
	with := func(change func(*duty.Plan)) duty.Plan {
		p := duty.Usual()
		p.Rota.Members = []duty.Member{{Person: wren}, {Person: odalys}, {Person: tobias}}
		change(&p)
		return p
	}
	plain := with(func(*duty.Plan) {})
	day := duty.Date{Year: 2026, Month: time.August, Day: 3}
	for _, row := range []struct {
		name     string
		was, now duty.Plan
		want     []string
	}{
		{"nothing", usual, usual, nil},
		{"the first hours", duty.Plan{}, usual, []string{"reminders: false > true", "days:  > 0", "hour:  > 1080", `quiet:  > {"from":1260,"to":480}`}},
		{"off keeps the hours", usual, duty.Plan{At: usual.At, Quiet: usual.Quiet}, []string{"reminders: true > false"}},
		{"days, kinds, a pause and a summary", usual, with(func(p *duty.Plan) {
			p.Rota, p.Days, p.Off, p.Paused, p.Weekly = duty.Rota{}, duty.Week(time.Saturday), []string{"cover"}, day, duty.Week(time.Sunday)
		}), []string{"days: 0 > 64", `pause:  > "2026-08-03"`, "weekly:  > 1", "kind cover: true > false"}},
		{"who takes turns", usual, plain, []string{"turns Wren:  > true", "turns Odalys:  > true", "turns Tobias:  > true"}},
		{"a new name is none", plain, with(func(p *duty.Plan) { p.Rota.Members[0].Name = "W." }), nil},
		{"what turns leave behind is none", plain, with(func(p *duty.Plan) { p.Rota.Members[0].Asked, p.Rota.Members[0].AskedOn = 2, day }), nil},
		{"one who leaves changes no order", plain, with(func(p *duty.Plan) { p.Rota.Members = p.Rota.Members[1:] }), []string{"turns Wren: true > "}},
		{"the order", plain, with(func(p *duty.Plan) { p.Rota.Members[0], p.Rota.Members[2] = p.Rota.Members[2], p.Rota.Members[0] }),
			[]string{"order Tobias Odalys Wren -Wren -Odalys -Tobias:  > "}},
		{"away", plain, with(func(p *duty.Plan) { p.Rota.Members[1].Away = []duty.Span{{From: day}} }), []string{`away Odalys:  > [{"from":"2026-08-03","to":""}]`}},
		{"a swap", plain, with(func(p *duty.Plan) { p.Rota.StandIns = []duty.StandIn{{For: wren, By: odalys}, {For: odalys, By: wren}} }),
			[]string{"swap Wren Odalys:  > true", "swap Odalys Wren:  > true"}},
		{"a swap taken back", with(func(p *duty.Plan) { p.Rota.StandIns = []duty.StandIn{{For: wren, By: odalys}} }), plain, []string{"swap Wren Odalys: true > "}},
		{"a swap of one who leaves", with(func(p *duty.Plan) { p.Rota.StandIns = []duty.StandIn{{For: wren, By: odalys}} }),
			with(func(p *duty.Plan) { p.Rota.Members = p.Rota.Members[1:] }), []string{"turns Wren: true > "}},
		{"lessons", with(func(p *duty.Plan) {
			p.Taught = []duty.Taught{{Heap: 3, Kind: "turn", Every: 5}, {Kind: "gather", Never: true}}
		}),
			with(func(p *duty.Plan) { p.Taught = []duty.Taught{{Heap: 3, Kind: "turn", Every: 8, Until: day, By: wren}} }),
			[]string{`lesson turn: {"every":5,"until":""} > {"every":8,"until":"2026-08-03"}`, `lesson gather: {"until":"","never":true} > `}},
		{"who taught it is no change", with(func(p *duty.Plan) { p.Taught = []duty.Taught{{Heap: 3, Kind: "turn", Every: 5, By: wren}} }),
			with(func(p *duty.Plan) { p.Taught = []duty.Taught{{Heap: 3, Kind: "turn", Every: 5, By: tobias}} }), nil},
	} {
		t.Run(row.name, func(t *testing.T) {
			changes, err := Plan(row.was, row.now)
			require.NoError(t, err)
			assert.Equal(t, row.want, lines(changes))
		})
	}
}

func TestStockAndMaterial(t *testing.T) {
	for _, row := range []struct {
		was, now float64
		want     []string
	}{
		{0, 120, []string{"stock straw:  > 120"}}, {120, 60, []string{"stock straw: 120 > 60"}}, {60, 0, []string{"stock straw: 60 > "}}, {60, 60, nil},
	} {
		changes, err := OnHandOf(heap.Stock{VolumeL: row.was, Said: "a bale"}, heap.Stock{Material: "straw", VolumeL: row.now})
		require.NoError(t, err)
		assert.Equal(t, row.want, lines(changes))
	}
	was, err := feedstock.FromLab("mill dust", feedstock.Lab{CN: 45, Density: 180})
	require.NoError(t, err)
	changes, err := Material(was, was.WithDensity(200, "group"))
	require.NoError(t, err)
	require.Len(t, changes, 1)
	assert.Equal(t, BulkWeight, changes[0].What)
	to, err := Read[measure.Range](changes[0].To)
	require.NoError(t, err)
	assert.Equal(t, 200.0, to.Typical)
	changes, err = Material(feedstock.Feedstock{}, was)
	require.NoError(t, err)
	assert.Len(t, changes, 4, "all figures of a new one")
}

func TestReadSaysWhatIsNoValue(t *testing.T) {
	_, err := Read[float64]([]byte(`"14"`))
	assert.Error(t, err)
	none, err := Read[duty.Date](nil)
	require.NoError(t, err)
	assert.True(t, none.IsZero())
}
