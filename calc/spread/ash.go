package spread

// poundsPer1000Ft2 is one pound on 1,000 square feet in kg per square metre, by
// the international pound and foot of 1959 (from memory).
const poundsPer1000Ft2 = 0.45359237 / (1000 * 0.3048 * 0.3048)

// The most wood ash that a lawn takes: 10 to 15 lb on 1,000 square feet (Oregon
// State University Extension, seen). It gives no figure for beds.
const (
	ashFromKgM2 = 10 * poundsPer1000Ft2
	ashToKgM2   = 15 * poundsPer1000Ft2
)

// AshSource names who publishes the most wood ash for an area.
const AshSource = "10 to 15 lb on 1,000 square feet of lawn at most: " + oregonAsh + ", https://extension.oregonstate.edu/news/wood-ashes-can-benefit-gardens-lawns"

// Ash is the most wood ash for areaM2, in kg: the careful and the outer limit.
func Ash(areaM2 float64) (fromKg, toKg float64) {
	return areaM2 * ashFromKgM2, areaM2 * ashToKgM2
}

// AshM2 is the least area for that many kg of wood ash: at the outer and at the careful limit.
func AshM2(kg float64) (fromM2, toM2 float64) { return kg / ashToKgM2, kg / ashFromKgM2 }

// AshCautions are what to mind with wood ash.
var AshCautions = []string{
	"It is limy: none where the soil is above pH 7, on potatoes or on acid lovers, and not with nitrogen fertiliser (" + oregonAsh + ").",
	"Of clean wood only, never of treated or painted wood, rubbish or coal; eye cover, gloves and mask (" + oregonAsh + ").",
}

// LimeCautions are what to mind with garden lime.
var LimeCautions = []string{
	"Not on acid lovers or potatoes, and not together with manure or fresh greens: it drives their nitrogen off (" + CommonPractice + ").",
	"It is a caustic dust: eye cover, gloves and mask (" + CommonPractice + ").",
}
