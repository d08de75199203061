package trouble

// Who publishes what the causes and remedies rest on. "Seen" means that the
// line was read on the publisher's page or in a reprint of its sheet.
const (
	srcSheet      = "extension sheet on troubleshooting compost piles (publisher not shown)"  // seen
	srcCornell    = "Cornell news 1998"                                                       // seen
	srcFS1        = "Cornell Waste Management Institute, fact sheet 1"                        // seen
	srcNJ         = "NJ Department of Environmental Protection"                               // seen
	srcGreenville = "Greenville County"                                                       // seen
	srcLangston   = "Langston University"                                                     // seen
	srcFire       = "NC Department of Environmental Quality, spontaneous combustion guidance" // seen
	srcRats       = "Test Valley Borough Council, controlling rats and mice"                  // seen
	srcWSU        = "Washington State University, compost fundamentals"                       // seen
	srcWeeds      = "Dahlquist, Prather and Stapleton 2007; Tompkins et al. 1998"             // abstracts seen
	srcTrade      = "common practice, no source"
)

// The cautions of what the remedies ask people to do.
const (
	dustCaution = "Damp a dry heap before turning it, wear mask and gloves, wash your hands (NSW Health). With asthma or weak immunity let somebody else turn it (CalRecycle)."
	fireCaution = "A heap above 71 °C can smoulder (NC DEQ): keep water at hand. At smoke or flames keep away and call the fire service."
	ratCaution  = "Rats carry disease: wear gloves and wash your hands (common practice, no source). Put down poison only as your council's rules allow."
)

