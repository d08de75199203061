package spread

import (
	"fmt"
	"slices"
	"strings"

	"heapside/calc/heap"
	"heapside/calc/maturity"
)

// Use is compost about to go on a crop, from a heap on record or from elsewhere.
type Use struct {
	Crop  Crop
	Heap  *heap.State // nil: nobody said which
	Stage maturity.Assessment
	Rough bool // it was called half-rotted
}

// maxCautions is how many are said at once: more are not read (own choice).
const maxCautions = 2

// cautions are what to mind, the worst first; each is empty where it does not apply.
var cautions = []func(Use) string{rawManure, unripe, limed, weedkiller, forSeedlings, forAcidLovers}

// Cautions are the cautions that apply, each with who publishes it, at most two.
func Cautions(u Use) []string {
	var out []string
	for _, caution := range cautions {
		if said := caution(u); said != "" && len(out) < maxCautions {
			out = append(out, said)
		}
	}
	return out
}

// rawManure is what the record says of manure; for food crops fed from elsewhere
// it is asked after. USDA AMS names the rule (seen), its days were seen second-hand.
func rawManure(u Use) string {
	if u.Heap != nil {
		return strings.Join(u.Stage.Cautions, " ")
	}
	if u.Crop.Name != Vegetables {
		return ""
	}
	return "If manure went in that no heat rule has dealt with: 120 days before harvest, or 90 where the crop does not touch soil (USDA, 7 CFR 205.203(c)(1)). Local rules come first."
}

// forMulch is what unfinished compost is fit for.
const forMulch = "Unfinished compost is for mulch, away from seedlings and new plants (" + maturity.SourceSigns + ")."

// unripe says that the compost is not shown to be fit for the crop.
func unripe(u Use) string {
	if u.Heap == nil {
		if u.Rough && u.Crop.Use != mulch {
			return forMulch
		}
		return ""
	}
	i := slices.IndexFunc(u.Stage.Uses, func(use maturity.Use) bool { return use.Name == u.Crop.Use })
	if i < 0 || u.Stage.Uses[i].Verdict == maturity.Yes {
		return ""
	}
	said := fmt.Sprintf("Not shown to be ready for %s. %s", u.Crop.Use, u.Stage.Uses[i].Why)
	if u.Crop.Use == mulch {
		return said
	}
	return said + " " + forMulch
}

// oregonAsh is who publishes the limits and cautions of wood ash.
const oregonAsh = "Oregon State University Extension" // seen

// limed says that ash or lime is in compost meant for acid lovers.
func limed(u Use) string {
	if u.Crop.Name != AcidLovers || u.Heap == nil {
		return ""
	}
	for _, in := range u.Heap.Content {
		if in.Material == "wood-ash" || in.Material == "garden-lime" {
			return fmt.Sprintf("There is %s in it, which is limy: keep it off acid lovers (%s).", in.Name, oregonAsh)
		}
	}
	return ""
}

// carriesWeedkiller are how the ids of materials begin that may carry weedkiller
// through a heap (NC State AG-727, seen).
var carriesWeedkiller = []string{"manure", "hay", "straw-"}

// weedkiller asks for the pea test where hay, straw or manure went in.
func weedkiller(u Use) string {
	if u.Heap == nil || u.Crop.Use == mulch {
		return ""
	}
	for _, in := range u.Heap.Content {
		if slices.ContainsFunc(carriesWeedkiller, func(start string) bool { return strings.HasPrefix(in.Material, start) }) {
			return fmt.Sprintf("There is %s in it, which can carry weedkiller through a heap: sow peas in some of it first, see guide pea test (NC State AG-727; WSU Whatcom).", in.Name)
		}
	}
	return ""
}

func forSeedlings(u Use) string {
	if u.Crop.Name != Seedlings {
		return ""
	}
	return "Seedlings ask for the ripest compost, sieved to 3 mm; try it with a few radishes first (" + maturity.SourceSigns + "; " + maturity.SourceRadish + ")."
}

func forAcidLovers(u Use) string {
	if u.Crop.Name != AcidLovers || u.Heap != nil {
		return ""
	}
	return "No compost that had wood ash or lime put in: it is limy (" + oregonAsh + ")."
}
