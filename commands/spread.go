package commands

import (
	"strconv"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/measure"
	"heapside/calc/spread"
)

func (a *Assistant) spreadCommand() Command {
	return Command{
		Name: "spread", Summary: "How much compost a bed needs, how far an amount goes, what a heap gives; ash and lime",
		Options: []Option{
			{Name: "what", Summary: "e.g. 3 m2 5 cm, or 2 barrows, or ash 20 m2", Words: true},
			{Name: "area", Summary: "of the bed, e.g. 3 m2, 4 x 1.2 m or 4 x 8 ft"},
			{Name: "depth", Summary: "of the layer, e.g. 3 cm, 5 mm or 2 in", Kind: Hint, Choices: picks("1 cm", "", "2 cm", "", "3 cm", "", "5 cm", "", "10 cm", "")},
			{Name: "beds", Summary: "how many beds of that area, e.g. 4"},
			{Name: "heap", Summary: "where it comes from: what that heap gives, now and when ready", Kind: HeapName},
			{Name: "crop", Summary: "what it goes on", Kind: Pick, Choices: cropChoices()},
		},
		Run: a.with((*desk).spread),
	}
}

func cropChoices() []Choice {
	var choices []Choice
	for _, c := range spread.Crops() {
		choices = append(choices, Choice{Name: c.Name, Value: c.Name})
	}
	return choices
}

// spreading is what somebody wants to spread. Zeros were not said.
type spreading struct {
	material string // wood-ash, garden-lime or compost-unfinished; empty for compost
	amount   measure.Amount
	litres   float64 // of compost at hand
	beds     float64
	bedM2    float64 // of one bed
	depthCm  float64
	crop     spread.Crop
	cropSaid bool
	heap     *source // nil: none was named
}

// areaM2 is the area of all beds, 0 when neither area nor beds were said.
func (s spreading) areaM2() float64 {
	switch {
	case s.bedM2 == 0:
		return s.beds * spread.BedM2
	case s.beds == 0:
		return s.bedM2
	}
	return s.beds * s.bedM2
}

// layerCm is the depth that was said, or what is usual on the crop.
func (s spreading) layerCm() float64 {
	if s.depthCm > 0 {
		return s.depthCm
	}
	return s.crop.DepthCm
}

// needL is how many litres are wanted: the amount that was said, or what the
// beds take; 0 when neither is known.
func (s spreading) needL() float64 {
	if s.litres > 0 {
		return s.litres
	}
	return spread.Litres(s.areaM2(), s.layerCm())
}

// use is what the cautions go by.
func (s spreading) use() spread.Use {
	u := spread.Use{Crop: s.crop, Rough: s.material == roughID}
	if s.heap != nil {
		u.Heap, u.Stage = &s.heap.State, s.heap.ripe
	}
	return u
}

// oneBedM2 is the bed that what there is gets counted in.
func (s spreading) oneBedM2() float64 {
	if s.bedM2 > 0 {
		return s.bedM2
	}
	return spread.BedM2
}

func (d *desk) spread() (Reply, error) {
	s, err := d.spreading()
	if err != nil {
		return Reply{}, err
	}
	switch {
	case s.material == ashID:
		return d.spreadAsh(s), nil
	case s.material == limeID:
		return d.spreadLime(s), nil
	}
	var r Reply
	switch {
	case s.litres > 0 && s.areaM2() > 0 && s.depthCm == 0:
		r = d.spreadDepth(s)
	case s.litres > 0:
		r = d.spreadCover(s)
	case s.areaM2() > 0:
		r = d.spreadNeed(s)
	case s.heap != nil:
		r, err = d.spreadHeap(s)
	case s.cropSaid:
		return d.usualReply(s), nil
	default:
		return Reply{}, d.nothingToSpread()
	}
	if err != nil {
		return Reply{}, err
	}
	if s.heap != nil && s.needL() > 0 {
		d.addHeap(&r, s)
	}
	r.Body = append(r.Body, Block{Lines: d.layerLines(s)})
	r.Cautions = spread.Cautions(s.use())
	r.Basis = append(r.Basis, "depths and ways to spread: "+spread.CommonPractice)
	return r, nil
}

func (d *desk) nothingToSpread() error {
	heaps, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return err
	}
	name := "North Bay"
	if open := kept(heaps); len(open) > 0 {
		name = open[0].Name
	}
	return &unsaid{
		sentence: fault.New(fault.Missing, "Say how big the bed is, how much compost there is, or which heap it comes from: spread 3 m2 5 cm, spread 2 barrows, or spread heap:\"%s\".", name),
		option:   "what",
	}
}

// mostBeds is how many beds a group has at most: own choice.
const mostBeds = 1000

// bedsSaid reads how many beds.
func bedsSaid(said string) (float64, error) {
	n, err := strconv.Atoi(said)
	if err != nil {
		n = numberOf(said)
	}
	if n < 1 || n > mostBeds {
		return 0, fault.New(fault.OutOfRange, "“%s” is no number of beds: say a whole one from 1 to %s, such as beds:4.", quote(said), measure.Say(mostBeds))
	}
	return float64(n), nil
}

// layerLines say what the depth rests on and how the compost goes on the crop.
func (d *desk) layerLines(s spreading) []string {
	var lines []string
	if s.depthCm == 0 && (s.litres == 0 || s.areaM2() == 0) {
		lines = append(lines, d.in.Say("No depth was said: %s is usual on %s. Another: depth:%s",
			d.usual(s.crop), d.in.Word(s.crop.Name), strings.ReplaceAll(d.m.SayDepth(s.crop.LowCm), " ", "")))
	}
	if s.depthCm > 0 && s.crop.TooThick(s.depthCm) {
		lines = append(lines, d.in.Say("That is thick for %s: %s is usual.", d.in.Word(s.crop.Name), d.usual(s.crop)))
	}
	return append(lines, d.in.Word(s.crop.Note))
}

// usual is the span of depths that is usual on a crop.
func (d *desk) usual(c spread.Crop) string {
	return d.spanOf(d.local.SayDepth(c.LowCm), d.local.SayDepth(c.TopCm))
}

// usualReply answers how thick compost goes on a crop.
func (d *desk) usualReply(s spreading) Reply {
	return Reply{
		Headline: d.in.Say("On %s %s is usual. Say the area for an amount: spread 10 m2 crop:\"%s\"", d.in.Word(s.crop.Name), d.usual(s.crop), s.crop.Name),
		Body:     []Block{{Lines: []string{d.in.Word(s.crop.Note)}}},
		Cautions: spread.Cautions(s.use()),
		Basis:    []string{"depths and ways to spread: " + spread.CommonPractice},
		Values:   d.layerValues(s),
	}
}

// spanOf joins two amounts, with their unit once where it is the same: "2 to 3 cm".
func (d *desk) spanOf(low, high string) string {
	if low == high {
		return low
	}
	n, unit, ok := strings.Cut(low, " ")
	if _, same, also := strings.Cut(high, " "); ok && also && same == unit {
		return d.in.Say("%s to %s", n, high)
	}
	return d.in.Say("%s to %s", low, high)
}
