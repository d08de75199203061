package measure

// Exact factors. Inch, foot, yard and pound follow the international yard and
// pound agreement of 1959 (from memory); the US gallon is 231 cubic inches and
// the imperial gallon 4.54609 litres (both from memory). The litre sizes are
// tested against the table of Alberta Agriculture, Agdex 400/28-3, Table 4.1.3.
const (
	inchCm          = 2.54
	footCm          = 12 * inchCm
	cubicInchL      = inchCm * inchCm * inchCm / 1000
	cubicFootL      = 12 * 12 * 12 * cubicInchL
	cubicYardL      = 27 * cubicFootL
	usGallonL       = 231 * cubicInchL
	imperialGallonL = 4.54609
	usBushelL       = 2150.42 * cubicInchL // from memory
	poundKg         = 0.45359237
)

const (
	fromAgreement  = "international yard and pound agreement of 1959 (from memory)"
	fromSI         = "exact by definition of the SI"
	fromUSGallon   = "US gallon of 231 cubic inches (from memory); Alberta Agriculture, Agdex 400/28-3, Table 4.1.3"
	fromImpGallon  = "imperial gallon of 4.54609 litres (from memory); Alberta Agriculture, Agdex 400/28-3, Table 4.1.3"
	commonPractice = "common practice, no source"
	ownChoice      = "own choice"
	asSaid         = "as said"
)

// trueUnit is a unit of measure with every way it is written in lower case.
// The words of a shared name ("gallon") are in sharedUnits instead.
type trueUnit struct {
	id        string
	dim       Dimension
	size      float64 // litres or kilograms
	one, many string
	source    string
	words     []string
}

var trueUnits = []trueUnit{
	{"l", Volume, 1, "litre", "litres", fromSI, []string{"l", "lt", "ltr", "ltrs", "liter", "liters", "lit", "lits"}},
	{"dl", Volume, 0.1, "dl", "dl", fromSI, []string{"decilitre", "decilitres", "deciliter", "deciliters"}},
	{"cl", Volume, 0.01, "cl", "cl", fromSI, []string{"centilitre", "centilitres", "centiliter", "centiliters"}},
	{"ml", Volume, 0.001, "ml", "ml", fromSI, []string{"mls", "millilitre", "millilitres", "milliliter", "milliliters"}},
	{"m3", Volume, 1000, "m³", "m³", fromSI, []string{"cubic metre", "cubic metres", "cubic meter", "cubic meters", "cu m", "cubic m", "cbm"}},
	{"cm3", Volume, 0.001, "cm³", "cm³", fromSI, []string{"cc", "ccs", "cubic centimetre", "cubic centimetres", "cubic centimeter", "cubic centimeters", "cubic cm", "cu cm"}},
	{"in3", Volume, cubicInchL, "cubic inch", "cubic inches", fromAgreement, []string{"cu in", "cubic in"}},
	{"ft3", Volume, cubicFootL, "cubic foot", "cubic feet", fromAgreement, []string{"cu ft", "cubic ft", "cft", "cubic foots"}},
	{"yd3", Volume, cubicYardL, "cubic yard", "cubic yards", fromAgreement, []string{"cu yd", "cu yds", "cubic yd", "cubic yds"}},
	{"us_gallon", Volume, usGallonL, "US gallon", "US gallons", fromUSGallon, []string{"us gal", "us gals"}},
	{"us_quart", Volume, usGallonL / 4, "US quart", "US quarts", fromUSGallon, []string{"us qt", "us qts"}},
	{"us_pint", Volume, usGallonL / 8, "US pint", "US pints", fromUSGallon, []string{"us pt", "us pts"}},
	{"us_cup", Volume, usGallonL / 16, "US cup", "US cups", fromUSGallon, nil},
	{"us_floz", Volume, usGallonL / 128, "US fluid ounce", "US fluid ounces", fromUSGallon, []string{"us fl oz"}},
	{"us_bushel", Volume, usBushelL, "US bushel", "US bushels", "US bushel of 2150.42 cubic inches (from memory)", nil},
	{"imperial_gallon", Volume, imperialGallonL, "imperial gallon", "imperial gallons", fromImpGallon, []string{"imp gallon", "imp gallons", "imp gal", "imperial gal", "uk gallon", "uk gallons"}},
	{"imperial_quart", Volume, imperialGallonL / 4, "imperial quart", "imperial quarts", fromImpGallon, []string{"uk quart", "uk quarts"}},
	{"imperial_pint", Volume, imperialGallonL / 8, "imperial pint", "imperial pints", fromImpGallon, []string{"imp pint", "imp pints", "uk pint", "uk pints"}},
	{"imperial_floz", Volume, imperialGallonL / 160, "imperial fluid ounce", "imperial fluid ounces", fromImpGallon, []string{"imperial fl oz", "imp fl oz"}},
	{"imperial_bushel", Volume, 8 * imperialGallonL, "imperial bushel", "imperial bushels", fromImpGallon, nil},
	{"kg", Mass, 1, "kg", "kg", fromSI, []string{"kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"}},
	{"g", Mass, 0.001, "g", "g", fromSI, []string{"gm", "gms", "gr", "gram", "grams", "gramme", "grammes"}},
	{"t", Mass, 1000, "tonne", "tonnes", fromSI, []string{"metric ton", "metric tons"}},
	{"lb", Mass, poundKg, "lb", "lb", fromAgreement, []string{"lbs", "pound", "pounds"}},
	{"half_kilo", Mass, 0.5, "metric pound", "metric pounds", "the German Pfund, French livre and Dutch pond of 500 g (from memory)", nil},
	{"oz", Mass, poundKg / 16, "oz", "oz", fromAgreement, []string{"ounce", "ounces", "ozs"}},
	{"stone", Mass, 14 * poundKg, "stone", "stone", fromAgreement, []string{"stones"}},
	{"us_ton", Mass, 2000 * poundKg, "US ton", "US tons", fromAgreement, []string{"short ton", "short tons"}},
	{"long_ton", Mass, 2240 * poundKg, "long ton", "long tons", fromAgreement, []string{"imperial ton", "imperial tons", "uk ton", "uk tons"}},
}

// sharedUnit is a name that means different sizes in different systems. An
// empty id means the name is no unit of measure there.
type sharedUnit struct {
	one, many            string
	words                []string
	metric, us, imperial string
}

var sharedUnits = []sharedUnit{
	{"gallon", "gallons", []string{"gal", "gals"}, "imperial_gallon", "us_gallon", "imperial_gallon"},
	{"quart", "quarts", []string{"qt", "qts"}, "imperial_quart", "us_quart", "imperial_quart"},
	{"pint", "pints", []string{"pt", "pts"}, "imperial_pint", "us_pint", "imperial_pint"},
	{"fluid ounce", "fluid ounces", []string{"fl oz", "floz"}, "imperial_floz", "us_floz", "imperial_floz"},
	{"bushel", "bushels", []string{"bu"}, "imperial_bushel", "us_bushel", "imperial_bushel"},
	{"cup", "cups", nil, "", "us_cup", ""},
	{"ton", "tons", nil, "t", "us_ton", "long_ton"},
	{"yard", "yards", nil, "", "yd3", ""}, // a yard of mulch is a cubic yard in the US trade
}

func (s sharedUnit) in(sys System) string {
	switch sys {
	case US:
		return s.us
	case Imperial:
		return s.imperial
	default:
		return s.metric
	}
}
