package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"syscall"
	"time"

	"heapside/storage"
)

// littleDisk is too little room: a record grows by a few megabytes a year (own
// choice).
const littleDisk = 100 << 20 // bytes

// lookAtSettings says what is set where, and never to what.
func (d *doctor) lookAtSettings(ctx context.Context) {
	_, err := d.serverLog(false)
	if err == nil {
		err = d.checkMetrics(ctx)
	}
	switch {
	case d.unread != nil:
		d.bad("settings", "%s", sentence(d.unread))
	case err != nil:
		d.bad("settings", "%s", sentence(err))
	case d.settingsFile == "":
		d.ok("settings", "From the environment alone; no file of settings is named.")
	case len(d.configured) == 0:
		d.ok("settings", "“%s” is understood and sets nothing.", d.settingsFile)
	default:
		d.ok("settings", "“%s” is understood and sets %s.", d.settingsFile, listed(slices.Sorted(maps.Keys(d.configured))))
	}
}

func (d *doctor) lookAtRecord(ctx context.Context) {
	if _, err := os.Stat(d.db); errors.Is(err, fs.ErrNotExist) {
		d.warn("record", "There is no record “%s” yet; the first start makes it. If there should be one, say where with HEAPSIDE_DB.", d.db)
		return
	}
	f, err := storage.Inspect(ctx, d.db)
	d.record = f
	switch {
	case err != nil:
		d.bad("record", "%s", sentence(err))
		return
	case f.Damage != "":
		d.bad("record", "“%s” is damaged (%s). Stop the server and put a backup back: heapside restore FILE.", d.db, f.Damage)
		return
	case f.Version < f.Newest:
		d.warn("record", "%s; its tables are of version %d, the next start brings them to %d. Make a backup first.", contents(f), f.Version, f.Newest)
	default:
		d.ok("record", "%s, tables of version %d.", contents(f), f.Version)
	}
	var strange []string
	for _, zone := range f.Zones {
		if _, err := time.LoadLocation(zone); err != nil {
			strange = append(strange, fmt.Sprintf("“%s”", zone))
		}
	}
	if len(strange) > 0 {
		d.bad("zone", "The time zone %s of a garden is not known here; set another with the command garden.", listed(strange))
		return
	}
	if len(f.Zones) == 0 {
		d.ok("zone", "No garden has set one yet; their times are UTC until then.")
		return
	}
	d.ok("zone", "%s in use, all known.", counted(len(f.Zones), "time zone", "time zones"))
}

func (d *doctor) lookAtDisk() {
	var s syscall.Statfs_t
	if err := syscall.Statfs(filepath.Dir(d.db), &s); err != nil {
		d.bad("disk", "The folder of the record cannot be looked at (%v). Name one that is there with HEAPSIDE_DB.", err)
		return
	}
	free := uint64(s.Bavail) * uint64(s.Bsize)
	if free < littleDisk {
		d.bad("disk", "Only %d MB are free beside the record. Make room.", free>>20)
		return
	}
	d.ok("disk", "%d MB are free.", free>>20)
}
