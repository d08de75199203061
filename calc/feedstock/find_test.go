package feedstock_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/feedstock"
)

// TestFindNames holds how people say what they bring, one line a material.
func TestFindNames(t *testing.T) {
	for id, said := range map[string]string{
		"grass-clippings":     "grass; grass clippings; lawn clippings; Lawn Mowings; mowings; cut grass; fresh grass cuttings; the grass; some of our grass; wet grass; grass from the lawn",
		"leaves-dry":          "leaves; a leaf; dry leaves; autumn leaves; fall leaves; dead leaves; brown leaves; sycamore leaves; raked leaves; ash tree leaves",
		"leaves-fresh":        "fresh leaves; green leaves",
		"leaves-moist":        "wet leaves; soggy leaves",
		"leaves-maple":        "maple leaves; brown maple leaves",
		"leaves-oak":          "oak leaves; old oak leaves",
		"leaf-mold":           "leaf mould; leafmold; leafmould",
		"cardboard":           "cardboard; torn cardboard; card; cardboard boxes; brown cardboard; toilet roll tubes; loo rolls; pizza boxes; card board",
		"egg-boxes":           "egg boxes; egg cartons; eggbox",
		"newspaper":           "newspaper; newspapers; shredded newspaper; newsprint",
		"office-paper":        "shredded paper; office paper; printer paper",
		"mixed-paper":         "paper; waste paper; paper bags; brown paper",
		"paper-towels":        "paper towels; kitchen roll; tissues",
		"straw-general":       "straw; straw bales; dry straw; a bit of straw; chopped straw",
		"straw-wheat":         "wheat straw; wheat-straw",
		"hay-general":         "hay; old hay; spoiled hay",
		"hay-legume":          "alfalfa hay; lucerne hay",
		"wood-chips":          "wood chips; woodchip; woodchips; chippings; arborist chips; wood-chippings",
		"wood-shavings":       "shavings; wood shavings; pine shavings",
		"sawdust":             "sawdust; saw dust; clean sawdust",
		"shrub-trimmings":     "prunings; twigs; sticks; rose prunings; brambles; dogwood prunings; raspberry canes",
		"hedge-clippings":     "hedge trimmings; hedge clippings; hedge cuttings; privet clippings",
		"branches":            "branches; brush; shreddings",
		"coffee-grounds":      "coffee grounds; coffee; coffee grinds; used coffee grounds",
		"tea-leaves":          "tea bags; teabags; tea leaves; tea",
		"food-scraps":         "kitchen scraps; kitchen waste; food waste; scraps; food scraps; kitchen leftovers",
		"vegetable-waste":     "veg peelings; vegetable scraps; veggie scraps; peelings; aubergines; eggplant; vegetables; rutabaga",
		"fruit-waste":         "fruit; fruit peel; pears; plums; fruit scraps",
		"apple":               "windfalls; apples; apple cores",
		"courgette":           "courgettes; zucchini; overgrown zucchinis; marrows",
		"pumpkin":             "pumpkins; butternut squash; squash",
		"corn-stalks":         "corn stalks; maize stalks; sweetcorn stems",
		"corn-cobs":           "corn cobs; maize cobs",
		"potato-peel":         "potato peelings; spuds; potato skins",
		"tomato-plants":       "tomato plants; tomato vines",
		"tomato-fruit":        "tomatoes rotten; green tomatoes",
		"cabbage-residue":     "cabbage leaves; cabbage stalks; broccoli stalks",
		"weeds":               "weeds; annual weeds; chickweed; milk thistle; weeds without seeds",
		"nettle":              "nettles; stinging nettles",
		"comfrey":             "comfrey; comfrey leaves",
		"seaweed":             "seaweed; sea weed; bladderwrack",
		"manure-horse":        "horse manure; horse muck; horse poo; pony poo; horse dung; donkey manure",
		"manure-cow":          "cow manure; cow dung; cow pats; cattle manure",
		"manure-poultry":      "chicken manure; chicken poo; hen manure; poultry manure; chicken droppings",
		"manure-sheep":        "sheep manure; sheep droppings",
		"manure-rabbit":       "rabbit droppings; bunny poo; guinea pig poo",
		"manure-rotted":       "well rotted manure; well-rotted horse manure; old manure; aged manure",
		"bedding-rabbit":      "rabbit bedding; guinea pig bedding; hutch cleanings",
		"bedding-hen":         "hen house bedding; chicken bedding; coop cleanings",
		"manure-horse-stable": "stable bedding; horse manure with straw",
		"hops-spent":          "spent hops; hops",
		"brewers-grain":       "brewery grain; spent grain; brewer's grains",
		"spent-flowers":       "flowers; cut flowers; dead flowers",
		"garden-waste":        "garden waste; yard waste; green waste",
		"eggshell":            "egg shells; eggshells; crushed egg shells",
		"wood-ash":            "wood ash; ash; ashes; fireplace ash",
		"soil":                "soil; earth; topsoil",
		"compost-finished":    "compost; finished compost; ready compost",
		"potting-mix":         "old potting compost; used potting soil",
		"nut-shells":          "nut shells; peanut shells",
		"fish-blood-bone":     "fish, blood and bone; bone meal",
		"ivy":                 "ivy; ivy trimmings",
		"sod":                 "turf; sods; turves",
		"fern-bracken":        "bracken; ferns",
		"pine-needles":        "pine needles; conifer needles",
	} {
		for _, words := range strings.Split(said, "; ") {
			t.Run(words, func(t *testing.T) {
				m := feedstock.Default().Find(words)
				assert.Equal(t, feedstock.Found, m.Outcome)
				assert.Equal(t, id, m.Feedstock.ID)
			})
		}
	}
}

