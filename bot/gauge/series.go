package gauge

import (
	"context"
	"slices"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"heapside/reminders"
)

// The kinds of series.
const (
	count = prometheus.CounterValue
	level = prometheus.GaugeValue
)

// series is one name and its values, each under the values of the labels. A
// value that is not known is left out.
type series struct {
	name, help string
	kind       prometheus.ValueType
	labels     []string
	show       func(s state, put func(value float64, labels ...string))
}

// allSeries are what is shown besides the traffic, the program and the process.
func allSeries() []series {
	all := slices.Concat(gatewaySeries, recordSeries, weatherSeries)
	for _, c := range reminderCounts {
		all = append(all, series{"heapside_reminders_" + c.name + "_total", c.help, count, nil,
			func(s state, put func(float64, ...string)) { put(float64(c.of(s.counts))) }})
	}
	return all
}

var gatewaySeries = []series{
	{"heapside_gateway_connected", "1 while the connection to the platform is open, else 0.", level, nil,
		func(s state, put func(float64, ...string)) { put(one(s.link.Open)) }},
	{"heapside_gateway_acked_timestamp_seconds", "When the platform last answered a heartbeat.", level, nil,
		func(s state, put func(float64, ...string)) { moment(put, s.link.Acked) }},
	{"heapside_gateway_connects_total", "Connections to the platform, resumed ones among them.", count, nil,
		func(s state, put func(float64, ...string)) { put(float64(s.link.Connects)) }},
	{"heapside_gateway_resumes_total", "Connections that went on with the session before.", count, nil,
		func(s state, put func(float64, ...string)) { put(float64(s.link.Resumes)) }},
	{"heapside_limited_total", "What was refused because one person, or all of a group, asked too much.", count, []string{"of", "limit"},
		func(s state, put func(float64, ...string)) {
			put(float64(s.commands.Person), "commands", "person")
			put(float64(s.commands.Group), "commands", "group")
			put(float64(s.suggestions.Person), "completions", "person")
			put(float64(s.suggestions.Group), "completions", "group")
		}},
}

var recordSeries = []series{
	{"heapside_record_answers", "1 when the record answered within a second, else 0.", level, nil,
		func(s state, put func(float64, ...string)) { put(one(!s.unread)) }},
	{"heapside_record_size_bytes", "Size of the record's file, and of what is not yet folded into it.", level, []string{"file"},
		func(s state, put func(float64, ...string)) {
			for name, size := range s.files {
				put(float64(size), name)
			}
		}},
	{"heapside_record_changed_timestamp_seconds", "When something was last written to the record.", level, nil,
		func(s state, put func(float64, ...string)) { moment(put, s.changed) }},
	{"heapside_reminders_waiting", "Reminders whose hour has come and that are not sent, in channels that can be posted to.", level, nil,
		func(s state, put func(float64, ...string)) {
			if !s.unread {
				put(float64(s.waiting))
			}
		}},
	{"heapside_reminders_waiting_age_seconds", "How long the oldest of those waits; 0 when there is none.", level, nil,
		func(s state, put func(float64, ...string)) {
			switch {
			case s.unread:
			case s.waiting == 0:
				put(0)
			default:
				put(s.at.Sub(s.oldest).Seconds())
			}
		}},
	{"heapside_channels_unreachable", "Channels with reminders that cannot be posted to: refused, which may pass, or gone.", level, []string{"why"},
		func(s state, put func(float64, ...string)) {
			for why, n := range s.unreachable {
				put(float64(n), string(why))
			}
		}},
	{"heapside_reminders_passed_timestamp_seconds", "When all that may be due was last looked through.", level, nil,
		func(s state, put func(float64, ...string)) { moment(put, s.passed) }},
}

var weatherSeries = []series{
	{"heapside_weather_requests_total", "Requests for weather reports by what became of them.", count, []string{"service", "outcome"},
		func(s state, put func(float64, ...string)) {
			for _, w := range s.weather {
				put(float64(w.Fetched), w.Service, "fetched")
				for kind, n := range w.Failed {
					put(float64(n), w.Service, string(kind))
				}
			}
		}},
	{"heapside_weather_fetched_timestamp_seconds", "When a service last gave a report.", level, []string{"service"},
		func(s state, put func(float64, ...string)) {
			for _, w := range s.weather {
				moment(put, w.Newest, w.Service)
			}
		}},
}

// reminderCounts are what the engine counts.
var reminderCounts = []struct {
	name, help string
	of         func(reminders.Stats) int
}{
	{"armed", "Places whose next reminder was worked out.", func(s reminders.Stats) int { return s.Armed }},
	{"prepared", "Reminders written down to be sent.", func(s reminders.Stats) int { return s.Prepared }},
	{"quiet", "Reminders that came due with nothing to say.", func(s reminders.Stats) int { return s.Quiet }},
	{"sent", "Reminders sent.", func(s reminders.Stats) int { return s.Sent }},
	{"late", "Reminders sent more than a minute after they were due.", func(s reminders.Stats) int { return s.Late }},
	{"missed", "Reminders that were too late to be said.", func(s reminders.Stats) int { return s.Missed }},
	{"dropped", "Reminders that nothing called for any more.", func(s reminders.Stats) int { return s.Dropped }},
	{"retried", "Tries to send a reminder that were put off.", func(s reminders.Stats) int { return s.Retried }},
	{"fenced", "Reminders that another process had taken over.", func(s reminders.Stats) int { return s.Fenced }},
	{"edited", "Reminders shown otherwise after something was done.", func(s reminders.Stats) int { return s.Edited }},
	{"failed", "Places that were left for a minute after an error.", func(s reminders.Stats) int { return s.Failed }},
}

func one(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

// moment puts a time; one that is none is left out.
func moment(put func(float64, ...string), at time.Time, labels ...string) {
	if !at.IsZero() {
		put(float64(at.UnixMilli())/1000, labels...)
	}
}

// collector shows all series of the sources, as they are when somebody looks.
type collector struct {
	sources Sources
	series  []series
	descs   []*prometheus.Desc
}

func newCollector(s Sources) *collector {
	c := &collector{sources: s, series: allSeries()}
	for _, each := range c.series {
		c.descs = append(c.descs, prometheus.NewDesc(each.name, each.help, each.labels, nil))
	}
	return c
}

// Describe implements prometheus.Collector.
func (c *collector) Describe(to chan<- *prometheus.Desc) {
	for _, d := range c.descs {
		to <- d
	}
}

// Collect implements prometheus.Collector.
func (c *collector) Collect(to chan<- prometheus.Metric) {
	now := c.sources.look(context.Background())
	for i, each := range c.series {
		each.show(now, func(value float64, labels ...string) {
			to <- prometheus.MustNewConstMetric(c.descs[i], each.kind, value, labels...)
		})
	}
}
