package storage

import (
	"context"
	"database/sql"
	"fmt"
	"math"
	"time"
)

// Report is one answer of a weather service about a place, as bytes that the
// record does not look into. Since and Until bound the hours it speaks of.
type Report struct {
	Service               string
	Lat, Lon              float64 // degrees, to two decimals
	Fetched, Since, Until time.Time
	Data                  []byte
}

// maxReport is how many bytes one report may have (own choice): packed, a
// fortnight of hours takes a few kB.
const maxReport = 1 << 20

const reportColumns = "service, lat, lon, fetched_ms, since_ms, until_ms, report FROM weather"

// hundredths is a coordinate as it is stored.
func hundredths(degrees float64) int64 { return int64(math.Round(degrees * 100)) }

// AppendReport keeps a report beside all earlier ones. The same service, place
// and time of fetching again changes nothing.
func (db *DB) AppendReport(ctx context.Context, r Report) error {
	if len(r.Data) == 0 || len(r.Data) > maxReport {
		return fmt.Errorf("append weather report: %d bytes, want 1 to %d", len(r.Data), maxReport)
	}
	return db.write(ctx, "append weather report", func(ctx context.Context, tx *sql.Tx) error {
		const save = `INSERT INTO weather (service, lat, lon, fetched_ms, since_ms, until_ms, report) VALUES ($1, $2, $3, $4, $5, $6, $7)
			ON CONFLICT (service, lat, lon, fetched_ms) DO NOTHING`
		_, err := tx.ExecContext(ctx, save, r.Service, hundredths(r.Lat), hundredths(r.Lon),
			r.Fetched.UnixMilli(), r.Since.UnixMilli(), r.Until.UnixMilli(), r.Data)
		return err
	})
}

// LatestReport is the report of a service for a place that was fetched last;
// false when there is none.
func (db *DB) LatestReport(ctx context.Context, service string, lat, lon float64) (Report, bool, error) {
	found, err := read(ctx, db, "read weather report", scanReport,
		"SELECT "+reportColumns+" WHERE service = $1 AND lat = $2 AND lon = $3 ORDER BY fetched_ms DESC LIMIT 1",
		service, hundredths(lat), hundredths(lon))
	if err != nil || len(found) == 0 {
		return Report{}, false, err
	}
	return found[0], true, nil
}

// Reports lists the reports of all services for a place that were fetched at
// asOf or before and speak of hours between since and until, oldest first.
func (db *DB) Reports(ctx context.Context, lat, lon float64, since, until, asOf time.Time) ([]Report, error) {
	return read(ctx, db, "list weather reports", scanReport,
		"SELECT "+reportColumns+" WHERE lat = $1 AND lon = $2 AND fetched_ms <= $3 AND since_ms < $4 AND until_ms > $5 ORDER BY fetched_ms, service",
		hundredths(lat), hundredths(lon), asOf.UnixMilli(), until.UnixMilli(), since.UnixMilli())
}

func scanReport(scan func(...any) error) (Report, error) {
	var r Report
	var lat, lon, fetched, since, until int64
	if err := scan(&r.Service, &lat, &lon, &fetched, &since, &until, &r.Data); err != nil {
		return r, err
	}
	r.Lat, r.Lon = float64(lat)/100, float64(lon)/100
	r.Fetched, r.Since, r.Until = instant(fetched), instant(since), instant(until)
	return r, nil
}
