package hygiene

import (
	"fmt"
	"strings"
	"time"

	"heapside/calc/measure"
)

const (
	srcNoble   = "Noble and Roberts 2004"
	atNoble    = "Plant Pathology 53:548-568, abstract"
	srcGermany = "BioAbfV"
	atGermany  = "Annex 2 no. 4.3.1"
)

// anyDisease is what trials of many diseases at once are listed by.
const anyDisease = "plant disease"

// Diseases are the published trials on the plant diseases that the words name.
func Diseases(words string) []Trial { return diseaseWords.pick(diseaseTrials, words) }

// KeepOut is why a plant with the named disease stays out of a small heap,
// whatever was read in it; false for words that name none of these diseases.
func KeepOut(words string, m measure.Measures) (why string, ok bool) {
	for _, name := range diseaseWords.names(words) {
		if w, ok := keepOut[name]; ok {
			return fmt.Sprintf("Keep %s out, whatever the readings: %s.", w.what, strings.ReplaceAll(w.why, "{c}", m.SayTemperature(w.c))), true
		}
	}
	return "", false
}

// keepOut are the diseases to keep out: the plants, why, and the temperature
// that {c} stands for in it.
var keepOut = map[string]struct {
	what, why string
	c         float64
}{
	"clubroot": {"plants with clubroot",
		"it outlived six months in garden vessels, and peaks of {c} and more with 21 days (Ryckeboer and others 2002; Noble and Roberts 2004)", 62},
	"tomato fusarium wilt": {"plants with wilt",
		"Fusarium wilt of tomato outlived peaks of {c} and more with 21 days (Noble and Roberts 2004)", 62},
	"other wilts": {"plants with wilt",
		"the wilt of tomato that was tried outlived peaks of {c} and more (Noble and Roberts 2004); to treat others alike is our own choice", 62},
	"tobacco mosaic virus": {"plants with mosaic virus",
		"tobacco mosaic needed more than {c} for more than 20 days (Noble and Roberts 2004)", 68},
	"potato wart": {"potatoes with wart",
		"it stood {c} for two hours in water (Noble and Roberts 2004), and in many places has to be reported to the plant health service (from memory)", 60},
}

var diseaseWords = wordsFor(map[string]string{
	"clubroot":             "clubroot|club root|finger and toe|plasmodiophora|plasmodiophora brassicae",
	"tomato fusarium wilt": "fusarium|fusarium wilt|tomato wilt|wilt|fusarium oxysporum",
	"other wilts":          "other wilt|verticillium|verticillium wilt|clematis wilt|wilt disease|wilting disease",
	"charcoal rot":         "charcoal rot|macrophomina|macrophomina phaseolina",
	"tobacco mosaic virus": "tobacco mosaic virus|tobacco mosaic|mosaic virus|mosaic|tmv|tomato mosaic",
	"potato wart":          "potato wart|wart disease|wart|synchytrium|synchytrium endobioticum",
	"beet cyst nematode":   "beet cyst nematode|cyst nematode|beet eelworm|heterodera|heterodera schachtii",
	anyDisease:             "plant disease|disease|diseased plant|pathogen|fungi|fungus|nematode|eelworm",
})

var diseaseTrials = []Trial{
	{Of: "clubroot", Source: srcBackyard, Locator: atBackyard, Seen: Read, In: inVessels, For: 180 * day, Effect: Survived},
	{Of: "clubroot", Source: srcNoble, Locator: atNoble, Seen: Read, C: 62, MostC: 74, For: 21 * day, Effect: Survived},
	{Of: "clubroot", Source: srcGermany, Locator: atGermany, Seen: Read, In: "as a test organism", C: 50, For: 7 * day, Effect: Survived},
	{Of: "tomato fusarium wilt", Source: srcNoble, Locator: atNoble, Seen: Read, C: 62, MostC: 74, For: 21 * day, Effect: Survived},
	{Of: "charcoal rot", Source: srcNoble, Locator: atNoble, Seen: Read, C: 62, MostC: 74, For: 21 * day, Effect: Survived},
	{Of: "tobacco mosaic virus", Source: srcNoble, Locator: atNoble, Seen: Read, C: 68, Over: true, For: 20 * day, Effect: Killed, Note: "It needed more than that time."},
	{Of: "tobacco mosaic virus", Source: srcBackyard, Locator: atBackyard, Seen: Read, In: inVessels, For: 180 * day, Effect: Killed},
	{Of: "potato wart", Source: srcNoble, Locator: atNoble, Seen: Read, In: "in water", C: 60, For: 2 * time.Hour, Effect: Survived},
	{Of: "beet cyst nematode", Source: srcBackyard, Locator: atBackyard, Seen: Read, In: inVessels, For: 180 * day, Effect: Survived, Note: "Almost all of it was gone."},
	{Of: anyDisease, Source: srcNoble, Locator: atNoble, Seen: Read, In: "of 64 kinds", C: 64, MostC: 70, For: 21 * day, Effect: Survived,
		Note: "Not found any more: 33 of 38 fungi and oomycetes, all 7 bacteria, 9 nematodes, 3 of 9 viruses; most tests find no less than 5 %."},
}
