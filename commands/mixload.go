package commands

import (
	"regexp"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/measure"
	"heapside/calc/mix"
)

// load is a list of amounts read and looked up: the items as said, as parts of
// a mix and as mass and volume; notes tell of corrected slips.
type load struct {
	items  []measure.Item
	parts  []mix.Part
	inputs []mix.Input
	notes  []string
}

// load reads the list of amounts of materials in an option.
func (d *desk) load(option string) (load, error) {
	l, err := d.readLoad(d.arg(option))
	if len(l.items) == 0 {
		return l, d.howMuch(option, err)
	}
	return l, of(option, err)
}

// readLoad reads a list of amounts of materials, in English and the language of
// the call; where its words leave a doubt so, in the other languages. A number
// such as 10,000 is ten thousand in some and ten in others: no doubt is worth
// taking it for another than this garden's people write.
func (d *desk) readLoad(text string) (load, error) {
	l, err := d.loadIn(d.local, text)
	if err == nil && len(l.notes) == 0 || wasRefused(err) || fault.Is(err, fault.OutOfRange) || otherwise.MatchString(text) {
		return l, err
	}
	for _, language := range feedstock.Languages() {
		other, e := d.loadIn(reading(d.m, language), text)
		if e == nil && len(other.notes) == 0 || wasRefused(e) {
			return other, e
		}
	}
	return l, err
}

// otherwise are numbers that other languages read otherwise.
var otherwise = regexp.MustCompile(`\d[.,]\d{3}(?:\D|$)`)

func wasRefused(err error) bool { return fault.Is(err, fault.Refused) }

// reading are the measures of a group as amounts are read in a language.
func reading(m measure.Measures, language string) measure.Measures {
	m.Style = measure.Style{Language: language}
	return m
}

// loadIn reads a list of amounts in one language and English.
func (d *desk) loadIn(m measure.Measures, text string) (l load, err error) {
	if l.items, err = m.ParseItems(text); err != nil {
		return load{}, err
	}
	for _, item := range l.items {
		f, note, err := d.material(item.Material, item.Said)
		if err != nil {
			return l, err
		}
		l.notes = appendNew(l.notes, note)
		l.parts = append(l.parts, partOf(item, f))
	}
	l.inputs, err = mix.Resolve(l.parts)
	return l, err
}

func partOf(item measure.Item, f feedstock.Feedstock) mix.Part {
	part := mix.Part{Feedstock: f}
	if v, ok := item.Amount.Volume(); ok {
		part.Volume = v
	} else {
		part.Mass, _ = item.Amount.Mass()
	}
	return part
}

func materialsOf(parts []mix.Part) []feedstock.Feedstock {
	out := make([]feedstock.Feedstock, len(parts))
	for i, p := range parts {
		out[i] = p.Feedstock
	}
	return out
}
