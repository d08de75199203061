package hygiene

import (
	"slices"
	"time"
)

const (
	srcDahlquist = "Dahlquist, Prather and Stapleton 2007"
	atDahlquist  = "Weed Science 55:619-625, abstract"
	srcEgley     = "Egley 1990"
	atEgley      = "Weed Science, abstract"
	srcThompson  = "Thompson, Jones and Blair 1997"
	atThompson   = "abstract; names and journal from memory"
	srcTompkins  = "Tompkins and others 1998"
	atTompkins   = "abstract; authors and year from memory"
	srcEghball   = "Eghball and Lesoing 2000"
	atEghball    = "abstract; authors and year from memory"
	srcLarney    = "Larney and Blackshaw 2003"
	atLarney     = "abstract; journal from memory"
	srcSostarcic = "Sostarcic and others 2024"
	atSostarcic  = "Weed Science, abstract"
	srcWattle    = "a green-waste study with wattle and tomato"
	atWattle     = "abstract, paperexplained.cn; authors not shown"
	srcWSSA      = "Weed Science Society of America"
	atWSSA       = "as reported at https://www.speakingoflandscapes.com/node/461"
	srcBackyard  = "Ryckeboer, Cops and Coosemans 2002"
	atBackyard   = "https://lirias.kuleuven.be/handle/123456789/411995"
)

const (
	inMoistSoil = "in moist soil"
	inDrySoil   = "in dry soil"
	inVessels   = "in garden vessels of 200 litres"
)

// anyWeed is what trials of many species at once are listed by.
const anyWeed = "weed seed"

// Weeds are the published trials on the weeds that the words name, side by side
// where they disagree; words for weeds in general ("weed seeds") get those on
// many species at once. None of them is a rule that heat kills weeds.
func Weeds(words string) []Trial { return weedWords.pick(weedTrials, words) }

var weedWords = wordsFor(map[string]string{
	"common purslane":     "common purslane|purslane|pursley|portulaca|portulaca oleracea",
	"tumble pigweed":      "tumble pigweed|pigweed|amaranth|amaranthus albus",
	"redroot pigweed":     "redroot pigweed|redroot|pigweed|amaranth|amaranthus retroflexus",
	"barnyardgrass":       "barnyardgrass|cockspur grass|echinochloa|echinochloa crus galli",
	"black nightshade":    "black nightshade|nightshade|solanum nigrum",
	"London rocket":       "london rocket|sisymbrium irio",
	"annual sowthistle":   "annual sowthistle|sowthistle|sow thistle|sonchus oleraceus",
	"johnsongrass":        "johnsongrass|sorghum halepense",
	"spurred anoda":       "spurred anoda|anoda cristata",
	"velvetleaf":          "velvetleaf|abutilon theophrasti",
	"pitted morningglory": "pitted morningglory|morningglory|ipomoea lacunosa",
	"prickly sida":        "prickly sida|sida spinosa",
	"common cocklebur":    "common cocklebur|cocklebur|xanthium strumarium",
	"broad-leaved dock":   "broad leaved dock|broadleaf dock|bitter dock|dock|rumex|rumex obtusifolius",
	"yellow foxtail":      "yellow foxtail|foxtail|setaria pumila|setaria glauca",
	"cootamundra wattle":  "cootamundra wattle|wattle|acacia baileyana",
	"watsonia":            "watsonia|watsonia bulbil",
	"bermudagrass":        "bermudagrass|cynodon dactylon",
	"tomato seed":         "tomato seed|tomato seedling|seed of tomato",
	anyWeed:               "weed|weed seed|seed of weed|seeding weed|annual weed",
})

var weedTrials = slices.Concat(dahlquist(), egley(), otherWeeds)

