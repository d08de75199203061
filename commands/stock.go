package commands

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/commands/speech"
)

func (a *Assistant) stockCommand() Command {
	return Command{Name: "stock", Summary: "Materials on hand, and your own materials", Subs: []Command{
		{Name: "list", Summary: "What is on hand", Run: a.with((*desk).stockList)},
		{Name: "set", Summary: "Say what is on hand; “none of straw” removes it", Run: a.with((*desk).stockSet),
			Options: []Option{{Name: "what", Summary: "e.g. 3 sacks of dry leaves, 1 bale of straw", Kind: Load, Words: true, Required: true}}},
		{Name: "weigh", Summary: "Replace a default weight by your own scale's", Run: a.with((*desk).stockWeigh),
			Options: []Option{{Name: "what", Summary: "e.g. one bucket of our grass is 3.1 kg", Words: true, Required: true}}},
		{Name: "define", Summary: "A material of your own, from a lab sheet or your best guess", Run: a.with((*desk).stockDefine),
			Options: []Option{
				{Name: "name", Summary: "what you call it", Words: true, Required: true},
				{Name: "cn", Summary: "carbon to nitrogen, e.g. 25"},
				{Name: "nitrogen", Summary: "nitrogen in % of dry mass, e.g. 1.8"},
				{Name: "carbon", Summary: "carbon in % of dry mass, e.g. 44"},
				{Name: "ash", Summary: "ash in % of dry mass, e.g. 8"},
				{Name: "moisture", Summary: "water in % of fresh mass, e.g. 65"},
				{Name: "density", Summary: "loose weight in kg per m3, e.g. 250"},
			}},
	}}
}

func (d *desk) stockList() (Reply, error) {
	stock, err := d.store.Stock(d.ctx, d.call.Place)
	if err != nil {
		return Reply{}, err
	}
	own, err := d.store.Materials(d.ctx, d.call.Place)
	if err != nil {
		return Reply{}, err
	}
	r := Reply{Headline: d.in.Word("Nothing is in stock. Say what there is, e.g. stock set 3 sacks of dry leaves"), Values: map[string]Value{}}
	if len(stock) == 0 {
		r.lead(Action{Label: d.in.Word("What is on hand"), Line: "stock set"})
	}
	var lines []string
	for _, s := range stock {
		name := s.Material
		if f, ok := d.table.ByID(s.Material); ok {
			name = d.called(f)
		}
		lines = append(lines, d.in.Say("%s: %s, as of %s", capital(name), d.local.SayVolume(s.VolumeL), d.day(s.At)))
		r.Values["stock."+s.Material] = Value{s.VolumeL, "l"}
	}
	if len(lines) > 0 {
		r.Headline = d.in.Say("%d materials are in stock.", len(lines))
		if len(lines) == 1 {
			r.Headline = d.in.Word("1 material is in stock.")
		}
		r.Body = append(r.Body, Block{Lines: lines})
	}
	if len(own) > 0 {
		var said []string
		for _, f := range own {
			said = append(said, d.in.Say("%s: C:N %s, %s %% water, %s kg/m³", capital(d.called(f)), whole(f.CN.Typical), whole(f.Moisture.Typical), whole(f.Density.Typical)))
		}
		r.Body = append(r.Body, Block{Title: d.in.Word("Your own figures"), Lines: said})
	}
	return r, nil
}

// noneOf finds "none of straw", "no straw", "0 bales of straw", "straw: none" and
// "kein Stroh mehr".
var noneOf = regexp.MustCompile(`(?i)^\s*(?:(?:none of|no more|no quedan?|no|0|zero|keine?n?|plus de|nada de|geen)\s+|plus d['’])(?:(?:bucket|barrow|sack|bag|bale|litre|liter)s?\s+(?:of\s+)?)?(?:the\s+)?(.+?)(?:\s+(?:mehr|meer|más))?\s*$|^\s*(.+?)\s*[:=]?\s+(?:none|gone|used up)\s*$`)

func (d *desk) stockSet() (Reply, error) {
	if gone := noneOf.FindStringSubmatch(d.arg("what")); gone != nil {
		return d.stockGone(gone[1] + gone[2])
	}
	load, err := d.load("what")
	if err != nil {
		return Reply{}, err
	}
	var said []string
	var stock []heap.Stock
	for i, in := range load.inputs {
		stock = append(stock, heap.Stock{Material: in.Feedstock.ID, Said: load.items[i].Said, VolumeL: in.VolumeL, At: d.call.Now})
		said = append(said, d.in.Say("%s of %s", d.local.SayVolume(in.VolumeL), d.called(in.Feedstock)))
	}
	if err := d.store.SaveStock(d.ctx, d.call.Place, d.call.By, d.call.Now, stock...); err != nil {
		return Reply{}, err
	}
	r := Reply{Headline: d.in.Say("In stock now: %s.", speech.Joined{Words: said, Last: "and"})}
	r.Body = []Block{{Lines: append(load.notes, d.in.Word("“mix … from:stock” adds only what is here."))}}
	return r, nil
}

