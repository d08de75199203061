package measure

import "math"

// rung is how amounts of about one size are printed: counted in one unit, in
// steps of a part of it.
type rung struct {
	below float64 // litres; used below one bucket
	unit  Unit
	part  float64 // of the unit
}

func (g rung) step() float64 { return g.part * g.unit.Size.Typical }

// Amounts above these many buckets are carried by the barrow, and counted in
// whole buckets or whole barrows: own choice.
const (
	wholeBuckets = 10
	barrowsAbove = 24
	wholeBarrows = 100
)

// smallRungs are the steps below one bucket by system.
var smallRungs = map[System][]rung{
	Metric: {
		{0.05, trueByID["ml"].unit(), 1},
		{0.5, trueByID["ml"].unit(), 50},
		{3, trueByID["l"].unit(), 0.5},
		{math.Inf(1), trueByID["l"].unit(), 1},
	},
	US:       gallonRungs(US),
	Imperial: gallonRungs(Imperial),
}

func gallonRungs(sys System) []rung {
	m := Measures{System: sys}
	gallon, _, _ := m.resolve("gallon")
	pint, _, _ := m.resolve("pint")
	ounce, _, _ := m.resolve("fluid ounce")
	return []rung{
		{pint.Size.Typical, ounce, 1},
		{gallon.Size.Typical, pint, 0.5},
		{math.Inf(1), gallon, 0.25},
	}
}

// bigRung is the step from one bucket up.
func (m Measures) bigRung(litres float64, bucket Unit) rung {
	b := bucket.Size.Typical
	switch {
	case litres < wholeBuckets*b*under:
		return rung{unit: bucket, part: 0.5}
	case litres < barrowsAbove*b*under:
		return rung{unit: bucket, part: 1}
	}
	barrow := containers[barrowAt].unit(m)
	if barrow.Size.Typical < 2*b || barrow.Size.Typical > 20*b {
		return rung{unit: bucket, part: 1} // a group's own sizes that barrows do not help to count
	}
	if litres < wholeBarrows*b*under {
		return rung{unit: barrow, part: 0.5}
	}
	return rung{unit: barrow, part: 1}
}

var bucketAt, barrowAt = containerPos["bucket"], containerPos["barrow"]

// under keeps an amount of a whole number of buckets, give or take the last
// bits of a float, on the rung that begins there.
const under = 1 - 1e-9

// rungOf is how an amount of that many litres is counted.
func (m Measures) rungOf(litres float64) rung {
	bucket := containers[bucketAt].unit(m)
	if !(litres < bucket.Size.Typical*under) {
		return m.bigRung(litres, bucket)
	}
	small := smallRungs[Metric]
	if own, ok := smallRungs[m.System]; ok {
		small = own
	}
	for _, g := range small {
		if litres < g.below*under {
			return g
		}
	}
	return small[len(small)-1]
}

// Step is what a solid amount of that many litres is rounded to, in litres:
// half buckets from one bucket up, litres (or parts of a gallon) below, whole
// buckets and barrows for many. Own choice.
func (m Measures) Step(litres float64) float64 { return m.rungOf(litres).step() }

// SayVolume writes litres of material in what the group carries: "3 litres",
// "half a bucket", "2½ buckets", "4 barrows (about 28 buckets)". It is within half a Step.
func (m Measures) SayVolume(litres float64) string {
	if !(litres > 0) {
		return m.Style.word("nothing")
	}
	n, unit := m.carried(litres)
	if n == 0 {
		g := m.rungOf(litres)
		return m.Style.lessThan(m.Style.counted(g.part, g.unit.One, g.unit.Many))
	}
	return m.sayCarried(n, unit, litres)
}

// carried is an amount of that many litres as SayVolume counts it: how many of
// which unit, 0 when it is less than half a step.
func (m Measures) carried(litres float64) (float64, Unit) {
	g := m.rungOf(litres)
	bucket, _ := m.unitByID("bucket")
	if b := bucket.Size.Typical; litres < b && math.Abs(litres-b/2) <= g.step()/2*(1-1e-9) {
		return 0.5, bucket
	}
	n := roundTo(litres/g.unit.Size.Typical, g.part)
	if up := m.rungOf(n * g.unit.Size.Typical); n > 0 && up.unit.ID != g.unit.ID { // 11.8 litres is 1 bucket
		steps := n * g.unit.Size.Typical / up.step()
		if math.Abs(steps-math.Round(steps)) < 1e-6 {
			return math.Round(steps) * up.part, up.unit
		}
	}
	return n, g.unit
}