// causes is the whole table. A fact that is not named does not weigh.
var causes = []Cause{
	{
		Code: "wet", Name: "it is too wet, and air cannot get in", Source: srcSheet + "; " + srcCornell,
		prior:  map[string]float64{"rotten": 3, "slimy": 4, "cold": 1, "flies": 0.6, "ammonia": 0.5, "stuck": 0.7},
		given:  map[string]weight{"wet": {8, 0.1}, "dry": {0.02, 1.5}, "rained": {2, 1}, "open": {1.3, 1}, "airless": {2, 0.7}, "warm": {0.6, 1.2}},
		Remedy: []string{"Turn it, mixing in coarse dry browns.", "Keep the rain off with a cover that lets air past."},
		Need:   Browns, Done: "log turn",
	},
	{
		Code: "airless", Name: "it is packed or matted, and no air gets inside", Source: srcSheet + "; " + srcNJ,
		prior:  map[string]float64{"rotten": 2, "slimy": 1.5, "cold": 0.7, "stuck": 0.8, "ammonia": 0.4},
		given:  map[string]weight{"airless": {3, 0.4}, "unturned": {2, 0.5}, "matted": {3, 0.7}, "wet": {1.2, 1}, "dry": {0.4, 1}, "earthy": {0.2, 1}},
		Remedy: []string{"Turn it and break up what sticks together in layers.", "Mix in twigs, stalks or chips to hold it open; put grass and leaves in thin layers from now on."},
		Done:   "log turn",
	},
	{
		Code: "rich", Name: "there is more green in it than it can use", Source: srcCornell + "; " + srcNJ + "; " + srcFS1,
		prior:  map[string]float64{"ammonia": 5, "rotten": 0.7, "hot": 1.2, "slimy": 0.7, "flies": 0.4},
		given:  map[string]weight{"rich": {3, 0.4}, "poor": {0.1, 1}, "warm": {1.2, 0.9}},
		Remedy: []string{"Mix in dry leaves, straw or other browns and turn."},
		Need:   Browns, Done: "log turn",
	},
	{
		Code: "poor", Name: "it is short of greens", Source: srcSheet + "; " + srcGreenville,
		prior:  map[string]float64{"cold": 2, "stuck": 1.5},
		given:  map[string]weight{"poor": {4, 0.5}, "rich": {0.1, 1.2}, "wet": {0.5, 1}, "dry": {0.6, 1.2}, "was-hot": {0.5, 1.3}, "warm": {0.1, 1}},
		Remedy: []string{"Mix in fresh grass, manure or kitchen scraps and turn."},
		Need:   Greens, Done: "log turn",
	},
	{
		Code: "dry", Name: "it is too dry to rot", Source: srcSheet + "; " + srcGreenville,
		prior:  map[string]float64{"cold": 1.5, "dry": 6, "stuck": 1.5, "mould": 2, "hot": 0.8},
		given:  map[string]weight{"dry": {8, 0.1}, "wet": {0.02, 1.3}, "rained": {0.5, 1}},
		Remedy: []string{"Turn it and water it as you go, half first; squeeze a handful before the rest.", "Cover it, and wet each new load."},
		Need:   Water, Done: "log water", Caution: dustCaution,
	},
	{
		Code: "small", Name: "it is too small to hold its heat", Source: srcSheet,
		prior:  map[string]float64{"cold": 2, "stuck": 0.6},
		given:  map[string]weight{"small": {2.5, 0.1}, "was-hot": {0.4, 1.3}, "warm": {0.1, 1}},
		Remedy: []string{"Collect enough for a heap of a cubic yard (0.76 m³) and build it in one go.", "Or insulate the sides, cover the top, and let it compost slowly."},
	},
	{
		Code: "frost", Name: "the weather takes its heat away", Source: srcSheet + "; " + srcWSU,
		prior:  map[string]float64{"cold": 1, "stuck": 0.8},
		given:  map[string]weight{"frost": {5, 0.1}, "small": {1.5, 0.8}, "warm": {0.1, 1}},
		Remedy: []string{"Leave it be: turning lets out what warmth there is.", "Pile straw or bales round it and cover the top; make it larger when you can."},
	},
	{
		Code: "batch", Name: "it was fed bit by bit and never was one batch", Source: srcSheet,
		prior:  map[string]float64{"cold": 1, "stuck": 0.5},
		given:  map[string]weight{"fed-on": {9, 0.3}, "warm": {0.1, 1}},
		Remedy: []string{"Stop adding to it and let it compost cold; begin the next heap.", "Or gather what you have and rebuild it in one go."},
	},
	{
		Code: "new", Name: "it was filled only lately: most heaps take some days to heat", Source: "Cornell, compost physics; 63 published small-scale runs (Khandakar, Kibria et al.): most peaked on day 4 to 7",
		prior:  map[string]float64{"cold": 1},
		given:  map[string]weight{"new": {6, 0.02}, "warm": {0.2, 1}},
		Remedy: []string{"Wait until a week is over, and read it every day or two."},
	},
	{
		Code: "spent", Name: "the middle has used up what it had", Source: "Miami University of Ohio, compost science; " + srcSheet,
		prior:  map[string]float64{"cold": 1.5, "stuck": 2.5},
		given:  map[string]weight{"was-hot": {2.5, 0.1}, "unturned": {2, 0.4}, "cured": {0.3, 1.2}, "warm": {0.2, 1}},
		Remedy: []string{"Turn it, the outside to the inside. If it stays below 45 °C afterwards, it is curing."},
		Done:   "log turn",
	},
	{
		Code: "done", Name: "it is done, or nearly", Source: srcSheet,
		prior:  map[string]float64{"cold": 0.8, "stuck": 2, "mushrooms": 1},
		given:  map[string]weight{"cured": {5, 0.1}, "earthy": {2, 0.6}, "warm": {0.05, 1.2}, "fed-on": {0.3, 1}, "wet": {0.7, 1}},
		Remedy: []string{"Ask “ready” what it is good for, and what test would settle it."},
	},
	{
		Code: "overheated", Name: "it is large, rich or dry enough to overheat", Source: srcFS1 + "; " + srcNJ + "; " + srcFire,
		prior:  map[string]float64{"hot": 4, "steaming": 0.4},
		given:  map[string]weight{"too-hot": {5, 0.1}, "rich": {1.5, 1}, "dry": {1.5, 1}, "small": {0.4, 1.2}},
		Remedy: []string{"Turn it to let the heat out, and wet it as you turn.", "Make it smaller or mix in browns if it heats up again."},
		Done:   "log turn", Caution: fireCaution,
	},
	{
		Code: "working", Name: "it is working as it should", Source: srcNJ + "; Cornell, compost physics",
		prior:  map[string]float64{"hot": 1, "steaming": 4, "cold": 0.1, "mould": 1},
		given:  map[string]weight{"warm": {4, 0.1}, "too-hot": {0.1, 1.2}, "wet": {0.7, 1}, "dry": {0.6, 1}},
		Remedy: []string{"Nothing: 40 to 60 °C is where a heap works fastest. Read it every three days."},
	},
	{
		Code: "bare", Name: "food lies where flies can get at it", Source: srcLangston + "; " + srcGreenville,
		prior:  map[string]float64{"flies": 5, "rotten": 0.5},
		given:  map[string]weight{"bare": {2, 0.5}, "food": {1.5, 0.3}},
		Remedy: []string{"Bury scraps a hand's depth in the middle.", "Cover each load with a hand's depth of leaves, straw or finished compost."},
	},
	{
		Code: "food", Name: "cooked food, bread, dairy or meat draws them", Source: srcRats,
		prior:   map[string]float64{"rats": 4},
		given:   map[string]weight{"food": {1.5, 0.5}, "bare": {1.5, 1}},
		Remedy:  []string{"Put in no cooked food, meat, dairy, bread, or dog or cat waste; take out what you find.", "Bury vegetable scraps in the middle, and turn the heap often: rats want quiet."},
		Caution: ratCaution, Done: "log turn",
	},
	{
		Code: "shelter", Name: "it is dry, warm and undisturbed: a good place to nest", Source: srcRats + "; " + srcTrade,
		prior:   map[string]float64{"rats": 3},
		given:   map[string]weight{"unturned": {2.5, 0.4}, "dry": {2, 0.5}, "warm": {1.2, 0.9}},
		Remedy:  []string{"Turn it and water it: what is damp and moved is no home.", "Set it in the open, away from fences, on mesh with holes of 15 mm or less."},
		Caution: ratCaution, Done: "log turn",
	},
	{
		Code: "nest", Name: "it is dry and left alone, as ants like it", Source: srcTrade,
		prior:  map[string]float64{"ants": 5},
		given:  map[string]weight{"unturned": {1.5, 0.7}, "dry": {2, 0.5}},
		Remedy: []string{"Turn it and water it as you go: they move out, and it rots faster."},
		Need:   Water, Done: "log turn",
	},
	{
		Code: "fungi", Name: "fungi are eating the tougher parts, as they should", Source: srcTrade,
		prior:   map[string]float64{"mould": 4, "mushrooms": 5},
		given:   map[string]weight{"woody": {1.5, 1}, "dry": {0.8, 1}},
		Remedy:  []string{"Leave it, or turn it in at the next turning. Do not eat the mushrooms."},
		Caution: dustCaution,
	},
	{
		Code: "seeds", Name: "it was not hot enough, or not all of it, for the seeds in it", Source: srcWeeds,
		prior:  map[string]float64{"weeds": 3},
		given:  map[string]weight{"hot-enough": {0.5, 2.5}, "unturned": {1.3, 0.8}},
		Remedy: []string{"Turn the sprouts in while they are small.", "Let it heat to 55 °C and more several times, the outside turned to the inside; use it where you can hoe until then."},
		Done:   "log turn",
	},
	{
		Code: "blown", Name: "seeds blew on to it, or roots grew in from below", Source: srcTrade,
		prior:  map[string]float64{"weeds": 2},
		given:  map[string]weight{"open": {1.5, 0.7}, "hot-enough": {1.5, 0.8}},
		Remedy: []string{"Pull out what came from below, roots and all, and cover the heap."},
	},
}
