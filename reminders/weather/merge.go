package weather

import (
	"slices"
	"time"
)

// Merge is the best of what several reports say of each hour, oldest hour
// first. What was said of an hour once it was over beats any forecast of it;
// among equals the report fetched last counts. A value that one report lacks
// is taken from the next.
func Merge(reports []Report) []Hour {
	hours, _ := merge(reports, time.Time{}, time.Time{})
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
func merge(reports []Report, since, until time.Time) (hours []Hour, used map[string]bool) {
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
	return merged.list(), used
}

func (b *best) take(h *Hour, report int) {
	for k, field := range h.fields() {
		if *field != nil && (h.Observed || !b[k].observed) {
			b[k] = value{*field, h.Observed, report}
		}
	}
}
