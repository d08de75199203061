package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"heapside/calc/duty"
	"heapside/calc/heap"
)

// Watched is a place where something goes on: heaps that are not finished, or
// reminders.
type Watched struct {
	Place    heap.Place
	Heaps    int // that are not finished
	Plan     duty.Plan
	Zone     string // of its garden; empty when none is set
	Lat, Lon *float64
	Standing duty.Standing // without Unsaid

	// Waits is since when a post of the place could be sent; zero when none waits.
	Waits time.Time
}

// watched lists the places where something goes on.
func watched(ctx context.Context, db *sql.DB) ([]Watched, error) {
	const list = `SELECT w.guild, w.channel,
		(SELECT count(*) FROM heaps h WHERE h.guild = w.guild AND h.channel = w.channel AND h.finished_ms IS NULL),
		coalesce(p.plan, '{}'), p.due_ms, coalesce(p.due_day, ''), coalesce(p.trouble, ''), p.trouble_ms,
		coalesce(g.zone, ''), g.lat, g.lon,
		(SELECT min(o.next_ms) FROM posts o WHERE o.guild = w.guild AND o.channel = w.channel AND o.state IN ('due', 'leased'))
		FROM (SELECT guild, channel FROM heaps WHERE finished_ms IS NULL UNION SELECT guild, channel FROM plans) w
		LEFT JOIN plans p ON p.guild = w.guild AND p.channel = w.channel
		LEFT JOIN gardens g ON g.guild = w.guild AND g.channel = w.channel
		ORDER BY w.guild, w.channel`
	all, err := collect(ctx, db, scanWatched, list)
	var busy []Watched
	for _, w := range all {
		if w.Heaps > 0 || w.Plan.On {
			busy = append(busy, w)
		}
	}
	return busy, err
}

func scanWatched(scan func(...any) error) (Watched, error) {
	var w Watched
	var plan []byte
	var day string
	var due, since, waits sql.NullInt64
	err := scan(&w.Place.Guild, &w.Place.Channel, &w.Heaps, &plan, &due, &day, &w.Standing.Trouble, &since, &w.Zone, &w.Lat, &w.Lon, &waits)
	if err != nil {
		return w, err
	}
	if err := json.Unmarshal(plan, &w.Plan); err != nil {
		return w, fmt.Errorf("plan: %w", err)
	}
	w.Standing.Since, w.Waits = instant(since.Int64), instant(waits.Int64)
	w.Standing.Next, err = occurrence(due, day)
	return w, err
}

// lastSent is when the newest message that nobody asked for went out; zero when
// none did.
func lastSent(ctx context.Context, db *sql.DB) (time.Time, error) {
	var at sql.NullInt64
	err := db.QueryRowContext(ctx, "SELECT max(sent_ms) FROM posts WHERE state = 'sent'").Scan(&at)
	return instant(at.Int64), err
}

// Server is the process that serves the record at path, as it wrote itself
// down; empty when none does. It makes no file.
func Server(path string) string {
	abs, err := filepath.Abs(path)
	if err != nil {
		return ""
	}
	if _, err := os.Stat(abs + serveSuffix); err != nil {
		return ""
	}
	return server(abs)
}
