package gauge

import (
	"errors"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil/promlint"
	dto "github.com/prometheus/client_model/go"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/bot/discord"
	"heapside/calc/fault"
	"heapside/commands"
	"heapside/reminders"
	"heapside/reminders/weather"
)

func TestWhatIsShown(t *testing.T) {
	g := newGarden(t)
	g.stats = reminders.Stats{Sent: 7, Late: 2}
	g.asked, g.suggested = commands.TurnedAway{Person: 4, Group: 3}, commands.TurnedAway{Person: 2, Group: 1}
	g.sky = []weather.Stats{
		{Service: weather.OpenMeteo, Fetched: 5, Failed: map[weather.Kind]int{weather.Slow: 1}, Newest: noon.Add(-time.Hour)},
		{Service: weather.NWS, Failed: map[weather.Kind]int{weather.Slow: 0}},
	}
	for range 3 {
		g.traffic.Heard(discord.Heard{Kind: discord.Typed, Path: "log temp", Outcome: discord.Answered, Took: 4 * time.Millisecond})
	}
	g.traffic.Heard(discord.Heard{Kind: discord.Typed, Path: "log temp", Outcome: discord.Declined, Code: fault.OutOfRange, Took: 2 * time.Second})
	g.traffic.Heard(discord.Heard{Kind: discord.Pressed, Outcome: discord.Busy, Took: time.Millisecond})
	g.traffic.Heard(discord.Heard{Kind: discord.Suggested, Path: "mix", Outcome: discord.Late, Took: 2 * time.Second})
	g.Record = backlog{posts: 2, oldest: noon.Add(-90 * time.Second), gone: 3}

	got := g.scrape(t)
	for _, tc := range []struct {
		want   float64
		name   string
		labels []string // by the names of the labels
	}{
		{3, "heapside_interactions_total", []string{"", "log temp", "command", "answered"}},
		{1, "heapside_interactions_total", []string{"out_of_range", "log temp", "command", "refused"}},
		{1, "heapside_interactions_total", []string{"", "other", "button", "busy"}},
		{4, "heapside_interaction_duration_seconds", []string{"log temp"}},
		{1, "heapside_completions_total", []string{"mix", "late"}},
		{1, "heapside_completion_duration_seconds", []string{"mix"}},
		{4, "heapside_limited_total", []string{"person", "commands"}},
		{3, "heapside_limited_total", []string{"group", "commands"}},
		{2, "heapside_limited_total", []string{"person", "completions"}},
		{1, "heapside_limited_total", []string{"group", "completions"}},
		{1, "heapside_gateway_connected", nil},
		{float64(noon.Unix() - 20), "heapside_gateway_acked_timestamp_seconds", nil},
		{3, "heapside_gateway_connects_total", nil},
		{2, "heapside_gateway_resumes_total", nil},
		{7, "heapside_reminders_sent_total", nil},
		{2, "heapside_reminders_late_total", nil},
		{2, "heapside_reminders_waiting", nil},
		{90, "heapside_reminders_waiting_age_seconds", nil},
		{float64(noon.Unix() - 2), "heapside_reminders_passed_timestamp_seconds", nil},
		{0, "heapside_channels_unreachable", []string{"refused"}},
		{3, "heapside_channels_unreachable", []string{"gone"}},
		{1, "heapside_record_answers", nil},
		{5, "heapside_weather_requests_total", []string{"fetched", "open-meteo"}},
		{1, "heapside_weather_requests_total", []string{"slow", "open-meteo"}},
		{float64(noon.Unix() - 3600), "heapside_weather_fetched_timestamp_seconds", []string{"open-meteo"}},
	} {
		assert.InDelta(t, tc.want, value(t, got, tc.name, tc.labels...), 1e-6, "%s %v", tc.name, tc.labels)
	}
	assert.Len(t, got["heapside_weather_fetched_timestamp_seconds"].GetMetric(), 1, "a service that never gave any has no time")
	assert.NotContains(t, labelled(got["heapside_interaction_duration_seconds"], "command"), "other", "nobody worked on what was turned away")
	sizes := labelled(got["heapside_record_size_bytes"], "file")
	assert.ElementsMatch(t, []string{"record", "wal"}, sizes)
	assert.Positive(t, value(t, got, "heapside_record_size_bytes", "record"))
	for _, of := range []string{"go_goroutines", "process_start_time_seconds", "heapside_build_info"} {
		assert.Contains(t, got, of)
	}
}

// labelled are the values of a label, in the order they are shown in.
func labelled(f *dto.MetricFamily, name string) []string {
	var all []string
	for _, m := range f.GetMetric() {
		for _, l := range m.GetLabel() {
			if l.GetName() == name {
				all = append(all, l.GetValue())
			}
		}
	}
	return all
}

// TestEveryCountOfTheRemindersIsShown: each of them once, by its name.
func TestEveryCountOfTheRemindersIsShown(t *testing.T) {
	g := newGarden(t)
	fields := reflect.ValueOf(&g.stats).Elem()
	for i := range fields.NumField() {
		fields.Field(i).SetInt(int64(i + 1))
	}
	got := g.scrape(t)
	for i := range fields.NumField() {
		name := "heapside_reminders_" + strings.ToLower(fields.Type().Field(i).Name) + "_total"
		assert.InDelta(t, i+1, value(t, got, name), 0, name)
	}
	assert.Len(t, reminderCounts, fields.NumField())
}

// TestNamesFollowTheConventions: as the checker that Prometheus publishes with
// its client library has them.
func TestNamesFollowTheConventions(t *testing.T) {
	g := newGarden(t)
	g.traffic.Heard(discord.Heard{Kind: discord.Typed, Path: "mix", Outcome: discord.Answered})
	g.traffic.Heard(discord.Heard{Kind: discord.Suggested, Path: "mix", Outcome: discord.Answered})
	_, said := g.get("GET", "/metrics")
	problems, err := promlint.New(strings.NewReader(said)).Lint()
	require.NoError(t, err)
	assert.Empty(t, problems)
}

func TestARecordThatDoesNotAnswerHidesNothingElse(t *testing.T) {
	g := newGarden(t)
	g.Record = backlog{err: errors.New("disk I/O error")}
	got := g.scrape(t)
	assert.Zero(t, value(t, got, "heapside_record_answers"))
	assert.NotContains(t, got, "heapside_reminders_waiting")
	assert.NotContains(t, got, "heapside_reminders_waiting_age_seconds")
	assert.InDelta(t, 3, value(t, got, "heapside_gateway_connects_total"), 0)
}

// BenchmarkHeard is what counting costs each interaction.
func BenchmarkHeard(b *testing.B) {
	t := NewTraffic()
	h := discord.Heard{Kind: discord.Typed, Path: "log temp", Outcome: discord.Answered, Took: 4 * time.Millisecond}
	b.ReportAllocs()
	for b.Loop() {
		t.Heard(h)
	}
}

// BenchmarkScrape is one look at everything.
func BenchmarkScrape(b *testing.B) {
	g := newGarden(b)
	for _, path := range strings.Fields("mix next ready outlook trouble history") {
		for _, kind := range []discord.Kind{discord.Typed, discord.Pressed, discord.Suggested} {
			g.traffic.Heard(discord.Heard{Kind: kind, Path: path, Outcome: discord.Answered})
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		g.get("GET", "/metrics")
	}
}
