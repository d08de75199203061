package main

import (
	"fmt"
	"time"

	"heapside/calc/duty"
	"heapside/storage"
)

// overdueAfter is when a reminder that nobody took up is one too late: the
// engine looks every two seconds and tries again within ten minutes (own choice).
const overdueAfter = 15 * time.Minute

// lookAtReminders says what of the reminders stands still, by the record alone.
// Those of the local chat come only while it is open.
func (d *doctor) lookAtReminders() {
	now, server := d.now(), storage.Server(d.db)
	var on int
	var refused, gone, waiting []string
	var oldest, next time.Time
	for _, w := range d.record.Watched {
		if w.Place.Guild == localGuild || !w.Plan.On {
			continue
		}
		on++
		since := fmt.Sprintf("%s since %s", w.Place.Channel, instantly(w.Standing.Since))
		switch w.Standing.Trouble {
		case duty.Refused:
			refused = append(refused, since)
		case duty.Gone:
			gone = append(gone, since)
			continue
		}
		if at := overdue(w, now); !at.IsZero() {
			waiting, oldest = append(waiting, w.Place.Channel), earliest(oldest, at)
		}
		next = earliest(next, w.Standing.Next.At)
	}
	if len(refused) > 0 {
		d.warn("reminders", "%s no messages of the bot: %s. Give the bot View Channel, Send Messages and Embed Links there (%s); it tries again every three hours.",
			take(len(refused)), listed(refused), wherePermissions)
	}
	if len(gone) > 0 {
		d.warn("reminders", "They rest where the channel was not to be found: %s. All on record is kept, and they go on when somebody logs something there.", listed(gone))
	}
	switch {
	case on == 0:
		d.ok("reminders", "None are on.")
	case len(waiting) > 0 && server == "":
		d.warn("reminders", "They wait since %s (channel %s), for nothing serves this record. Start it: heapside serve.", instantly(oldest), listed(waiting))
	case len(waiting) > 0:
		d.bad("reminders", "They wait since %s (channel %s), although process %s serves this record. Look at its log for what stops it, and start it anew.", instantly(oldest), listed(waiting), server)
	case server == "":
		d.warn("reminders", "On in %s, but nothing serves this record. Start it: heapside serve.", counted(on, "channel", "channels"))
	default:
		d.ok("reminders", "On in %s, served by process %s%s%s.", counted(on, "channel", "channels"), server,
			known("; the last came ", d.record.Sent), known("; the next is due ", next))
	}
}

// overdue is since when a place waits for what the engine should have taken up
// long ago; zero when it does not.
func overdue(w storage.Watched, now time.Time) time.Time {
	zone, err := time.LoadLocation(w.Zone)
	if err != nil {
		zone = time.UTC
	}
	due := w.Standing.Next.At
	if !due.IsZero() {
		due = w.Plan.Speakable(due, zone)
	}
	at := earliest(w.Waits, due)
	if at.IsZero() || now.Sub(at) < overdueAfter {
		return time.Time{}
	}
	return at
}

// earliest is the first of two moments; one that is zero is none.
func earliest(a, b time.Time) time.Time {
	if a.IsZero() || !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}

func take(n int) string {
	if n == 1 {
		return "A channel takes"
	}
	return fmt.Sprintf("%d channels take", n)
}

// instantly is a moment as whoever runs the program reads it.
func instantly(t time.Time) string { return t.UTC().Format("Mon 2 Jan 15:04 UTC") }

// known says a moment after some words; nothing when there is none.
func known(words string, t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return words + instantly(t)
}
