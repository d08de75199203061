package main

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// service is a weather service on loopback: as many mild hours as were asked
// for, or nothing but a status.
type service struct {
	*httptest.Server
	asked  atomic.Int32
	status atomic.Int32 // 0: answer
}

func newService(t *testing.T) *service {
	s := new(service)
	s.Server = httptest.NewServer(http.HandlerFunc(s.answer))
	t.Cleanup(s.Close)
	return s
}

func (s *service) answer(w http.ResponseWriter, r *http.Request) {
	s.asked.Add(1)
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	if status := s.status.Load(); status != 0 {
		w.WriteHeader(int(status))
		return
	}
	past, _ := strconv.Atoi(r.URL.Query().Get("past_days"))
	ahead, _ := strconv.Atoi(r.URL.Query().Get("forecast_days"))
	from := time.Now().UTC().Truncate(24*time.Hour).AddDate(0, 0, -past)
	hourly := map[string][]float64{}
	for h := range (past + ahead) * 24 {
		hourly["time"] = append(hourly["time"], float64(from.Unix()+int64(h)*3600))
		for name, v := range map[string]float64{"temperature_2m": 12, "relative_humidity_2m": 80, "precipitation": 0, "et0_fao_evapotranspiration": 0.05, "wind_speed_10m": 3} {
			hourly[name] = append(hourly[name], v)
		}
	}
	_ = json.NewEncoder(w).Encode(map[string]any{
		"utc_offset_seconds": 0, "elevation": 9, "hourly": hourly,
		"hourly_units": map[string]string{"time": "unixtime", "temperature_2m": "°C", "relative_humidity_2m": "%", "precipitation": "mm", "et0_fao_evapotranspiration": "mm", "wind_speed_10m": "m/s"},
	})
}

// TestWeatherOfAGarden runs the program under a weather service: who is asked,
// who is named, and what is said when nobody answers.
func TestWeatherOfAGarden(t *testing.T) {
	const credit = "Weather: Open-Meteo, CC BY 4.0"
	only := "HEAPSIDE_WEATHER=open-meteo"
	for _, row := range []struct {
		name   string
		env    []string
		status int
		place  string
		want   []string
		not    []string
		asked  bool
	}{
		{"answered", []string{only}, 0, "51.75, -1.26", []string{credit, "Weather as of"}, []string{"No weather", "plain climate"}, true},
		{"at the pole", []string{only}, 0, "-90, 0", []string{credit, "Weather as of"}, []string{"No weather"}, true},
		{"wants to be asked less", []string{only}, 429, "51.75, -1.26", []string{"Open-Meteo wants to be asked less often", "plain climate stands in"}, []string{credit, "Weather as of"}, true},
		{"refused", []string{only}, 400, "51.75, -1.26", []string{"Open-Meteo refused to answer"}, []string{credit}, true},
		{"no place", []string{only}, 0, "", []string{"No place is set for the garden"}, []string{credit}, false},
		{"all off", []string{"HEAPSIDE_WEATHER=off"}, 0, "51.75, -1.26", []string{"No weather service is asked here.", "plain climate stands in"}, []string{credit, "Weather as of"}, false},
		{"another service", []string{"HEAPSIDE_WEATHER=met-norway"}, 0, "51.75, -1.26", []string{"MET Norway is not asked without a way to reach whoever runs this"}, []string{credit}, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := newService(t)
			s.status.Store(int32(row.status))
			r := newRecord(t)
			env := append(row.env, "HEAPSIDE_OPEN_METEO_URL="+s.URL, "HEAPSIDE_PLACES_URL="+s.URL)
			say := func(words ...string) string {
				got := heapside(t, env, "", append([]string{"once", "-organiser", "-db", r.db}, words...)...)
				require.Equal(t, 0, got.status, got.err)
				return strings.Join(strings.Fields(got.out), " ") // lines are broken to fit
			}
			if row.place != "" {
				say("garden place " + row.place)
			}
			say("heap start Bay")
			say("log add 2 barrows of grass clippings and 3 barrows of dry leaves")
			assert.Zero(t, s.asked.Load(), "logging asks nobody")
			out := say("outlook")
			for _, want := range row.want {
				assert.Contains(t, out, want)
			}
			for _, not := range row.not {
				assert.NotContains(t, out, not)
			}
			assert.Equal(t, row.asked, s.asked.Load() > 0)
			if row.status == 0 {
				asked := s.asked.Load()
				say("next")
				assert.Equal(t, asked, s.asked.Load(), "what is kept is not asked for again, by another run either")
			}
		})
	}
}

// TestWeatherSettings holds that a setting that cannot be is refused at once.
func TestWeatherSettings(t *testing.T) {
	for _, env := range []string{"HEAPSIDE_WEATHER=almanac", "HEAPSIDE_OPEN_METEO_URL=nowhere", "HEAPSIDE_WEATHER=nws,nws"} {
		t.Run(env, func(t *testing.T) {
			got := heapside(t, []string{env}, "", "once", "-db", newRecord(t).db, "next")
			assert.NotZero(t, got.status)
			assert.Contains(t, got.err, "weather service")
		})
	}
}
