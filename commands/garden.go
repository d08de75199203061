package commands

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/commands/speech"
)

func (a *Assistant) gardenCommand() Command {
	return Command{Name: "garden", Summary: "Place, time zone, units, bucket size, organisers", Subs: []Command{
		{Name: "show", Summary: "All settings", Run: a.with((*desk).gardenShow)},
		{Name: "units", Summary: "Metric, US or imperial", Run: a.with((*desk).gardenUnits), Options: []Option{
			{Name: "system", Summary: "which units", Kind: Pick, Words: true, Required: true, Choices: picks("metric", "litres, kg, °C", "us", "gallons, pounds, °F", "imperial", "imperial gallons, pounds, °C")},
			{Name: "thermometer", Summary: "what your thermometer shows", Kind: Pick, Choices: picks("C", "", "F", "")}}},
		{Name: "measure", Summary: "How much your own bucket, barrow or sack holds", Run: a.with((*desk).gardenMeasure), Options: []Option{
			{Name: "what", Summary: "e.g. our bucket holds 14 l", Words: true, Required: true}}},
		{Name: "zone", Summary: "The time zone of the garden", Run: a.with((*desk).gardenZone), Options: []Option{
			{Name: "zone", Summary: "its name, e.g. Europe/London or America/New_York", Kind: ZoneName, Words: true, Required: true}}},
		{Name: "place", Summary: "Where the garden is", Run: a.with((*desk).gardenPlace), Options: []Option{
			{Name: "place", Summary: "a town, or latitude and longitude, e.g. 51.75, -1.26", Words: true, Required: true}}},
		{Name: "organiser", Summary: "Appoint somebody who may change settings and take back others' entries", Run: a.with((*desk).gardenOrganiser), Options: []Option{
			{Name: "person", Summary: "who, as a mention or name", Kind: Person, Words: true, Required: true},
			{Name: "remove", Summary: "take the right away again", Kind: Pick, Choices: picks("yes", "")}}},
		{Name: "readonly", Summary: "Somebody who may ask, but not log or change anything", Run: a.with((*desk).gardenReadOnly), Options: []Option{
			{Name: "person", Summary: "who, as a mention or name", Kind: Person, Words: true, Required: true},
			{Name: "remove", Summary: "let them log again", Kind: Pick, Choices: picks("yes", "")}}},
		a.gardenLanguageCommand(),
	}}
}

func (d *desk) gardenShow() (Reply, error) {
	lines := []string{d.in.Say("Units: %s", d.units()), d.in.Say("Time zone: %s", d.zone)}
	if d.garden.Located {
		lines = append(lines, d.in.Say("Place: %s", latLon(d.garden.Lat, d.garden.Lon)))
	} else {
		lines = append(lines, d.in.Say("Place: not set (%s)", "garden place 51.75, -1.26"))
	}
	lines = append(lines, d.in.Say("Language: %s", d.language()))
	var own []string
	for _, u := range d.m.Units() {
		if _, set := d.m.Sizes[u.ID]; set {
			own = append(own, d.in.Word(u.One)+" "+d.holds(u.Size.Typical))
		}
	}
	if len(own) > 0 {
		lines = append(lines, d.in.Say("Your measures: %s", strings.Join(own, ", ")))
	} else {
		lines = append(lines, d.in.Say("Your measures: the defaults (%s)", "garden measure our bucket holds 14 l"))
	}
	if len(d.garden.Organisers) > 0 {
		lines = append(lines, d.in.Say("Organisers: %s", d.in.List(namesOfPeople(d.garden.Organisers), "and")))
	} else {
		lines = append(lines, d.in.Word("Organisers: those the platform names"))
	}
	if len(d.garden.ReadOnly) > 0 {
		lines = append(lines, d.in.Say("May only ask: %s", d.in.List(namesOfPeople(d.garden.ReadOnly), "and")))
	}
	return Reply{Headline: d.in.Word("The garden's settings."), Body: []Block{{Lines: lines}},
		Values: map[string]Value{"zone": {d.zone.String(), ""}, "system": {string(d.system()), ""}}}, nil
}

func (d *desk) system() measure.System {
	if d.m.System == "" {
		return measure.Metric
	}
	return d.m.System
}

func (d *desk) units() string {
	scale := "°C"
	if d.m.Fahrenheit {
		scale = "°F"
	}
	return d.in.Say("%s, thermometer in %s", d.in.Word(string(d.system())), scale)
}

// holds prints what a container holds, as exactly as it was measured.
func (d *desk) holds(l float64) string {
	if gallon, ok := d.m.Unit("gallon"); ok && d.system() != measure.Metric {
		l /= gallon.Size.Typical
		if math.Abs(l-1) < 0.005 {
			return "1 " + d.in.Word("gallon")
		}
		return d.hundredths(l) + " " + d.in.Word("gallons")
	}
	return d.hundredths(l) + " l"
}

// hundredths writes a number with two decimals at most.
func (d *desk) hundredths(v float64) string {
	written := strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
	_, decimals, _ := strings.Cut(written, ".")
	return d.local.SayPlaces(v, len(decimals))
}