// TestFindSlips holds what thumbs make of the names.
func TestFindSlips(t *testing.T) {
	for words, id := range map[string]string{
		"leavse": "leaves-dry", "dry maple leaves from the drive": "leaves-maple", "leafs": "leaves-dry", "leves": "leaves-dry", "dry leavs": "leaves-dry",
		"gras clipings": "grass-clippings", "grass clippngs": "grass-clippings", "gras": "grass-clippings",
		"lawn mowigns": "grass-clippings", "grasss": "grass-clippings", "grassclipings": "grass-clippings",
		"sawdusst": "sawdust", "sawdsut": "sawdust", "hors manuer": "manure-horse", "hrose manure": "manure-horse",
		"chiken manure": "manure-poultry", "chicken manuer": "manure-poultry", "cofee grouns": "coffee-grounds",
		"coffe grounds": "coffee-grounds", "cofffee": "coffee-grounds", "cardbord": "cardboard", "carboard": "cardboard",
		"cardbaord": "cardboard", "newspapre": "newspaper", "newspper": "newspaper", "kichen scraps": "food-scraps",
		"kitchen scarps": "food-scraps", "vegtable peelings": "vegetable-waste", "vegetabel scraps": "vegetable-waste",
		"strwa": "straw-general", "starw": "straw-general", "wood chps": "wood-chips", "woodchps": "wood-chips",
		"comfery": "comfrey", "netles": "nettle", "seawed": "seaweed", "pumkin": "pumpkin", "zuchini": "courgette",
		"courgete": "courgette", "hedge triming": "hedge-clippings", "egg shels": "eggshell", "shreded paper": "office-paper",
		"rabit bedding": "bedding-rabbit", "well roted manure": "manure-rotted", "maple leavse": "leaves-maple",
		"wood shavngs": "wood-shavings", "brakcen": "fern-bracken", "cardb": "cardboard",
	} {
		t.Run(words, func(t *testing.T) {
			m := feedstock.Default().Find(words)
			assert.Contains(t, []feedstock.Outcome{feedstock.Guessed, feedstock.Found}, m.Outcome)
			assert.Equal(t, id, m.Feedstock.ID)
		})
	}
}

