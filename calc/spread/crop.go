package spread

// Crop is what compost goes on. DepthCm is what is spread when nobody says;
// from LowCm to TopCm is usual; over MostCm is said to be thick. None of these has
// a published source (common practice, no source). Published examples reckon with
// 2 in on a field (Cornell), which is the most for beds here, and with a third of
// an inch (Deschutes County), which lies within the lawn's.
type Crop struct {
	Name                  string
	DepthCm, LowCm, TopCm float64
	MostCm                float64
	Use                   string // of maturity.Assess, that the compost has to be fit for
	Note                  string // how it goes on
}

// The crops by name.
const (
	Beds       = "beds"
	Vegetables = "vegetables"
	Seedlings  = "seedlings"
	Lawn       = "lawn"
	AcidLovers = "acid lovers"
	Trees      = "trees"
)

// planting and mulch are uses as calc/maturity names them.
const (
	planting = "planting and vegetable beds"
	mulch    = "mulch"
)

// crops are in the order of a list for people; the first stands where none was said.
var crops = []Crop{
	{Beds, 3, 2, 3, 5.1, planting, "Fork it in lightly, or leave it on top for the worms."},
	{Vegetables, 3, 2, 3, 5.1, planting, "Fork it in lightly, or leave it on top for the worms."},
	{Seedlings, 1, 0.5, 1, 2, "seed and potting mixes", "In pots and seed trays it is part of the mix, at most a quarter to a third of it."},
	{Lawn, 0.5, 0.3, 1, 1, "lawn top dressing", "Sieve it and brush it in: the tips of the grass have to show."},
	{AcidLovers, 3, 2, 5, 8, mulch, "Leaf mould or bark suits them better than compost."},
	{Trees, 5, 5, 8, 10, mulch, "Keep it a hand's breadth off the trunk."},
}

// Crops lists the crops.
func Crops() []Crop { return append([]Crop(nil), crops...) }

// CropNamed is the crop of that name; the first one, and false, when there is none.
func CropNamed(name string) (Crop, bool) {
	for _, c := range crops {
		if c.Name == name {
			return c, true
		}
	}
	return crops[0], false
}

// TooThick says that a layer is thicker than the crop takes well.
func (c Crop) TooThick(depthCm float64) bool { return depthCm > c.MostCm }
