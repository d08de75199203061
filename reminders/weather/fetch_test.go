package weather

import (
	"context"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWhatIsFreshIsNotAskedAgain(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	w.Weather(t.Context(), about(ghent, day, day))
	w.Weather(t.Context(), about(Place{51.0512, 3.7155}, day, day))
	assert.Equal(t, 1, w.count(OpenMeteo), "two gardens in one cell share it")
	w.Weather(t.Context(), about(portland, day, day))
	assert.Equal(t, 2, w.count(OpenMeteo), "another place")
	w.advance(time.Minute)
	w.Weather(t.Context(), about(ghent, 30*day, day))
	assert.Equal(t, 3, w.count(OpenMeteo), "days that were never asked for")
	w.Weather(t.Context(), about(ghent, 30*day, day))
	assert.Equal(t, 3, w.count(OpenMeteo))
	w.advance(leastFresh + 16*time.Minute)
	w.Weather(t.Context(), about(ghent, 30*day, day))
	assert.Equal(t, 4, w.count(OpenMeteo), "out of date")
	assert.Equal(t, "2", w.seen[3].URL.Query().Get("past_days"), "only the newest days again")
}

func TestTheExpiryOfTheServiceIsKept(t *testing.T) {
	w := newWorld(t, only(MetNorway))
	plain := w.reply[MetNorway]
	w.reply[MetNorway] = func(rw http.ResponseWriter, r *http.Request) {
		rw.Header().Set("Cache-Control", "private, max-age=36000")
		plain(rw, r)
	}
	w.Weather(t.Context(), about(ghent, 0, day))
	last, ok, err := w.kept.Latest(t.Context(), MetNorway, ghent)
	require.NoError(t, err)
	require.True(t, ok)
	assert.False(t, last.Expires.Before(noon.Add(10*time.Hour+time.Minute)), "%s", last.Expires)
	assert.False(t, last.Expires.After(noon.Add(10*time.Hour+16*time.Minute)))
	w.advance(10 * time.Hour)
	w.Weather(t.Context(), about(ghent, 0, day))
	assert.Equal(t, 1, w.count(MetNorway))
}

func TestHoldsIsNeverOnTheHourAndDiffersByPlace(t *testing.T) {
	minutes := map[int]bool{}
	for i := range 200 {
		at := holds(Report{Service: MetNorway, Place: Place{float64(i) / 100, 3}, FetchedAt: noon})
		require.NotZero(t, at.Minute())
		minutes[at.Minute()] = true
	}
	assert.Greater(t, len(minutes), 10)
}

func TestNothingChanged(t *testing.T) {
	w := newWorld(t, only(MetNorway))
	first := w.Weather(t.Context(), about(ghent, 0, day))
	w.advance(4 * time.Hour)
	w.reply[MetNorway] = func(rw http.ResponseWriter, r *http.Request) {
		assert.Equal(t, "Tue, 24 Nov 2026 11:31:08 GMT", r.Header.Get("If-Modified-Since"), "exactly as it was given")
		rw.WriteHeader(http.StatusNotModified)
	}
	second := w.Weather(t.Context(), about(ghent, 0, day))
	assert.Equal(t, first.Hours, second.Hours)
	assert.Equal(t, w.now(), second.AsOf, "it still held when it was asked for again")
	assert.Len(t, w.kept.reports, 2, "both are kept")
	w.advance(time.Hour)
	w.Weather(t.Context(), about(ghent, 0, day))
	assert.Equal(t, 2, w.count(MetNorway))
}

func TestNothingChangedOfNothing(t *testing.T) {
	w := newWorld(t, only(MetNorway))
	w.reply[MetNorway] = fail(http.StatusNotModified, "", "")
	r := w.Weather(t.Context(), about(ghent, 0, day))
	assert.False(t, r.Known)
	assert.Contains(t, r.Reason, "cannot be read")
}

func TestTogetherTheyAskOnce(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	good, arrived, release := w.reply[OpenMeteo], make(chan struct{}, 1), make(chan struct{})
	w.reply[OpenMeteo] = func(rw http.ResponseWriter, r *http.Request) {
		arrived <- struct{}{}
		<-release
		good(rw, r)
	}
	var all sync.WaitGroup
	results := make([]Result, 20)
	all.Go(func() { results[0] = w.Weather(t.Context(), about(ghent, day, day)) })
	<-arrived
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	hasty := w.Weather(gone, about(ghent, day, day))
	assert.Contains(t, hasty.Reason, "took too long")
	for i := range results[1:] {
		all.Go(func() { results[i+1] = w.Weather(t.Context(), about(ghent, day, day)) })
	}
	close(release)
	all.Wait()
	assert.Equal(t, 1, w.count(OpenMeteo))
	for _, r := range results {
		assert.True(t, r.Known)
	}
}

func TestAFetchOutlivesWhoAskedForIt(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	good := w.reply[OpenMeteo]
	ctx, cancel := context.WithCancel(t.Context())
	release := make(chan struct{})
	w.reply[OpenMeteo] = func(rw http.ResponseWriter, r *http.Request) {
		cancel()
		<-release
		good(rw, r)
	}
	r := w.Weather(ctx, about(ghent, day, day))
	assert.False(t, r.Known)
	close(release)
	w.running.Wait()
	assert.Len(t, w.kept.reports, 1)
}

func TestOneRequestAtATimePerService(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	good := w.reply[OpenMeteo]
	var mu sync.Mutex
	under, most := 0, 0
	w.reply[OpenMeteo] = func(rw http.ResponseWriter, r *http.Request) {
		mu.Lock()
		under++
		most = max(most, under)
		mu.Unlock()
		good(rw, r)
		mu.Lock()
		under--
		mu.Unlock()
	}
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() { w.Weather(t.Context(), about(Place{float64(i), 3}, day, day)) })
	}
	all.Wait()
	assert.Equal(t, 8, w.count(OpenMeteo))
	assert.Equal(t, 1, most)
}