// dahlquist: six species at 39 to 70 °C; 50 °C and more was lethal to all six,
// and for four the highest temperature without effect is given. The hours are
// not in the abstract.
func dahlquist() []Trial {
	var out []Trial
	add := func(name string, c float64, effect Effect) {
		out = append(out, Trial{Of: name, Source: srcDahlquist, Locator: atDahlquist, Seen: Read, C: c, Effect: effect})
	}
	for _, r := range []struct {
		name     string
		noEffect float64 // 0: not given
	}{
		{"common purslane", 46}, {"tumble pigweed", 42}, {"barnyardgrass", 42}, {"black nightshade", 39},
		{"London rocket", 0}, {"annual sowthistle", 0},
	} {
		if r.noEffect > 0 {
			add(r.name, r.noEffect, Unharmed)
		}
		add(r.name, 50, Killed)
	}
	return out
}

// egley: eight species in soil at 40 to 70 °C, up to seven days.
func egley() []Trial {
	var out []Trial
	add := func(names []string, in string, c float64, held time.Duration, effect Effect, left [2]float64, note string) {
		for _, name := range names {
			out = append(out, Trial{Of: name, Source: srcEgley, Locator: atEgley, Seen: Read,
				In: in, C: c, For: held, Effect: effect, LeftPct: left, Note: note})
		}
	}
	hardy := []string{"common purslane", "redroot pigweed", "johnsongrass", "spurred anoda"}
	tough := append([]string{"velvetleaf", "pitted morningglory"}, hardy...)
	tender := []string{"prickly sida", "common cocklebur"}
	add(hardy, inMoistSoil, 70, 3*day, Survived, [2]float64{1, 12}, "")
	add(tough, inMoistSoil, 60, 7*day, Survived, [2]float64{4, 30}, "")
	add(tender, inMoistSoil, 60, 12*time.Hour, Killed, [2]float64{}, "")
	add(tender[1:], inMoistSoil, 50, 3*day, Killed, [2]float64{}, "")
	add(slices.Concat(tough, tender), inDrySoil, 60, 7*day, Survived, [2]float64{}, "Dry seeds stood it very well.")
	add(slices.Concat(tough, tender), inDrySoil, 70, 7*day, Survived, [2]float64{}, "Most were dead.")
	return out
}

