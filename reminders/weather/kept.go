package weather

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"fmt"
	"io"
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

// unpackedLimit bounds what a packed report may unfold to.
const unpackedLimit = 16 << 20

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

// Latest is the report of a service for a place that was fetched last.
func (k Kept) Latest(ctx context.Context, service string, at Place) (Report, bool, error) {
	kept, ok, err := k.Record.LatestReport(ctx, service, at.Lat, at.Lon)
	if err != nil || !ok {
		return Report{}, false, err
	}
	r, err := unpack(kept)
	return r, err == nil, err
}

// Reports are those of a place that were known at asOf and speak of the span.
func (k Kept) Reports(ctx context.Context, at Place, since, until, asOf time.Time) ([]Report, error) {
	kept, err := k.Record.Reports(ctx, at.Lat, at.Lon, since, until, asOf)
	if err != nil {
		return nil, err
	}
	reports := make([]Report, len(kept))
	for i := range kept {
		if reports[i], err = unpack(kept[i]); err != nil {
			return nil, err
		}
	}
	return reports, nil
}

func pack(r Report) ([]byte, error) {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	if err := json.NewEncoder(z).Encode(r); err != nil {
		return nil, fmt.Errorf("pack weather report: %w", err)
	}
	err := z.Close()
	return b.Bytes(), err
}

func unpack(kept storage.Report) (Report, error) {
	var r Report
	z, err := gzip.NewReader(bytes.NewReader(kept.Data))
	if err == nil {
		err = json.NewDecoder(io.LimitReader(z, unpackedLimit)).Decode(&r)
	}
	if err != nil {
		return r, fmt.Errorf("unpack weather report of %s, %s: %w", kept.Service, kept.Fetched.Format(time.RFC3339), err)
	}
	return r, nil
}
