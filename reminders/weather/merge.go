package weather

import (
	"slices"
	"time"

	"heapside/calc/heap"
)

// GaugeReading is what the group's own rain gauge held: all rain from From to
// To, both on the hour. Readings do not overlap.
type GaugeReading struct {
	From, To time.Time
	Mm       float64
}

// Spans of gauge readings: own choice.
const (
	firstGaugeSpan   = day     // a first reading is of the day before it
	longestGaugeSpan = 7 * day // a reading after a longer pause is of its last days
	maxGaugeMm       = 2000.0
)

// Gauge reads the rain entries of a heap's standing entries. Each is the rain
// since the one before it; two within an hour count as one.
func Gauge(entries []heap.Entry) []GaugeReading {
	var readings []GaugeReading
	for _, e := range heap.Order(entries) {
		rain, ok := e.Payload.(heap.Rain)
		if !ok || e.VoidedBy != 0 || !(rain.Mm >= 0 && rain.Mm <= maxGaugeMm) {
			continue
		}
		to := e.At.UTC().Add(time.Hour - 1).Truncate(time.Hour)
		from := to.Add(-firstGaugeSpan)
		if n := len(readings); n > 0 {
			last := &readings[n-1]
			if last.To.Equal(to) {
				last.Mm += rain.Mm
				continue
			}
			from = later(last.To, to.Add(-longestGaugeSpan))
		}
		readings = append(readings, GaugeReading{from, to, rain.Mm})
	}
	return readings
}

// Merge is the best of what several reports say of each hour, oldest hour
// first. What was said of an hour once it was over beats any forecast of it;
// among equals the report fetched last counts. A value that one report lacks
// is taken from the next. Gauge readings override the rain of their hours: they
// keep how it fell but not how much.
func Merge(reports []Report, gauge []GaugeReading) []Hour {
	hours, _ := merge(reports, gauge, time.Time{}, time.Time{})
	return hours
}

// value is one quantity of an hour and which report it is from.
type value struct {
	v        *float64
	observed bool
	report   int
}

// best is the hour under way: air, humidity, rain, ET0 and wind.
type best [5]value

// fields are the quantities of an hour in the order of best.
func (h *Hour) fields() [5]**float64 {
	return [5]**float64{&h.AirC, &h.RH, &h.RainMm, &h.ET0Mm, &h.WindMS}
}

// merge also tells which services have a value in the hours of a span.
func merge(reports []Report, gauge []GaugeReading, since, until time.Time) (hours []Hour, used map[string]bool) {
	reports = slices.Clone(reports)
	slices.SortStableFunc(reports, func(a, b Report) int { return a.FetchedAt.Compare(b.FetchedAt) })
	byHour := map[int64]*best{}
	for i := range reports {
		for j := range reports[i].Hours {
			h := &reports[i].Hours[j]
			unix := h.At.Unix()
			if byHour[unix] == nil {
				byHour[unix] = new(best)
			}
			byHour[unix].take(h, i)
		}
	}
	used = map[string]bool{}
	merged := grid{}
	for unix, b := range byHour {
		if *b == (best{}) {
			continue // nothing is known of it
		}
		h := merged.at(time.Unix(unix, 0))
		h.Observed = true
		counts := !h.At.Before(since) && h.At.Before(until)
		for k, field := range h.fields() {
			if *field = b[k].v; *field != nil {
				h.Observed = h.Observed && b[k].observed
				if counts {
					used[reports[b[k].report].Service] = true
				}
			}
		}
	}
	for _, g := range gauge {
		merged.gauge(g)
	}
	return merged.list(), used
}

func (b *best) take(h *Hour, report int) {
	for k, field := range h.fields() {
		if *field != nil && (h.Observed || !b[k].observed) {
			b[k] = value{*field, h.Observed, report}
		}
	}
}

// gauge spreads a reading over its hours as the services saw it rain, or
// evenly where they saw none. An hour they do not know counts as their mean.
func (g grid) gauge(r GaugeReading) {
	if !(r.Mm >= 0 && r.Mm <= maxGaugeMm) || !r.From.Before(r.To) || r.To.Sub(r.From) > longestInterval {
		return
	}
	var span []*Hour
	var seen mean
	for t := r.From.Truncate(time.Hour); t.Before(r.To); t = t.Add(time.Hour) {
		h := g.at(t)
		seen.add(h.RainMm)
		span = append(span, h)
	}
	usual := 1.0
	if seen.sum > 0 {
		usual = *seen.value()
	}
	for _, h := range span {
		weight := usual
		if seen.sum > 0 && h.RainMm != nil {
			weight = *h.RainMm
		}
		h.RainMm, h.Gauged = new(r.Mm*weight/(usual*float64(len(span)))), true
	}
}