func TestFindAsksBack(t *testing.T) {
	for words, wanted := range map[string][]string{
		"manure":        {"manure-horse", "manure-poultry"},
		"muck":          {"manure-horse", "manure-cow"},
		"wood":          {"branches", "wood-chips"},
		"tomato":        {"tomato-plants", "tomato-fruit"},
		"bark":          {"bark-hardwood", "bark-softwood"},
		"bedding":       {"bedding-hen", "bedding-rabbit"},
		"greens":        {"grass-clippings", "food-scraps"},
		"browns":        {"leaves-dry", "cardboard"},
		"eggs":          {"eggshell", "egg-boxes"},
		"beans":         {"snap-beans", "bean-green-haulm"},
		"lime":          {"garden-lime", "orange-peel"},
		"shells":        {"eggshell", "nut-shells"},
		"grass leaves":  {"grass-clippings", "leaves-dry"},
		"straw and hay": {"straw-general", "hay-general"},
	} {
		t.Run(words, func(t *testing.T) {
			m := feedstock.Default().Find(words)
			require.Equal(t, feedstock.Ambiguous, m.Outcome)
			assert.GreaterOrEqual(t, len(m.Near), 2)
			assert.LessOrEqual(t, len(m.Near), 4)
			assert.Subset(t, ids(m.Near), wanted)
		})
	}
}

func TestFindNothing(t *testing.T) {
	for _, words := range []string{
		"", "   ", "the", "!!!", "🌱🍂", "\u202e\u200f", "@everyone", "xyzzy", "42", "qwertyuiop",
		"'; DROP TABLE heaps; --", "spaceship", "\xff\xfe", "**", "hey", "blue whale",
	} {
		t.Run(words, func(t *testing.T) {
			m := feedstock.Default().Find(words)
			assert.Equal(t, feedstock.None, m.Outcome)
			assert.LessOrEqual(t, len(m.Near), 3)
		})
	}
}

func TestFindRefuses(t *testing.T) {
	for words, id := range map[string]string{
		"meat": "meat", "bones": "meat", "chicken bones": "meat", "kitchen scraps with meat": "meat", "scraps and bonse": "meat",
		"fish": "fish", "fish heads": "fish", "cheese": "dairy", "sour milk": "dairy", "cooking oil": "fats", "fat": "fats",
		"cooked food": "cooked-food", "cooked rice": "cooked-food", "dog poo": "dog-waste", "dog mess": "dog-waste",
		"dog waste": "dog-waste", "cat litter": "cat-waste", "used cat litter": "cat-waste", "human faeces": "human-faeces",
		"compost toilet": "human-faeces", "nappies": "diapers", "diapers": "diapers", "baby wipes": "wet-wipes",
		"glossy paper": "coated-paper", "shredded glossy magazines": "coated-paper", "waxed cardboard": "coated-paper",
		"receipts": "coated-paper", "treated wood": "treated-wood", "painted wood": "treated-wood", "MDF sawdust": "treated-wood",
		"sawdust from treated wood": "treated-wood", "plywood": "treated-wood", "coal ash": "coal-ash", "coal": "coal-ash",
		"bbq ash": "charcoal-ash", "charcoal briquettes": "charcoal-ash", "aminopyralid": "herbicide",
		"grass treated with weedkiller": "herbicide", "hay sprayed with clopyralid": "herbicide", "clubroot": "clubroot",
		"cabbages with club root": "clubroot", "onion white rot": "white-rot", "blighted tomatoes": "blight-tubers",
		"potato blight": "blight-tubers", "tobacco mosaic virus": "mosaic-virus", "fusarium wilt": "wilt",
		"diseased plants": "diseased", "diseased rose leaves": "diseased", "Japanese knotweed": "knotweed",
		"knotwed": "knotweed", "bindweed": "perennial-roots", "couch grass roots": "perennial-roots",
		"quack grass": "perennial-roots", "ground elder": "perennial-roots", "black walnut leaves": "black-walnut",
		"black walnut husks": "black-walnut", "compostable bags": "compostable-plastic", "plastic": "rubbish",
		"plastic bags": "rubbish", "broken glass": "rubbish", "engine oil": "chemicals", "cigarette butts": "cigarettes",
		"dead rat": "dead-animals", "straw from sick hens": "sick-animals", "pesticide treated trimmings": "pesticide",
	} {
		t.Run(words, func(t *testing.T) {
			m := feedstock.Default().Find(words)
			assert.Equal(t, feedstock.Banned, m.Outcome)
			assert.Equal(t, id, m.Refusal.ID)
			assert.NotEmpty(t, m.Refusal.Reason)
		})
	}
}