func TestCloseEndsWhatIsUnderWay(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	arrived := make(chan struct{})
	w.reply[OpenMeteo] = func(_ http.ResponseWriter, r *http.Request) {
		close(arrived)
		<-r.Context().Done()
	}
	var asked sync.WaitGroup
	asked.Go(func() { w.Weather(t.Context(), about(ghent, day, day)) })
	<-arrived
	w.Close()
	asked.Wait()
	assert.Empty(t, w.kept.reports)
}

func TestGridMovesUnderAPlace(t *testing.T) {
	w := newWorld(t, only(NWS))
	w.Weather(t.Context(), about(portland, 0, day))
	assert.Equal(t, 2, w.count(NWS), "the cell, then its forecast")
	good, moved := w.reply[NWS], false
	w.reply[NWS] = func(rw http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, "/points/") {
			moved = true
			serve("application/geo+json", swap(read(t, "nws-points.json"), `"gridX": 83`, `"gridX": 84`))(rw, r)
			return
		}
		if !strings.HasSuffix(r.URL.Path, "/84,73") {
			fail(404, "application/problem+json", `{"title":"Marine Forecast Not Supported"}`)(rw, r)
			return
		}
		good(rw, r)
	}
	w.advance(4 * time.Hour)
	r := w.Weather(t.Context(), about(portland, 0, day))
	assert.Empty(t, r.Reason)
	assert.True(t, moved)
	w.advance(4 * time.Hour)
	w.Weather(t.Context(), about(portland, 0, day))
	assert.Equal(t, 2+3+1, w.count(NWS), "the new cell is remembered")
	w.advance(cellHolds)
	w.Weather(t.Context(), Query{Located: true, Lat: portland.Lat, Lon: portland.Lon, Since: w.now(), Until: w.now().Add(day)})
	assert.Equal(t, 2+3+1+2, w.count(NWS), "and looked up again after a while")
}

func TestPlacesThatTheServiceDoesNotKnow(t *testing.T) {
	w := newWorld(t, only(NWS))
	w.reply[NWS] = fail(404, "application/problem+json", `{"title":"Data Unavailable For Requested Point"}`)
	windsor := Place{42.3, -83.02} // within the box, but Canadian
	assert.Contains(t, w.Weather(t.Context(), about(windsor, 0, day)).Reason, "does not cover this place")
	w.advance(day)
	w.Weather(t.Context(), about(windsor, 0, 2*day))
	assert.Equal(t, 1, w.count(NWS), "not asked again for a week")
	w.reply[NWS] = w.nws
	assert.True(t, w.Weather(t.Context(), about(portland, 0, 2*day)).Known, "other places are not punished")
}

func TestNullsOfThePastAreAskedForAgain(t *testing.T) {
	w := newWorld(t, only(OpenMeteo))
	good := w.reply[OpenMeteo]
	w.reply[OpenMeteo] = func(rw http.ResponseWriter, r *http.Request) {
		var a strings.Builder
		fmt.Fprintf(&a, `{"utc_offset_seconds":0,"hourly_units":{"time":"unixtime","precipitation":"mm"},"hourly":{"time":[%d,%d],"precipitation":[null,1]}}`,
			at(-96).Unix(), at(-95).Unix())
		serve("application/json", []byte(a.String()))(rw, r)
	}
	w.Weather(t.Context(), about(ghent, 5*day, day))
	w.reply[OpenMeteo] = good
	w.advance(4 * time.Hour)
	r := w.Weather(t.Context(), about(ghent, 5*day, day))
	assert.Equal(t, "5", w.seen[1].URL.Query().Get("past_days"))
	assert.InDelta(t, 0.1, *must(t, r.Hours, at(-97)).RainMm, 1e-9)
	assert.InDelta(t, 0.1, *must(t, r.Hours, at(-96)).RainMm, 1e-9, "the newer report counts")
}