func (m Measures) sayCarried(n float64, unit Unit, litres float64) string {
	said := m.Style.counted(n, unit.One, unit.Many)
	if unit.ID == "barrow" {
		bucket, _ := m.unitByID("bucket")
		said += " (" + m.sayBuckets(litres/bucket.Size.Typical) + ")"
	}
	return said
}

// bulkFrom is the volume in litres from which a heap is told in cubes.
const bulkFrom = 100

// SayBulk writes the volume of a heap: "0.9 m³ (about 75 buckets)", "1.2 cubic
// yards (about 48 buckets)".
func (m Measures) SayBulk(litres float64) string {
	if !(litres >= bulkFrom) {
		return m.SayVolume(litres)
	}
	cube := trueByID["m3"]
	if m.System == US || m.System == Imperial {
		cube = trueByID["yd3"]
	}
	bucket, _ := m.unitByID("bucket")
	number, name := sayCubes(litres/cube.size), cube.many
	if number == "1" {
		name = cube.one
	}
	return m.Style.number(number) + " " + m.Style.word(name) + " (" + m.sayBuckets(litres/bucket.Size.Typical) + ")"
}

// sayBuckets writes so many buckets: "about 28 buckets".
func (m Measures) sayBuckets(n float64) string {
	return m.Style.phrase("about %s", m.Style.number(sayMany(n))+" "+m.Style.word("buckets"))
}

// sayMany writes a number of buckets no finer than anybody counts them.
func sayMany(n float64) string {
	switch {
	case n < 50:
		return Say(math.Round(n))
	case n < 500:
		return Say(roundTo(n, 5))
	default:
		return Say(roundTo(n, 50))
	}
}

// sayCubes writes cubic metres or yards to about a twentieth.
func sayCubes(v float64) string {
	switch {
	case v < 0.5:
		return decimals(v, 2)
	case v < 0.975:
		return decimals(roundTo(v, 0.05), 2)
	case v < 10:
		return decimals(v, 1)
	default:
		return groups(decimals(v, 0))
	}
}

// WaterStep is what an amount of water of that many litres is rounded to, in
// litres: half litres, litres and fives; a US or imperial group's gallons by
// quarters, halves and wholes. Own choice.
func (m Measures) WaterStep(litres float64) float64 {
	unit, steps := m.waterScale()
	for _, s := range steps {
		if litres < s.below*unit.Size.Typical {
			return s.part * unit.Size.Typical
		}
	}
	return unit.Size.Typical
}

type waterStep struct{ below, part float64 } // both in the unit

func (m Measures) waterScale() (Unit, []waterStep) {
	if m.System == US || m.System == Imperial {
		gallon, _, _ := m.resolve("gallon")
		return gallon, []waterStep{{2, 0.25}, {10, 0.5}, {math.Inf(1), 1}}
	}
	return trueByID["l"].unit(), []waterStep{{5, 0.5}, {30, 1}, {math.Inf(1), 5}}
}

// SayWater writes litres of water: "half a litre", "4½ litres", "20 litres (2
// cans)", "1¼ gallons".
func (m Measures) SayWater(litres float64) string {
	if !(litres > 0) {
		return m.Style.word("nothing")
	}
	unit, _ := m.waterScale()
	can, _ := m.unitByID("can")
	size := unit.Size.Typical
	n := roundTo(litres/size, m.WaterStep(litres)/size)
	if n == 0 {
		return m.Style.word("a splash")
	}
	said := m.Style.counted(n, unit.One, unit.Many)
	cans := n * size / can.Size.Typical
	if halves := math.Round(cans * 2); cans >= 2-nearQuarter {
		carried := m.Style.counted(halves/2, can.One, can.Many)
		if !(math.Abs(cans*2-halves) < 1e-6) {
			carried = m.Style.phrase("about %s", carried)
		}
		said += " (" + carried + ")"
	}
	return said
}
