package maturity

import "time"

const day = 24 * time.Hour

// Sources as they are named to people; the exported ones are those that rules of
// calc/advice rest on too. "Seen" means that the figure was read on the publisher's page.
const (
	SourceCuring = "AgriFutures Australia, poultry waste composting guidelines, Curing"   // seen
	SourceSigns  = "Cornell Cooperative Extension, sheet on telling when compost is done" // seen
	SourceRadish = "UF/IFAS Extension Sarasota County, compost maturity test"             // seen
	SourceBag    = "Devon Community Composting Network, sampling and moisture"            // seen
	SourceRaw    = "Louisiana Administrative Code 7 V.1211"                               // seen

	srcFresh   = "a German composting works: about six weeks gives fresh compost"                                      // seen (paderkompost.de)
	src180     = "several US states: mature at 60 % decomposed or 180 days active"                                     // seen in an abstract
	srcYear    = "Illinois Extension: six months to a year"                                                            // seen
	srcManaged = "TCEQ: 90 to 120 days when managed"                                                                   // seen
	srcReheat  = "City of Plymouth MN: no heating again after turning, may be ready"                                   // seen
	srcVolume  = "volume lost: 30 to 50 %, betterground.org; about half after one month of yard waste, City of Ramsey" // seen
	srcCooling = "own computation over 63 published small-scale runs (Khandakar, Kibria et al.)"                       // computed from the data set, CC BY 4.0
	srcManure  = "USDA, 7 CFR 205.203(c)(1)"                                                                           // days seen second-hand, the rule itself seen at USDA AMS
)

// The limits. Each is compared as written; durations are whole days.
const (
	// HotC is the line between working and curing, in Celsius: curing starts
	// when a heap stays below it even after turning (AgriFutures, seen).
	HotC = 45.0
	// RestC is the temperature below which a curing heap is left alone (AgriFutures, seen).
	RestC = 40.0
	// AirGapC is how much warmer than the air cured compost may be ("within about 5 C"; AgriFutures, seen).
	AirGapC = 5.0

	// CuredAfter is the least time of curing for use on plants, FullyCured the
	// end of the published span (3 to 6 weeks; AgriFutures, seen).
	CuredAfter = 21 * day
	FullyCured = 42 * day

	// FreshAfter is when a heap has become fresh compost (about six weeks; srcFresh).
	FreshAfter = 42 * day
	// ActiveAge is the age that several US states call mature (180 days; src180).
	ActiveAge = 180 * day
	// OldAge needs no test for beds, VeryOld not even for seeds ("over a year or
	// two old needs no test"; Cornell, seen; which of the two serves which use is own choice).
	OldAge  = 365 * day
	VeryOld = 730 * day

	// Settled is how long after turning a reading shows whether the heap heats
	// again (own choice).
	Settled = 3 * day
	// StaleHot is the age at which a hot reading says little about today (own choice).
	StaleHot = 7 * day
	// SpentHot is the age at which a hot heap is expected to have cooled: of 63
	// small-scale runs the middle half was back below 40 C by day 9 to 16 (computed).
	SpentHot = 16 * day
	// StaleSign is the age at which a smell, a squeeze or a cool reading no
	// longer counts as today's (own choice).
	StaleSign = 14 * day
	// lately is the age of a reading that need not be taken again at once (own choice).
	lately = 3 * day
	// pairWithin is how close in time a heap and an air reading are compared (own choice).
	pairWithin = 2 * day
)