// saveGarden stores changed settings and answers with a sentence.
func (d *desk) saveGarden(g heap.Garden, format string, args ...any) (Reply, error) {
	if err := d.store.SaveGarden(d.ctx, g, d.call.By, d.call.Now); err != nil {
		return Reply{}, err
	}
	return Reply{Headline: d.in.Say(format, args...)}, nil
}

func (d *desk) gardenUnits() (Reply, error) {
	g := d.garden
	g.Measures.System = measure.System(d.arg("system"))
	g.Measures.Fahrenheit = g.Measures.System == measure.US
	if t := d.arg("thermometer"); t != "" {
		g.Measures.Fahrenheit = t == "F"
	}
	d.m = g.Measures
	return d.saveGarden(g, "Units are %s from now on.", d.units())
}

// holding and sizeAfter split "our bucket holds 14 l" and "bucket 14 l" into the
// container and its volume.
var (
	holding   = regexp.MustCompile(`(?is)^(?:one\s|a\s|our\s|the\s|my\s)?\s*(?:own\s+)?([\p{L} -]+?)\s*(?:\s(?:holds?|is|are|has|takes|fits)\s|=|:)\s*(?:about\s+)?(.+)$`)
	sizeAfter = regexp.MustCompile(`(?is)^(?:one\s|a\s|our\s|the\s|my\s)?\s*(?:own\s+)?([\p{L} -]+?)\s+(?:about\s+)?([\d½¼¾].*|half.*)$`)
)

// Sizes a container can have, in litres. Own choice.
const minContainerL, maxContainerL = 0.05, 3000

func (d *desk) gardenMeasure() (Reply, error) {
	said := holding.FindStringSubmatch(d.arg("what"))
	if said == nil {
		said = sizeAfter.FindStringSubmatch(d.arg("what"))
	}
	if said == nil {
		return Reply{}, fault.New(fault.NotUnderstood, "“%s” names no container and size. Say for example “our bucket holds 14 l”.", quote(d.arg("what")))
	}
	unit, ok := d.m.Unit(strings.TrimPrefix(strings.ToLower(oneLine(said[1])), "our "))
	if !ok || !unit.Container {
		return Reply{}, fault.New(fault.Unknown, "“%s” is no container I know. These can be set: %s.", quote(said[1]), d.containers())
	}
	amount, err := d.local.ParseAmount(said[2])
	if err != nil {
		return Reply{}, err
	}
	volume, isVolume := amount.Volume()
	if !isVolume || volume.Typical < minContainerL || volume.Typical > maxContainerL {
		return Reply{}, fault.New(fault.OutOfRange, "“%s” is no size for a %s. Say a volume such as 14 litres or 3 gallons.", quote(said[2]), fault.Say(unit.One))
	}
	g := d.garden
	g.Measures.Sizes = map[string]float64{}
	for id, size := range d.garden.Measures.Sizes {
		g.Measures.Sizes[id] = size
	}
	g.Measures.Sizes[unit.ID] = volume.Typical
	return d.saveGarden(g, "A %s holds %s here from now on. What was logged before keeps its amounts.", d.in.Word(unit.One), d.holds(volume.Typical))
}

func (d *desk) containers() speech.Joined {
	var names []string
	for _, u := range d.m.Units() {
		if u.Container && u.Dim == measure.Volume {
			names = append(names, d.in.Word(u.One))
		}
	}
	return speech.Joined{Words: names, Last: "and"}
}

func (d *desk) gardenZone() (Reply, error) {
	name := strings.ReplaceAll(oneLine(d.arg("zone")), " ", "_")
	zone, ok := findZone(name)
	if !ok {
		return Reply{}, fault.New(fault.Unknown, "“%s” is no time zone name. Say one like Europe/London, America/New_York or UTC.", quote(d.arg("zone")))
	}
	g := d.garden
	g.Zone = zone.String()
	r, err := d.saveGarden(g, "The garden's time zone is %s: it is %s there now.", g.Zone, d.in.Day(d.call.Now.In(zone))+d.call.Now.In(zone).Format(" 15:04"))
	if err != nil {
		return Reply{}, err
	}
	d.garden, d.zone = g, zone
	r.Body, err = d.reminderBlock()
	return r, err
}

var letters = regexp.MustCompile(`[A-Za-z]+`)

// findZone takes a time zone's name in any case, and a city alone: "london" is
// Europe/London.
func findZone(name string) (*time.Location, bool) {
	titled := letters.ReplaceAllStringFunc(name, func(w string) string { return capital(strings.ToLower(w)) })
	tries := []string{name, strings.ToUpper(name), titled}
	for _, region := range []string{"Europe", "America", "Australia", "Asia", "Africa", "Pacific", "Atlantic", "Indian"} {
		tries = append(tries, region+"/"+titled)
	}
	for _, try := range tries {
		if zone, err := time.LoadLocation(try); err == nil && try != "" && !strings.EqualFold(try, "local") {
			return zone, true
		}
	}
	return nil, false
}
