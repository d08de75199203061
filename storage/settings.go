package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"time"

	"heapside/calc/audit"
	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
)

// Garden returns the settings of a place; the zero Garden, with Place set, when
// none are stored.
func (db *DB) Garden(ctx context.Context, at heap.Place) (heap.Garden, error) {
	found, err := read(ctx, db, "read garden", scanGarden, selectGarden, at.Guild, at.Channel)
	g := first(found)
	g.Place = at
	return g, err
}

const selectGarden = "SELECT zone, lat, lon, measures, organisers, read_only, language FROM gardens WHERE guild = $1 AND channel = $2"

func scanGarden(scan func(...any) error) (heap.Garden, error) {
	var g heap.Garden
	var lat, lon sql.NullFloat64
	var measures, organisers, readOnly []byte
	if err := scan(&g.Zone, &lat, &lon, &measures, &organisers, &readOnly, &g.Language); err != nil {
		return g, err
	}
	g.Located, g.Lat, g.Lon = lat.Valid, lat.Float64, lon.Float64
	if err := json.Unmarshal(measures, &g.Measures); err != nil {
		return g, fmt.Errorf("measures: %w", err)
	}
	if err := json.Unmarshal(organisers, &g.Organisers); err != nil {
		return g, fmt.Errorf("organisers: %w", err)
	}
	if err := json.Unmarshal(readOnly, &g.ReadOnly); err != nil {
		return g, fmt.Errorf("those who may only read: %w", err)
	}
	return g, nil
}

// SaveGarden replaces the settings of g.Place. Acts tells what that changed.
func (db *DB) SaveGarden(ctx context.Context, g heap.Garden, by heap.Person, now time.Time) error {
	if g.Located && !(math.Abs(g.Lat) <= 90 && math.Abs(g.Lon) <= 180) {
		return fault.New(fault.OutOfRange, "%g, %g is not a place on earth: give a latitude from -90 to 90 and a longitude from -180 to 180.", g.Lat, g.Lon)
	}
	if err := short(text{"A time zone", g.Zone}, text{"A language", g.Language}); err != nil {
		return err
	}
	measures, err := json.Marshal(g.Measures)
	if err != nil {
		return fmt.Errorf("save garden: %w", err)
	}
	organisers, err := json.Marshal(g.Organisers)
	if err != nil {
		return fmt.Errorf("save garden: %w", err)
	}
	readOnly, err := json.Marshal(g.ReadOnly)
	if err != nil {
		return fmt.Errorf("save garden: %w", err)
	}
	if err := errors.Join(small("The list of measures", measures), small("The list of organisers", organisers),
		small("The list of those who may only read", readOnly)); err != nil {
		return err
	}
	lat := sql.NullFloat64{Float64: g.Lat, Valid: g.Located}
	lon := sql.NullFloat64{Float64: g.Lon, Valid: g.Located}
	return db.rule(ctx, g.Place, by, now, audit.Settings, "save garden", func(ctx context.Context, tx *sql.Tx) ([]audit.Change, error) {
		found, err := collect(ctx, tx, scanGarden, selectGarden, g.Place.Guild, g.Place.Channel)
		if err != nil {
			return nil, err
		}
		const save = `INSERT INTO gardens (guild, channel, zone, lat, lon, measures, organisers, read_only, language) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)
			ON CONFLICT (guild, channel) DO UPDATE SET zone = excluded.zone, lat = excluded.lat, lon = excluded.lon,
			measures = excluded.measures, organisers = excluded.organisers, read_only = excluded.read_only, language = excluded.language`
		_, err = tx.ExecContext(ctx, save, g.Place.Guild, g.Place.Channel, g.Zone, lat, lon, string(measures), string(organisers), string(readOnly), g.Language)
		if err != nil {
			return nil, err
		}
		return audit.Garden(first(found), g)
	})
}

// Stock lists the materials on hand by material id.
func (db *DB) Stock(ctx context.Context, at heap.Place) ([]heap.Stock, error) {
	return read(ctx, db, "list stock", scanStock, selectStock+" ORDER BY material", at.Guild, at.Channel)
}

const selectStock = "SELECT material, said, volume_l, at_ms FROM stock WHERE guild = $1 AND channel = $2"

func scanStock(scan func(...any) error) (heap.Stock, error) {
	var s heap.Stock
	var at int64
	err := scan(&s.Material, &s.Said, &s.VolumeL, &at)
	s.At = instant(at)
	return s, err
}

