package commands

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"heapside/calc/fault"
)

// coordinates finds a latitude and a longitude, each with an optional letter.
var coordinates = regexp.MustCompile(`(?i)^\s*([-+]?\d+(?:\.\d+)?)\s*°?\s*([NS])?\s*[,; ]\s*([-+]?\d+(?:\.\d+)?)\s*°?\s*([EW])?\s*$`)

func (d *desk) gardenPlace() (Reply, error) {
	bad := fault.New(fault.NotUnderstood, "“%s” is no place I can read. Say latitude and longitude in degrees, e.g. 51.75, -1.26 or 51.75 N, 1.26 W.", quote(d.arg("place")))
	said := coordinates.FindStringSubmatch(d.arg("place"))
	if said == nil {
		return d.placeByName(d.arg("place"), bad)
	}
	lat, errLat := coordinate(said[1], said[2], "S")
	lon, errLon := coordinate(said[3], said[4], "W")
	if whole := said[2] == "" && said[4] == "" && !strings.ContainsAny(d.arg("place"), ". "); whole {
		return Reply{}, bad // "51,75" is one number with a decimal comma
	}
	if errLat != nil || errLon != nil || math.Abs(lat) > 90 || math.Abs(lon) > 180 {
		return Reply{}, bad
	}
	return d.savePlace(Spot{Lat: lat, Lon: lon})
}

// placeByName looks a town up. The only hit is taken; of several, buttons offer
// the choice.
func (d *desk) placeByName(name string, unread error) (Reply, error) {
	if d.weather == nil || strings.ContainsAny(name, "0123456789") {
		return Reply{}, unread
	}
	ctx, cancel := context.WithTimeout(d.ctx, weatherIn)
	defer cancel()
	spots, err := d.weather.Places(ctx, name)
	if err != nil {
		return Reply{}, err
	}
	if len(spots) == 1 {
		return d.savePlace(spots[0])
	}
	r := Reply{Headline: d.in.Say("There are several places called “%s”. Which one?", quote(name)), Private: true}
	var lines []string
	for _, spot := range spots {
		lines = append(lines, fmt.Sprintf("%s: %.2f, %.2f", spot.Name, spot.Lat, spot.Lon))
		r.Actions = append(r.Actions, Action{Label: clip(spot.Name, maxActionLabel), Line: fmt.Sprintf("garden place %.2f, %.2f", spot.Lat, spot.Lon)})
	}
	r.Body = []Block{{Lines: lines}}
	return r, nil
}

// savePlace keeps where the garden is, and its time zone where none is set yet.
func (d *desk) savePlace(spot Spot) (Reply, error) {
	g := d.garden
	g.Located, g.Lat, g.Lon = true, spot.Lat, spot.Lon
	where := latLon(spot.Lat, spot.Lon)
	if spot.Name != "" {
		where = spot.Name + " (" + where + ")"
	}
	if g.Zone == "" && spot.Zone != "" {
		g.Zone = spot.Zone
		return d.saveGarden(g, "The garden is at %s, time zone %s. Nothing closer than about a kilometre is kept.", where, g.Zone)
	}
	return d.saveGarden(g, "The garden is at %s. Nothing closer than about a kilometre is kept.", where)
}

// latLon writes a place as it is typed.
func latLon(lat, lon float64) string { return fmt.Sprintf("%.2f, %.2f", lat, lon) }

// coordinate reads one coordinate, rounded to two decimals: weather needs no more.
func coordinate(number, letter, negative string) (float64, error) {
	v, err := strconv.ParseFloat(number, 64)
	if strings.EqualFold(letter, negative) {
		v = -v
	}
	return math.Round(v*100) / 100, err
}