// TestFindDoesNotRefuse holds names that sound like what is refused.
func TestFindDoesNotRefuse(t *testing.T) {
	for words, id := range map[string]string{
		"paper": "mixed-paper", "cardboard": "cardboard", "dogwood prunings": "shrub-trimmings", "dogwood": "shrub-trimmings",
		"cat mint": "yarrow", "catmint": "yarrow", "cattails": "ornamental-grass", "fish blood and bone": "fish-blood-bone",
		"bonemeal": "fish-blood-bone", "milk thistle": "weeds", "butternut squash": "pumpkin", "butter bean plants": "bean-green-haulm",
		"crab grass": "weeds", "crab apples": "apple", "horse chestnut leaves": "leaves-dry", "pizza cardboard": "cardboard",
		"leaves in plastic bags": "leaves-dry", "non-glossy paper": "mixed-paper", "butter lettuce": "lettuce",
		"fat hen": "weed-lambsquarters", "meat-free scraps": "food-scraps", "scraps without meat": "food-scraps", "kitchen scraps, no dairy": "food-scraps",
		"oilseed rape straw": "straw-rape", "dog hair": "hair", "cat fur": "hair", "wood ash": "wood-ash", "walnut shells": "nut-shells",
		"pine shavings": "wood-shavings", "hen house bedding": "bedding-hen", "wilted comfrey": "comfrey", "cheese plant": "spent-flowers",
		"clean sawdust": "sawdust", "untreated sawdust": "sawdust", "beech leaves": "leaves-beech", "egg shells": "eggshell",
		"toilet roll tubes": "cardboard", "peat": "peat", "coffee filters": "coffee-filters", "rose petals": "spent-flowers",
	} {
		t.Run(words, func(t *testing.T) {
			m := feedstock.Default().Find(words)
			assert.Empty(t, m.Refusal.ID)
			assert.Equal(t, id, m.Feedstock.ID)
		})
	}
}

// TestFindKnowsItself holds that no name, alias or ID leads elsewhere.
func TestFindKnowsItself(t *testing.T) {
	table := feedstock.Default()
	for _, f := range table.All() {
		for _, words := range append([]string{f.ID, f.Name}, f.Aliases...) {
			switch m := table.Find(words); m.Outcome {
			case feedstock.Ambiguous:
				assert.Contains(t, f.Aliases, words, "%q of %s is shared and no alias", words, f.ID)
				assert.LessOrEqual(t, len(m.Near), 4)
			default:
				assert.Equal(t, feedstock.Found, m.Outcome, "%q of %s", words, f.ID)
				assert.Equal(t, f.ID, m.Feedstock.ID, words)
			}
		}
	}
	for _, r := range table.Refusals() {
		for _, words := range append([]string{r.Name}, r.Aliases...) {
			m := table.Find(words)
			assert.Equal(t, feedstock.Banned, m.Outcome, "%q of %s", words, r.ID)
			assert.Equal(t, r.ID, m.Refusal.ID, words)
		}
	}
}

func ids(list []feedstock.Feedstock) []string {
	out := make([]string, len(list))
	for i, f := range list {
		out[i] = f.ID
	}
	return out
}