// SaveStock sets what is on hand of materials, all or none; a volume of 0
// removes one. Acts tells what that changed.
func (db *DB) SaveStock(ctx context.Context, at heap.Place, by heap.Person, now time.Time, stock ...heap.Stock) error {
	for _, s := range stock {
		if err := checkStock(s); err != nil {
			return err
		}
	}
	return db.rule(ctx, at, by, now, audit.Stock, "save stock", func(ctx context.Context, tx *sql.Tx) ([]audit.Change, error) {
		var changes []audit.Change
		for _, s := range stock {
			was, err := collect(ctx, tx, scanStock, selectStock+" AND material = $3", at.Guild, at.Channel, s.Material)
			if err != nil {
				return nil, err
			}
			if err := saveStock(ctx, tx, at, s); err != nil {
				return nil, err
			}
			changed, err := audit.OnHandOf(first(was), s)
			if err != nil {
				return nil, err
			}
			changes = append(changes, changed...)
		}
		return changes, nil
	})
}

func checkStock(s heap.Stock) error {
	if !(s.VolumeL >= 0 && s.VolumeL <= heap.MaxLitres) {
		return fault.New(fault.OutOfRange, "%g litres cannot be on hand: give 0 to %g.", s.VolumeL, heap.MaxLitres)
	}
	if s.Material == "" {
		return fault.New(fault.Missing, "Which material is on hand? Give its name.")
	}
	return short(text{"A material", s.Material}, text{"An amount", s.Said})
}

func saveStock(ctx context.Context, tx *sql.Tx, at heap.Place, s heap.Stock) error {
	if s.VolumeL == 0 {
		_, err := tx.ExecContext(ctx, "DELETE FROM stock WHERE guild = $1 AND channel = $2 AND material = $3",
			at.Guild, at.Channel, s.Material)
		return err
	}
	err := room(ctx, tx, "SELECT count(*) FROM stock WHERE guild = $1 AND channel = $2 AND material <> $3", at, s.Material, maxStock)
	if err != nil {
		return err
	}
	const save = `INSERT INTO stock (guild, channel, material, said, volume_l, at_ms) VALUES ($1, $2, $3, $4, $5, $6)
		ON CONFLICT (guild, channel, material) DO UPDATE SET said = excluded.said, volume_l = excluded.volume_l, at_ms = excluded.at_ms`
	_, err = tx.ExecContext(ctx, save, at.Guild, at.Channel, s.Material, s.Said, s.VolumeL, milliseconds(s.At))
	return err
}

// room refuses one material more than a channel can keep.
func room(ctx context.Context, tx *sql.Tx, count string, at heap.Place, id string, most int) error {
	var others int
	if err := tx.QueryRowContext(ctx, count, at.Guild, at.Channel, id).Scan(&others); err != nil {
		return err
	}
	if others >= most {
		return fault.New(fault.TooLong, "%d materials are already kept here, which is as many as one channel can have. Replace or remove one first.", others)
	}
	return nil
}

// Materials lists the place's own feedstocks by id.
func (db *DB) Materials(ctx context.Context, at heap.Place) ([]feedstock.Feedstock, error) {
	return read(ctx, db, "list materials", scanMaterial, selectMaterials+" ORDER BY id", at.Guild, at.Channel)
}

const selectMaterials = "SELECT feedstock FROM materials WHERE guild = $1 AND channel = $2"

func scanMaterial(scan func(...any) error) (feedstock.Feedstock, error) {
	var f feedstock.Feedstock
	var data []byte
	if err := scan(&data); err != nil {
		return f, err
	}
	if err := json.Unmarshal(data, &f); err != nil {
		return f, fmt.Errorf("material: %w", err)
	}
	return f, nil
}

// SaveMaterial stores one of the place's own feedstocks, replacing that of the
// same id. Acts tells what that changed.
func (db *DB) SaveMaterial(ctx context.Context, at heap.Place, f feedstock.Feedstock, by heap.Person, now time.Time) error {
	if f.ID == "" {
		return fault.New(fault.Missing, "A material needs a name.")
	}
	if err := short(text{"A material's name", f.ID}); err != nil {
		return err
	}
	data, err := json.Marshal(f)
	if err != nil {
		return fmt.Errorf("save material %q: %w", f.ID, err)
	}
	if err := small("A material", data); err != nil {
		return err
	}
	return db.rule(ctx, at, by, now, audit.Stock, "save material", func(ctx context.Context, tx *sql.Tx) ([]audit.Change, error) {
		err := room(ctx, tx, "SELECT count(*) FROM materials WHERE guild = $1 AND channel = $2 AND id <> $3", at, f.ID, maxMaterials)
		if err != nil {
			return nil, err
		}
		found, err := collect(ctx, tx, scanMaterial, selectMaterials+" AND id = $3", at.Guild, at.Channel, f.ID)
		if err != nil {
			return nil, err
		}
		const save = `INSERT INTO materials (guild, channel, id, feedstock) VALUES ($1, $2, $3, $4)
			ON CONFLICT (guild, channel, id) DO UPDATE SET feedstock = excluded.feedstock`
		if _, err = tx.ExecContext(ctx, save, at.Guild, at.Channel, f.ID, string(data)); err != nil {
			return nil, err
		}
		was := first(found)
		if len(found) == 0 {
			was, _ = feedstock.Default().ByID(f.ID)
		}
		return audit.Material(was, f)
	})
}
