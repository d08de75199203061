package storage

import (
	"context"
	"database/sql"
	"fmt"
	"math"
	"time"

	"heapside/calc/heap"
	"heapside/calc/process"
)

// maxTrack is how many bytes one heap's track may have; the table holds it too.
const maxTrack = 64 << 10

// Track returns what SaveTrack stored of a heap, nil when nothing is.
func (db *DB) Track(ctx context.Context, at heap.Place, id heap.ID) ([]byte, error) {
	found, err := read(ctx, db, "read track", scanTrack,
		"SELECT data FROM tracks WHERE guild = $1 AND channel = $2 AND heap_id = $3", at.Guild, at.Channel, id)
	if err != nil || len(found) == 0 {
		return nil, err
	}
	return found[0], nil
}

func scanTrack(scan func(...any) error) (data []byte, err error) {
	err = scan(&data)
	return data, err
}

// SaveTrack replaces what the model learned about a heap; at most 64 KiB.
// Nothing is lost with it: it can be learned again from the log.
func (db *DB) SaveTrack(ctx context.Context, at heap.Place, id heap.ID, data []byte) error {
	if len(data) == 0 || len(data) > maxTrack {
		return fmt.Errorf("save track: %d bytes, want 1 to %d", len(data), maxTrack)
	}
	return db.write(ctx, "save track", func(ctx context.Context, tx *sql.Tx) error {
		if _, err := find(ctx, tx, at, id); err != nil {
			return err
		}
		const save = `INSERT INTO tracks (guild, channel, heap_id, data) VALUES ($1, $2, $3, $4)
			ON CONFLICT (guild, channel, heap_id) DO UPDATE SET data = excluded.data`
		_, err := tx.ExecContext(ctx, save, at.Guild, at.Channel, id, data)
		return err
	})
}

// SaveForecasts stores what an outlook said about a heap, all or none. One that
// was made at the same time for the same time stands as it is.
func (db *DB) SaveForecasts(ctx context.Context, at heap.Place, id heap.ID, forecasts ...process.Forecast) error {
	return db.write(ctx, "save forecasts", func(ctx context.Context, tx *sql.Tx) error {
		if _, err := find(ctx, tx, at, id); err != nil {
			return err
		}
		const save = `INSERT INTO forecasts (guild, channel, heap_id, made_ms, ahead_ms, low_c, mid_c, high_c, last_c)
			VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9) ON CONFLICT (guild, channel, heap_id, made_ms, ahead_ms) DO NOTHING`
		for _, f := range forecasts {
			last := sql.NullFloat64{Float64: f.LastC, Valid: !math.IsNaN(f.LastC)}
			_, err := tx.ExecContext(ctx, save, at.Guild, at.Channel, id, milliseconds(f.At), f.Ahead.Milliseconds(), f.Band.Low, f.Band.Mid, f.Band.High, last)
			if err != nil {
				return err
			}
		}
		return nil
	})
}

// Forecasts lists what was said about a heap since a moment, oldest first.
func (db *DB) Forecasts(ctx context.Context, at heap.Place, id heap.ID, since time.Time) ([]process.Forecast, error) {
	return read(ctx, db, "list forecasts", scanForecast,
		`SELECT made_ms, ahead_ms, low_c, mid_c, high_c, last_c FROM forecasts
		WHERE guild = $1 AND channel = $2 AND heap_id = $3 AND made_ms >= $4 ORDER BY made_ms, ahead_ms`,
		at.Guild, at.Channel, id, since.UnixMilli())
}

func scanForecast(scan func(...any) error) (process.Forecast, error) {
	var f process.Forecast
	var made, ahead int64
	var last sql.NullFloat64
	if err := scan(&made, &ahead, &f.Band.Low, &f.Band.Mid, &f.Band.High, &last); err != nil {
		return f, err
	}
	f.At, f.Ahead, f.LastC = instant(made), time.Duration(ahead)*time.Millisecond, math.NaN()
	if last.Valid {
		f.LastC = last.Float64
	}
	return f, nil
}
