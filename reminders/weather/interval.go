package weather

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// interval is a span of time as ISO 8601 writes it: "2019-07-04T18:00:00+00:00/PT3H".
type interval struct{ from, to time.Time }

// isoDuration is weeks, days, hours and minutes: P7DT13H, PT30M, P1W.
var isoDuration = regexp.MustCompile(`^P(?:(\d{1,3})W)?(?:(\d{1,3})D)?(?:T(?:(\d{1,4})H)?(?:(\d{1,5})M)?)?$`)

// longestInterval is far more than a forecast's reach.
const longestInterval = 31 * day

var errInterval = fmt.Errorf("not an interval such as 2019-07-04T18:00:00+00:00/PT3H of at most %d days", longestInterval/day)

func parseInterval(s string) (interval, error) {
	at, length, ok := strings.Cut(s, "/")
	from, err := time.Parse(time.RFC3339, at)
	if !ok || err != nil || from.Unix() < earliestUnix || from.Unix() > latestUnix {
		return interval{}, fmt.Errorf("%q is %w", s, errInterval)
	}
	parts := isoDuration.FindStringSubmatch(length)
	var d time.Duration
	if parts != nil {
		for i, unit := range []time.Duration{7 * day, day, time.Hour, time.Minute} {
			n, _ := strconv.Atoi(parts[i+1]) // "" where the part is left out
			d += time.Duration(n) * unit
		}
	}
	if d <= 0 || d > longestInterval {
		return interval{}, fmt.Errorf("%q is %w", s, errInterval)
	}
	return interval{from.UTC(), from.UTC().Add(d)}, nil
}

// each visits the hours of a span that the interval overlaps, with how much of
// the hour it covers and whether it holds when the hour begins.
func (v interval) each(since, until time.Time, visit func(hour time.Time, covers time.Duration, atStart bool)) {
	for h := later(v.from, since).Truncate(time.Hour); h.Before(v.to) && h.Before(until); h = h.Add(time.Hour) {
		if h.Before(since) {
			continue
		}
		covers := earlier(v.to, h.Add(time.Hour)).Sub(later(v.from, h))
		visit(h, covers, !v.from.After(h))
	}
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}
