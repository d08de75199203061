package measure

// container is something people carry material in. us is its range in a US
// group where that differs; the zero Range means it does not.
type container struct {
	id        string
	dim       Dimension
	size, us  Range // litres, or kilograms for a bale
	one, many string
	source    string
	words     []string
	vague     bool // also the tail of other names ("tea bags"): never read from the end of a piece
}

var containers = []container{
	{id: "bucket", dim: Volume, size: Range{10, 12, 14}, us: Range{0.85 * 5 * usGallonL, 5 * usGallonL, 5.3 * usGallonL},
		one: "bucket", many: "buckets", words: []string{"pail", "pails", "bkt", "bkts"},
		source: "common practice, no source; US: the 5 US gallon pail of Washington State Univ. Puyallup's bulk-density procedure, spread own choice"},
	{id: "barrow", dim: Volume, size: Range{80, 85, 110}, us: Range{3 * cubicFootL, 4 * cubicFootL, 6 * cubicFootL},
		one: "barrow", many: "barrows", words: []string{"wheelbarrow", "wheelbarrows", "wheel barrow", "wheel barrows"}, source: commonPractice},
	{id: "sack", dim: Volume, size: Range{40, 60, 80}, one: "sack", many: "sacks", source: commonPractice},
	{id: "bag", dim: Volume, size: Range{30, 50, 80}, us: Range{80, 30 * usGallonL, 125}, one: "bag", many: "bags", vague: true,
		source: "common practice, no source; US: the 30 gallon paper leaf bag"},
	{id: "bin_bag", dim: Volume, size: Range{50, 70, 90}, one: "bin bag", many: "bin bags", source: commonPractice,
		words: []string{"bin liner", "bin liners", "binbag", "binbags", "garbage bag", "garbage bags", "trash bag", "trash bags", "rubbish bag", "rubbish bags", "refuse sack", "refuse sacks"}},
	{id: "leaf_bag", dim: Volume, size: Range{80, 110, 125}, one: "leaf bag", many: "leaf bags", source: commonPractice,
		words: []string{"yard waste bag", "yard waste bags", "garden bag", "garden bags", "garden waste bag", "garden waste bags"}},
	{id: "carrier_bag", dim: Volume, size: Range{10, 15, 20}, one: "carrier bag", many: "carrier bags", source: commonPractice,
		words: []string{"shopping bag", "shopping bags", "grocery bag", "grocery bags"}},
	{id: "bulk_bag", dim: Volume, size: Range{700, 800, 1000}, one: "bulk bag", many: "bulk bags", source: commonPractice,
		words: []string{"builders bag", "builders bags", "builder's bag", "builder's bags", "ton bag", "ton bags", "tonne bag", "tonne bags"}},
	{id: "bale", dim: Mass, size: Range{10, 15, 18}, one: "bale", many: "bales",
		source: "small rectangular straw bale by weight, because it is pressed; common practice, no source"},
	{id: "armful", dim: Volume, size: Range{15, 25, 40}, one: "armful", many: "armfuls", words: []string{"armfull", "armfulls", "armsful", "armload", "armloads"}, source: ownChoice},
	{id: "handful", dim: Volume, size: Range{0.15, 0.3, 0.5}, one: "handful", many: "handfuls", words: []string{"handfull", "handfulls", "handsful", "fistful", "fistfuls"}, source: ownChoice},
	{id: "trug", dim: Volume, size: Range{10, 15, 30}, one: "trug", many: "trugs", source: commonPractice},
	{id: "basket", dim: Volume, size: Range{10, 20, 40}, one: "basket", many: "baskets", vague: true, source: ownChoice},
	{id: "caddy", dim: Volume, size: Range{5, 6, 8}, one: "kitchen caddy", many: "kitchen caddies", source: commonPractice,
		words: []string{"caddy", "caddies", "food caddy", "food caddies", "kitchen pail", "kitchen pails", "countertop pail", "countertop pails"}},
	{id: "crate", dim: Volume, size: Range{25, 40, 60}, one: "crate", many: "crates", source: commonPractice},
	{id: "box", dim: Volume, size: Range{15, 30, 60}, one: "box", many: "boxes", vague: true, source: ownChoice},
	{id: "shovelful", dim: Volume, size: Range{3, 5, 7}, one: "shovelful", many: "shovelfuls", source: commonPractice,
		words: []string{"shovel", "shovels", "shovelfull", "shovelfulls"}},
	{id: "spadeful", dim: Volume, size: Range{2, 4, 6}, one: "spadeful", many: "spadefuls", source: commonPractice,
		words: []string{"spade", "spades", "spadefull", "spadefulls"}},
	{id: "forkful", dim: Volume, size: Range{5, 8, 15}, one: "forkful", many: "forkfuls", source: ownChoice,
		words: []string{"fork", "forks", "forkfull", "forkfulls", "pitchfork", "pitchforks"}},
	{id: "wheelie_bin", dim: Volume, size: Range{120, 240, 240}, us: Range{240, 96 * usGallonL, 96 * usGallonL},
		one: "wheelie bin", many: "wheelie bins", words: []string{"wheely bin", "wheely bins", "wheeled bin", "wheeled bins", "yard cart", "yard carts"},
		source: "sizes marked on the bins; common practice, no source"},
	{id: "dustbin", dim: Volume, size: Range{80, 90, 120}, us: Range{75, 32 * usGallonL, 130}, one: "dustbin", many: "dustbins", source: commonPractice,
		words: []string{"dust bin", "dust bins", "trash can", "trash cans", "garbage can", "garbage cans"}},
	{id: "tub", dim: Volume, size: Range{5, 25, 42}, one: "tub", many: "tubs", vague: true, source: ownChoice},
	{id: "pot", dim: Volume, size: Range{2, 5, 10}, one: "pot", many: "pots", vague: true, source: ownChoice},
	{id: "jug", dim: Volume, size: Range{1, 2, 4}, one: "jug", many: "jugs", vague: true, source: ownChoice},
	{id: "jar", dim: Volume, size: Range{0.4, 0.7, 1}, one: "jar", many: "jars", vague: true, source: ownChoice},
	{id: "cup", dim: Volume, size: Range{0.2, 0.25, 0.3}, one: "cup", many: "cups", words: []string{"mug", "mugs"}, vague: true, source: commonPractice},
	{id: "can", dim: Volume, size: Range{8, 10, 10}, us: Range{1.5 * usGallonL, 2 * usGallonL, 2 * usGallonL}, one: "can", many: "cans", vague: true,
		words:  []string{"watering can", "watering cans", "wateringcan", "wateringcans"},
		source: "watering can of 10 litres, US of 2 gallons; common practice, no source"},
}

// vagueMeasures are words that sound like measures and say nothing.
var vagueMeasures = wordSet("pile piles heap heaps load loads lot lots bin bins bit bits bunch bunches truckload truckloads trailer trailers trailerload bundle bundles layer layers stack stacks part parts")

// sizeSpread is how far a bucket that a group measured itself may be off: own choice.
const sizeSpread = 0.05

// unit is the container as one group has it: its own size where it set one.
func (c container) unit(m Measures) Unit {
	u := Unit{ID: c.id, Dim: c.dim, Size: c.size, One: c.one, Many: c.many, Container: true, Source: c.source}
	if m.System == US && c.us != (Range{}) {
		u.Size = c.us
	}
	if own, ok := m.Sizes[c.id]; ok && c.dim == Volume && own >= minAmount && own <= maxAmount {
		u.Size = Range{own * (1 - sizeSpread), own, own * (1 + sizeSpread)}
		u.Source = "the group's own measure"
	}
	return u
}
