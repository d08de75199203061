package duty

import "time"

// spread is further than any zone's offset from UTC, and than any shift of one,
// lies from the other: a wall time falls within it of the same time in UTC.
const spread = 36 * time.Hour

// Instant is when the clocks of a zone show a time of day on a day. Where a
// change of the clocks skips that time it is the first instant after the gap,
// where a change repeats it the first of the two. It is false when the zone
// leaves the whole day out, as Apia did on 30 December 2011.
func Instant(day Date, at Clock, zone *time.Location) (time.Time, bool) {
	wall := time.Date(day.Year, day.Month, day.Day, 0, int(at), 0, 0, time.UTC)
	for t := wall.Add(-spread); t.Before(wall.Add(spread)); {
		local := t.In(zone)
		_, end := local.ZoneBounds()
		_, offset := local.Zone()
		shown := wall.Add(-time.Duration(offset) * time.Second) // when this offset shows the time
		switch {
		case end.IsZero() || shown.Before(end):
			// Not shown before t: the offset before t would have shown it, or it
			// lies in the gap that ends at t.
			if shown.Before(t) {
				shown = t
			}
			shown = shown.In(zone)
			return shown, On(shown) == day
		default:
			t = end
		}
	}
	return time.Time{}, false
}
