package weather

import (
	"math"
	"math/rand/v2"
	"path/filepath"
	"testing"

	"heapside/storage"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPackLosesNothing(t *testing.T) {
	met, err := metNorway{testWire(MetNorway)}.decode(read(t, "met-norway-constructed.json"), at(0), at(48))
	require.NoError(t, err)
	open, err := openMeteo{testWire(OpenMeteo)}.decode(read(t, "open-meteo-constructed.json"), at(0), at(48), noon)
	require.NoError(t, err)
	us, err := (&nws{wire: testWire(NWS)}).decode(recorded(t, noon), at(0), at(240))
	require.NoError(t, err)
	odd := said(NWS, 3, Hour{At: at(2), AirC: new(math.Pi), RH: new(1e-300), RainMm: new(-1e300), WindMS: new(214748.3648)})
	for _, r := range []Report{met, open, us, odd, {Service: NWS}} {
		r.Place, r.FetchedAt, r.Expires, r.LastModified = ghent, noon, at(15), "Tue, 24 Nov 2026 11:31:08 GMT"
		data, err := pack(r)
		require.NoError(t, err)
		got, err := unpack(data)
		require.NoError(t, err)
		assert.Equal(t, r, got)
	}
}

func TestUnpackRefuses(t *testing.T) {
	good, err := pack(said(OpenMeteo, 12, rained(9, 1), rained(10, math.Pi)))
	require.NoError(t, err)
	longer := func(more ...byte) []byte { return append(append([]byte{}, good...), more...) }
	for _, row := range []struct {
		name string
		data []byte
	}{
		{"nothing", nil},
		{"another version", append([]byte{99}, good[1:]...)},
		{"cut off in the head", good[:20]},
		{"cut off in a value", good[:len(good)-1]},
		{"cut off after a time", longer(2)},
		{"a huge number of hours", longer(0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0x7f, 0)},
		{"a value that is no number", longer(2, 1, 2, 1, 0, 0, 0, 0, 0, 0xf8, 0x7f)},
		{"text", []byte("what is this, a letter?")},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := unpack(row.data)
			assert.ErrorIs(t, err, errPacked)
		})
	}
}

func TestDamagedRecord(t *testing.T) {
	db, err := storage.Open(t.Context(), filepath.Join(t.TempDir(), "record.db"))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	require.NoError(t, db.AppendReport(t.Context(), storage.Report{
		Service: OpenMeteo, Lat: ghent.Lat, Lon: ghent.Lon, Fetched: noon.Add(-day), Since: at(-48), Until: at(48), Data: []byte("moth"),
	}))
	w := newWorld(t, only(OpenMeteo))
	w.cache = Kept{db}
	for range 3 {
		r := w.Weather(t.Context(), about(ghent, 9*day, day))
		assert.True(t, r.Known)
		assert.Empty(t, r.Reason)
	}
	assert.Equal(t, 1, w.count(OpenMeteo), "what cannot be read is not asked for on every question")
}

func FuzzUnpack(f *testing.F) {
	good, err := pack(said(OpenMeteo, 12, rained(9, math.Pi), Hour{At: at(10), AirC: new(-3.0), RH: new(0.5)}))
	require.NoError(f, err)
	f.Add(good)
	f.Add([]byte{packVersion, 2, '{', '}', 2, 63, 2, 2, 2, 2, 2})
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := unpack(data)
		if err != nil {
			return
		}
		again, err := pack(r)
		if err != nil {
			return // a head may hold a year that JSON cannot write
		}
		back, err := unpack(again)
		require.NoError(t, err)
		require.Equal(t, r.Hours, back.Hours)
	})
}

// BenchmarkUnpackSeason unpacks 720 reports of values as services give them.
func BenchmarkUnpackSeason(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 2))
	var packed [][]byte
	size := 0
	for _, report := range season() {
		for i := range report.Hours {
			h := &report.Hours[i]
			h.AirC, h.WindMS = new(math.Round(150*r.Float64())/10), new(math.Round(1000*r.Float64())/100)
			h.RH = new(math.Round(100*r.Float64()) * 0.01)
		}
		data, err := pack(report)
		require.NoError(b, err)
		packed = append(packed, data)
		size += len(data)
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, data := range packed {
			if _, err := unpack(data); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportMetric(float64(size)/float64(len(packed)), "bytes/report")
}