func (d *desk) stockGone(words string) (Reply, error) {
	f, note, err := d.material(words, words)
	if err != nil {
		return Reply{}, of("what", err)
	}
	if err := d.store.SaveStock(d.ctx, d.call.Place, d.call.By, d.call.Now, heap.Stock{Material: f.ID, At: d.call.Now}); err != nil {
		return Reply{}, err
	}
	r := Reply{Headline: d.in.Say("No %s in stock any more.", d.called(f))}
	if note != "" {
		r.Body = []Block{{Lines: []string{note}}}
	}
	return r, nil
}

// weighing splits "one bucket of our grass is 3.1 kg" into amount and weight.
var weighing = regexp.MustCompile(`(?is)^(.*?\S)\s*(?:\s(?:is|are|was|were|weigh(?:s|ed)?|comes to|came to|holds|has|makes)\s|=|:)\s*(?:about\s+)?(.+)$`)

func (d *desk) stockWeigh() (Reply, error) {
	unclear := fault.New(fault.NotUnderstood, "“%s” is no weighing I can read. Say for example “one bucket of our grass is 3.1 kg”.", quote(d.arg("what")))
	halves := weighing.FindStringSubmatch(d.arg("what"))
	if halves == nil {
		return Reply{}, unclear
	}
	items, err := d.local.ParseItems(halves[1])
	if err != nil {
		return Reply{}, err
	}
	scale, err := d.local.ParseAmount(halves[2])
	if err != nil {
		return Reply{}, err
	}
	mass, isMass := scale.Mass()
	volume, isVolume := items[0].Amount.Volume()
	if len(items) != 1 || !isMass || !isVolume {
		return Reply{}, unclear
	}
	f, note, err := d.material(items[0].Material, items[0].Said)
	if err != nil {
		return Reply{}, of("what", err)
	}
	unit, _ := d.m.Unit("bucket")
	bucket := func(kgPerM3 float64) string { return d.weighed(kgPerM3 / 1000 * unit.Size.Typical) }
	density := mass.Typical / volume.Typical * 1000
	if density < minDensity || density > maxDensity {
		return Reply{}, fault.New(fault.OutOfRange, "That would be %s a bucket; loose material weighs from %s to %s a bucket. Was it the weight without the bucket?",
			bucket(density), bucket(minDensity), bucket(maxDensity))
	}
	was := f.Density.Typical
	f = f.WithDensity(density, "group")
	if err := d.store.SaveMaterial(d.ctx, d.call.Place, f, d.call.By, d.call.Now); err != nil {
		return Reply{}, err
	}
	r := Reply{
		Headline: d.in.Say("From now on a bucket of %s counts as %s here (until now %s).", d.called(f), bucket(density), bucket(was)),
		Values:   map[string]Value{"density": {density, "kg/m3"}, "material": {f.ID, ""}},
	}
	if note != "" {
		r.Body = []Block{{Lines: []string{note}}}
	}
	return r, nil
}

// weighed prints a mass to a tenth, as a kitchen scale shows it.
func (d *desk) weighed(kg float64) string {
	unit, _ := d.m.Unit("kg")
	if d.system() != measure.Metric {
		unit, _ = d.m.Unit("lb")
	}
	return d.local.SayNumber(math.Round(kg/unit.Size.Typical*10)/10) + " " + unit.One
}

// Densities a weighing can show, kg/m3: fluffy leaves to wet soil, the bounds of the table.
const minDensity, maxDensity = 5, 1600

