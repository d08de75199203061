package spread

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/measure"
)

var began = time.Date(2026, 4, 1, 9, 0, 0, 0, time.UTC)

// grown is a heap of 1,000 loose litres of materials after some days.
func grown(days int, more []heap.Payload, materials ...string) heap.State {
	entries := []heap.Entry{}
	for i, id := range materials {
		entries = append(entries, heap.Entry{ID: heap.EntryID(i + 1), At: began,
			Payload: heap.Added{Material: id, Name: strings.ReplaceAll(id, "-", " "), VolumeL: 1000 / float64(len(materials)), MassKg: 100}})
	}
	now := began.AddDate(0, 0, days)
	for _, p := range more {
		entries = append(entries, heap.Entry{ID: heap.EntryID(len(entries) + 1), At: now, Payload: p})
	}
	return heap.Read(heap.Heap{Name: "North Bay", Container: heap.PalletBay, SizeL: 1000, Started: began}, entries, now)
}

func TestYieldByPublishedShrinking(t *testing.T) {
	for _, tt := range []struct {
		name          string
		state         heap.State
		stage         maturity.Stage
		now, low, top float64
	}{
		// Better Ground 30 to 50 % lost, Embrapa 65 %: 350 to 700 of 1,000 litres.
		{"fresh", grown(0, nil, "straw"), maturity.Filling, 1000, 350, 700},
		{"after a month", grown(30, nil, "straw"), maturity.Cooling, 500, 350, 500}, // City of Ramsey: about half
		{"after 90 days", grown(90, nil, "straw"), maturity.Curing, 350, 350, 350},
		{"measured", grown(30, []heap.Payload{heap.Height{Cm: 80}}, "straw"), maturity.Cooling, 800, 560, 800},
		{"ready", grown(30, nil, "straw"), maturity.Ready, 500, 500, 500},
		{"only a height", grown(30, []heap.Payload{heap.Height{Cm: 80}}), maturity.Filling, 800, 280, 800},
		{"nothing", grown(30, nil), maturity.Filling, 0, 0, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			y := Of(tt.state, tt.stage)
			assert.InDelta(t, tt.now, y.NowL, 1e-9)
			assert.InDelta(t, tt.low, y.ReadyLow, 1e-9)
			assert.InDelta(t, tt.top, y.ReadyTop, 1e-9)
			assert.Equal(t, tt.stage == maturity.Ready, y.Done)
		})
	}
}

func TestNoHeapGrows(t *testing.T) {
	for days := range 400 {
		y := Of(grown(days, nil, "straw", "grass-clippings"), maturity.Cooling)
		assert.LessOrEqual(t, y.ReadyLow, y.ReadyTop)
		assert.LessOrEqual(t, y.ReadyTop, y.NowL)
	}
}

func TestEveryCropAsksForAUseThatIsJudged(t *testing.T) {
	judged := map[string]bool{}
	for _, u := range maturity.Assess(grown(30, nil, "straw"), measure.Measures{}).Uses {
		judged[u.Name] = true
	}
	for _, c := range Crops() {
		assert.True(t, judged[c.Use], "%s: %s", c.Name, c.Use)
		assert.True(t, c.LowCm <= c.DepthCm && c.DepthCm <= c.TopCm && c.TopCm <= c.MostCm, c.Name)
		assert.False(t, c.TooThick(c.TopCm))
		got, ok := CropNamed(c.Name)
		assert.True(t, ok)
		assert.Equal(t, c, got)
	}
}

func TestCautionsFitTheSituation(t *testing.T) {
	ripe := []heap.Payload{heap.Test{Test: "radish", Passed: true, Result: "passed"}}
	assert.Equal(t, []string{forMulch}, Cautions(Use{Crop: crops[0], Rough: true}))
	for _, tt := range []struct {
		name  string
		crop  string
		state *heap.State // nil: from elsewhere
		says  []string
	}{
		{"beds from elsewhere", Beds, nil, nil},
		{"vegetables from elsewhere", Vegetables, nil, []string{"120 days before harvest"}},
		{"seedlings from elsewhere", Seedlings, nil, []string{"ripest compost"}},
		{"acid lovers from elsewhere", AcidLovers, nil, []string{"wood ash or lime"}},
		{"trees from elsewhere", Trees, nil, nil},
		{"unfinished heap on beds", Beds, at(grown(20, nil, "grass-clippings")), []string{"Not shown to be ready for planting and vegetable beds"}},
		{"ripe heap on beds", Beds, at(grown(400, ripe, "grass-clippings")), nil},
		{"ripe heap with straw", Beds, at(grown(400, ripe, "grass-clippings", "straw-general")), []string{"pea test"}},
		{"bean straw and strawberries are not straw", Beds, at(grown(400, ripe, "bean-residue", "strawberry-plants")), nil},
		{"ripe heap with manure", Vegetables, at(grown(400, ripe, "manure-horse")), []string{"120 days", "pea test"}},
		{"unripe heap with manure", Vegetables, at(grown(20, nil, "manure-horse")), []string{"120 days", "Not shown to be ready"}},
		{"ash in it for acid lovers", AcidLovers, at(grown(400, ripe, "grass-clippings", "wood-ash")), []string{"There is wood ash in it"}},
		{"straw under trees", Trees, at(grown(400, ripe, "straw-general")), nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			crop, ok := CropNamed(tt.crop)
			assert.True(t, ok)
			u := Use{Crop: crop, Heap: tt.state}
			if tt.state != nil {
				u.Stage = maturity.Assess(*tt.state, measure.Measures{})
			}
			got := Cautions(u)
			assert.Len(t, got, len(tt.says), "%q", got)
			for i := range min(len(got), len(tt.says)) {
				assert.Contains(t, got[i], tt.says[i])
				assert.NotRegexp(t, `(?i)\bsafe`, got[i])
			}
		})
	}
}

func at(s heap.State) *heap.State { return &s }