var otherWeeds = []Trial{
	{Of: "broad-leaved dock", Source: srcThompson, Locator: atThompson, Seen: Read, In: "when soaked", C: 56, Effect: Unharmed, Note: "It lowered the germination of the nine other weeds tried."},
	{Of: "broad-leaved dock", Source: srcThompson, Locator: atThompson, Seen: Read, In: "when soaked", C: 75, For: 12 * time.Hour, Effect: Killed},
	{Of: anyWeed, Source: srcThompson, Locator: atThompson, Seen: Read, In: "of ten arable weeds, soaked", C: 75, For: 12 * time.Hour, Effect: Killed, Note: "Temperature counted for more than time."},
	{Of: "redroot pigweed", Source: srcTompkins, Locator: atTompkins, Seen: Read, In: "in windrows", C: 55, MostC: 65, For: 14 * day, Effect: Survived, LeftPct: [2]float64{3.5, 3.5}},
	{Of: "redroot pigweed", Source: srcTompkins, Locator: atTompkins, Seen: Read, In: "in windrows", C: 55, MostC: 65, For: 28 * day, Effect: Killed},
	{Of: anyWeed, Source: srcTompkins, Locator: atTompkins, Seen: Read, In: "of twelve species in windrows", C: 55, MostC: 65, For: 14 * day, Effect: Survived, Note: "Six species were all dead by then."},
	{Of: anyWeed, Source: srcTompkins, Locator: atTompkins, Seen: Read, In: "of twelve species in windrows", C: 55, MostC: 65, For: 28 * day, Effect: Killed},
	{Of: "velvetleaf", Source: srcEghball, Locator: atEghball, Seen: Read, In: "in dairy manure in windrows", C: 60, Below: true, For: 120 * day, Effect: Survived, LeftPct: [2]float64{14, 14}},
	{Of: anyWeed, Source: srcEghball, Locator: atEghball, Seen: Read, In: "of eight species in feedlot manure", Effect: Survived, Note: "Watered, all were dead after one turning; unwatered, not: moisture matters."},
	{Of: anyWeed, Source: srcLarney, Locator: atLarney, Seen: Read, In: "of four species in feedlot manure", C: 39, For: 7 * day, Effect: Killed},
	{Of: anyWeed, Source: srcLarney, Locator: atLarney, Seen: Read, In: "of two species in feedlot manure", C: 60, Over: true, Effect: Killed},
	{Of: anyWeed, Source: srcLarney, Locator: atLarney, Seen: Read, In: "of one species of 13 in feedlot manure", For: 21 * day, Effect: Survived},
	{Of: anyWeed, Source: srcWSSA, Locator: atWSSA, Seen: SecondHand, In: "of the hardiest species", C: celsius(145), For: 30 * day, Effect: Killed},
	{Of: anyWeed, Source: srcWSSA, Locator: atWSSA, Seen: SecondHand, In: "of the tenderest species", C: celsius(130), Effect: Killed, Note: "It took days."},
	{Of: "redroot pigweed", Source: srcSostarcic, Locator: atSostarcic, Seen: Read, In: inMoistSoil, C: 58.89, For: 30 * time.Minute, Effect: Survived, LeftPct: [2]float64{50, 50}},
	{Of: "redroot pigweed", Source: srcSostarcic, Locator: atSostarcic, Seen: Read, In: inMoistSoil, C: 46.08, For: 90 * time.Minute, Effect: Survived, LeftPct: [2]float64{50, 50}},
	{Of: "redroot pigweed", Source: srcSostarcic, Locator: atSostarcic, Seen: Read, In: inMoistSoil, C: 113.36, For: 30 * time.Minute, Effect: Survived, LeftPct: [2]float64{10, 10}, Note: reckoned},
	{Of: "redroot pigweed", Source: srcSostarcic, Locator: atSostarcic, Seen: Read, In: inMoistSoil, C: 65.72, For: 90 * time.Minute, Effect: Survived, LeftPct: [2]float64{10, 10}},
	{Of: "yellow foxtail", Source: srcSostarcic, Locator: atSostarcic, Seen: Read, In: inMoistSoil, C: 91.33, For: 30 * time.Minute, Effect: Survived, LeftPct: [2]float64{50, 50}},
	{Of: "yellow foxtail", Source: srcSostarcic, Locator: atSostarcic, Seen: Read, In: inMoistSoil, C: 75.15, For: 90 * time.Minute, Effect: Survived, LeftPct: [2]float64{50, 50}},
	{Of: "yellow foxtail", Source: srcSostarcic, Locator: atSostarcic, Seen: Read, In: inMoistSoil, C: 98.79, For: 30 * time.Minute, Effect: Survived, LeftPct: [2]float64{10, 10}},
	{Of: "yellow foxtail", Source: srcSostarcic, Locator: atSostarcic, Seen: Read, In: inMoistSoil, C: 90.32, For: 90 * time.Minute, Effect: Survived, LeftPct: [2]float64{10, 10}},
	{Of: "cootamundra wattle", Source: srcWattle, Locator: atWattle, Seen: Read, C: 65, For: 5 * time.Hour, Effect: Unharmed},
	{Of: "cootamundra wattle", Source: srcWattle, Locator: atWattle, Seen: Read, C: 55, Over: true, For: 136 * time.Hour, Effect: Survived, LeftPct: [2]float64{8, 8}},
	{Of: "watsonia", Source: srcWattle, Locator: atWattle, Seen: Read, In: "bulbils 1 m deep", C: 60, Over: true, For: 5 * day, Effect: Survived, LeftPct: [2]float64{3.3, 3.3}},
	{Of: "bermudagrass", Source: srcWattle, Locator: atWattle, Seen: Read, In: "stems at the edge", For: 8 * day, Effect: Survived, LeftPct: [2]float64{3.3, 3.3}},
	{Of: "tomato seed", Source: srcBackyard, Locator: atBackyard, Seen: Read, In: inVessels, For: 180 * day, Effect: Survived, Note: "Almost all of it was gone."},
}

// reckoned marks a temperature beyond what was tried.
const reckoned = "That temperature is reckoned beyond what was tried."
