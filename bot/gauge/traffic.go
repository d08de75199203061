package gauge

import (
	"cmp"

	"github.com/prometheus/client_golang/prometheus"

	"heapside/bot/discord"
)

// other is the command of what means none of the catalogue.
const other = "other"

// buckets are the bounds of times to answer in, in seconds: from what a list
// takes to the 3 s that the platform waits for (own choice but for the last).
var buckets = []float64{0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 1.5, 2, 3}

// Traffic counts interactions as they come. It is safe for use by several
// goroutines.
type Traffic struct {
	asked, suggested   *prometheus.CounterVec
	answering, helping *prometheus.HistogramVec
}

// NewTraffic is a Traffic that has heard nothing yet.
func NewTraffic() *Traffic {
	count := func(name, help string, labels ...string) *prometheus.CounterVec {
		return prometheus.NewCounterVec(prometheus.CounterOpts{Name: name, Help: help}, labels)
	}
	times := func(name, help string) *prometheus.HistogramVec {
		return prometheus.NewHistogramVec(prometheus.HistogramOpts{Name: name, Help: help, Buckets: buckets}, []string{"command"})
	}
	return &Traffic{
		asked: count("heapside_interactions_total",
			"Commands, buttons and forms by what became of them; of those refused, why.", "kind", "command", "outcome", "code"),
		answering: times("heapside_interaction_duration_seconds",
			"From the arrival of a command, button or form to the end of sending the answer."),
		suggested: count("heapside_completions_total",
			"Suggestions asked for while people type, by what became of it.", "command", "outcome"),
		helping: times("heapside_completion_duration_seconds",
			"From the arrival of a request for suggestions to the end of sending them."),
	}
}

// Heard counts an interaction.
func (t *Traffic) Heard(h discord.Heard) {
	command := cmp.Or(h.Path, other)
	times := t.answering
	if h.Kind == discord.Suggested {
		times = t.helping
		t.suggested.WithLabelValues(command, string(h.Outcome)).Inc()
	} else {
		t.asked.WithLabelValues(string(h.Kind), command, string(h.Outcome), string(h.Code)).Inc()
	}
	if h.Outcome != discord.Busy && h.Outcome != discord.Dropped { // which nobody worked on
		times.WithLabelValues(command).Observe(h.Took.Seconds())
	}
}

func (t *Traffic) all() []prometheus.Collector {
	return []prometheus.Collector{t.asked, t.answering, t.suggested, t.helping}
}
