package weather

import (
	"context"
	"errors"
	"fmt"
	"time"

	"heapside/storage"
)

// Record is where reports are kept as bytes.
type Record interface {
	AppendReport(ctx context.Context, r storage.Report) error
	LatestReport(ctx context.Context, service string, lat, lon float64) (storage.Report, bool, error)
	Reports(ctx context.Context, lat, lon float64, since, until, asOf time.Time) ([]storage.Report, error)
}

// Kept is a Cache in the record: each report packed as it was understood.
type Kept struct{ Record Record }

// Append keeps a report for good.
func (k Kept) Append(ctx context.Context, r Report) error {
	data, err := pack(r)
	if err != nil {
		return err
	}
	since, until := spokenOf(r)
	return k.Record.AppendReport(ctx, storage.Report{
		Service: r.Service, Lat: r.Place.Lat, Lon: r.Place.Lon,
		Fetched: r.FetchedAt, Since: since, Until: until, Data: data,
	})
}

// spokenOf is the span of a report's hours; of what was asked when it has none.
func spokenOf(r Report) (since, until time.Time) {
	if len(r.Hours) == 0 {
		return r.Since, r.Until
	}
	return r.Hours[0].At, r.Hours[len(r.Hours)-1].At.Add(time.Hour)
}

// Latest is the report of a service for a place that was fetched last. One that
// is damaged counts as none: the next fetch takes its place.
func (k Kept) Latest(ctx context.Context, service string, at Place) (Report, bool, error) {
	kept, ok, err := k.Record.LatestReport(ctx, service, at.Lat, at.Lon)
	if err != nil || !ok {
		return Report{}, false, err
	}
	r, err := unfold(kept)
	return r, err == nil, nil
}

// Reports are those of a place that were known at asOf and speak of the span.
// It gives all that are whole, and an error that names any damaged ones.
func (k Kept) Reports(ctx context.Context, at Place, since, until, asOf time.Time) ([]Report, error) {
	kept, err := k.Record.Reports(ctx, at.Lat, at.Lon, since, until, asOf)
	if err != nil {
		return nil, err
	}
	reports := make([]Report, 0, len(kept))
	var damaged []error
	for i := range kept {
		r, err := unfold(kept[i])
		if err != nil {
			damaged = append(damaged, err)
			continue
		}
		reports = append(reports, r)
	}
	return reports, errors.Join(damaged...)
}

// unfold is a report as it was understood when it was kept.
func unfold(kept storage.Report) (Report, error) {
	r, err := unpack(kept.Data)
	if err != nil {
		return r, fmt.Errorf("weather report of %s, %s: %w", kept.Service, kept.Fetched.Format(time.RFC3339), err)
	}
	return r, nil
}