func (d *desk) stockDefine() (Reply, error) {
	var sheet feedstock.Lab
	for _, field := range []struct {
		option string
		into   *float64
	}{{"cn", &sheet.CN}, {"nitrogen", &sheet.Nitrogen}, {"carbon", &sheet.Carbon}, {"ash", &sheet.Ash},
		{"moisture", &sheet.Moisture}, {"density", &sheet.Density}} {
		if err := parseNumber(field.option, d.arg(field.option), field.into); err != nil {
			return Reply{}, err
		}
	}
	f, like, err := d.define(clip(oneLine(d.arg("name")), maxName), sheet)
	if e, ok := fault.As(err); ok && e.Code == fault.Missing {
		return Reply{}, &unsaid{sentence: e, option: "cn", also: []string{"nitrogen", "moisture", "density"}}
	}
	if err != nil {
		return Reply{}, err
	}
	if err := d.store.SaveMaterial(d.ctx, d.call.Place, f, d.call.By, d.call.Now); err != nil {
		return Reply{}, err
	}
	hint := "stock weigh one bucket of " + f.Name + " is 3 kg"
	return Reply{
		Headline: d.in.Say("%s is known here now: C:N %s (%s–%s), %s %% water, %s kg/m³.", capital(d.called(f)), whole(f.CN.Typical),
			whole(f.CN.Low), whole(f.CN.High), whole(f.Moisture.Typical), whole(f.Density.Typical)),
		Body:   []Block{{Lines: []string{d.filled(like) + " " + d.in.Say("Weigh a bucket to sharpen it: %s", hint)}}},
		Values: map[string]Value{"material": {f.ID, ""}, "cn": {f.CN.Typical, "1"}, "carbon": {f.Carbon.Typical, "% of dry mass"}, "moisture": {f.Moisture.Typical, "%"}, "density": {f.Density.Typical, "kg/m3"}},
	}, nil
}

// filled says from where came what a lab sheet left out.
func (d *desk) filled(like *feedstock.Feedstock) string {
	if like == nil {
		return d.in.Word("What the sheet did not say is filled with wide defaults.")
	}
	return d.in.Say("What the sheet did not say is filled with what is usual for %s.", d.called(*like))
}

// define makes a material from a lab sheet. What the sheet leaves out, and the
// cautions, come from the material of the same words where the table has one,
// which is like; nil when there is none. What stays out of a shared heap stays out by any sheet.
func (d *desk) define(name string, sheet feedstock.Lab) (f feedstock.Feedstock, like *feedstock.Feedstock, err error) {
	match := feedstock.Default().In(d.in.Code()).Find(name)
	switch match.Outcome {
	case feedstock.Banned:
		return f, nil, d.refused(match.Refusal)
	case feedstock.Found:
		if strings.EqualFold(name, match.Feedstock.In(d.in.Code())) {
			name = match.Feedstock.Name
		}
		f, err = sharpened(match.Feedstock, name, sheet)
		return f, &match.Feedstock, err
	}
	f, err = feedstock.FromLab(name, sheet)
	return f, nil, err
}

// sharpened is a known material with what a lab sheet says of it.
func sharpened(known feedstock.Feedstock, name string, sheet feedstock.Lab) (feedstock.Feedstock, error) {
	carbonGiven := sheet.Carbon > 0 || sheet.Ash > 0
	if !carbonGiven && sheet.CN == 0 {
		sheet.Carbon = known.Carbon.Typical
	}
	lab, err := feedstock.FromLab(name, sheet)
	if err != nil {
		return lab, err
	}
	f := known
	f.CN, f.Mineral = lab.CN, false
	if lab.Name != known.Name {
		f.ID, f.Name, f.Aliases = lab.ID, lab.Name, nil
	}
	if carbonGiven {
		f.Carbon, f.Volatile = lab.Carbon, lab.Volatile
	}
	if sheet.Moisture > 0 {
		f.Moisture = lab.Moisture
	}
	if sheet.Density > 0 {
		f.Density = lab.Density
	}
	return f, nil
}

// thousands is a number whose commas part thousands; other commas are decimal.
var thousands = regexp.MustCompile(`^[1-9]\d{0,2}(?:,\d{3})+$`)

// labExamples are likely values of what a lab sheet names.
var labExamples = map[string]string{"cn": "25", "nitrogen": "1.8", "carbon": "44", "ash": "8", "moisture": "65", "density": "250"}

// parseNumber reads a number that may be absent, with a decimal comma or a unit sign.
func parseNumber(name, said string, into *float64) error {
	if said == "" {
		return nil
	}
	text := strings.NewReplacer("%", "", ":1", "", " ", "", "kg/m3", "", "kg/m³", "").Replace(strings.ToLower(said))
	comma := "."
	if thousands.MatchString(text) {
		comma = ""
	}
	text = strings.ReplaceAll(text, ",", comma)
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(v > 0) || v > 1e6 {
		return fault.New(fault.OutOfRange, "“%s” is no number for %s. Say a positive number, e.g. %s:%s.", quote(said), name, name, labExamples[name])
	}
	*into = v
	return nil
}
