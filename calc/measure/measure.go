// Package measure reads and prints amounts, temperatures, lengths and times as
// people say them. It is pure: a group's own measures come in as a value.
package measure

// Range is a low, typical and high value in one unit, Low <= Typical <= High.
type Range struct{ Low, Typical, High float64 }

// Exact is the range of a value without spread.
func Exact(v float64) Range { return Range{v, v, v} }

// Scale multiplies all three values by f >= 0.
func (r Range) Scale(f float64) Range { return Range{r.Low * f, r.Typical * f, r.High * f} }

// Times multiplies two independent non-negative ranges end by end.
func (r Range) Times(o Range) Range {
	return Range{r.Low * o.Low, r.Typical * o.Typical, r.High * o.High}
}

// Dimension is what a unit measures.
type Dimension uint8

// The dimensions an amount of material can have.
const (
	Volume Dimension = iota + 1 // litres
	Mass                        // kilograms
)

// System is the family of units a group prints in.
type System string

// The systems a group can choose.
const (
	Metric   System = "metric"
	US       System = "us"
	Imperial System = "imperial"
)

// Unit is one thing amounts are counted in. Size is litres (Volume) or
// kilograms (Mass) in one unit: exact for true units, a range for containers.
type Unit struct {
	ID        string // "bucket", "l", "kg"
	Dim       Dimension
	Size      Range
	One, Many string // "bucket", "buckets"
	Container bool   // a bucket or barrow rather than a unit of measure
	Source    string
}

// Measures is how one group measures: its system, its thermometer and the
// sizes in litres of its own containers by unit id. The zero value is metric
// with default containers and Celsius, said in English.
type Measures struct {
	System     System
	Fahrenheit bool
	Sizes      map[string]float64
	Style      Style `json:"-"` // of who reads it, not of the group's record
}

// Amount is a counted unit as somebody said it.
type Amount struct {
	Said  string // the words, e.g. "2-3 buckets"
	Count Range
	Unit  Unit
}

// Volume is the amount in litres; false when it was said as a mass.
func (a Amount) Volume() (Range, bool) {
	return a.Count.Times(a.Unit.Size), a.Unit.Dim == Volume
}

// Mass is the amount in kilograms; false when it was said as a volume.
func (a Amount) Mass() (Range, bool) {
	return a.Count.Times(a.Unit.Size), a.Unit.Dim == Mass
}

// Item is an amount of something named in words that are not yet looked up.
type Item struct {
	Amount   Amount
	Material string // "grass clippings"; empty when only an amount was said
	Said     string // the whole piece
}
