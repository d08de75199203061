package commands

import "slices"

// The topics whose pages carry a list from the tables.
const (
	stayOutTopic = "stays out"
	sourcesTopic = "sources"
)

// pages is the whole guide in the order it is listed.
var pages = slices.Concat(wordPages, howPages, cautionPages, troublePages, aboutPages)

// Marks for what has no published source.
const (
	commonPractice = "Common practice, no source."
	ownChoice      = "Our own choice."
)

// wordPages say what the words of the trade mean.
var wordPages = []page{
	{
		topic: "words", aliases: []string{"glossary", "terms", "meanings", "vocabulary", "jargon"},
		gist: "The words used here, in short.",
		lines: []string{
			"Feedstock: anything that goes on the heap. Greens are rich in nitrogen, browns in carbon.",
			"C:N: parts of carbon to one part of nitrogen, by weight. Aim for about 30 when you build.",
			"Moisture: the share of water in the weight as it lies. Aim for 50 to 60 %.",
			"Free air space: the holes between the pieces, as a share of the volume.",
			"Bulk density: what a measure weighs as it lies, with the holes.",
			"Core: the middle of the heap, where it is hottest.",
			"Turning: moving the outside in and letting air through.",
			"Curing: the slow last weeks, when the heap no longer heats after turning.",
			"Maturity: how ripe it is. Mature compost no longer heats, and plants grow on in it.",
			"Bay: a walled place for one heap. Mulch: a layer left on top of the soil.",
			"Stages: filling, hot, cooling, curing, ready.",
		},
		sources: []string{
			"C:N: Purdue Extension ID-182-W, https://extension.purdue.edu/extmedia/ID/ID-182.pdf",
			"Moisture: AgriFutures, https://chicken-meat-extension-agrifutures.com.au/docs/poultry-waste-composting-guidelines/introduction-to-science-of-composting/water/",
			"The other lines: " + commonPractice,
		},
	},
	{
		topic: "c:n", aliases: []string{"cn", "c/n", "c n", "c to n", "carbon to nitrogen", "carbon to nitrogen ratio", "ratio", "carbon", "nitrogen"},
		gist: "C:N is how much carbon there is for one part of nitrogen, by weight.",
		lines: []string{
			"Microbes want roughly 30 parts of carbon to one of nitrogen when the heap is built.",
			"Well below that, nitrogen leaves as ammonia: you smell it. Well above, it hardly warms.",
			"25 to 35 is the aim here; 20 to 40 still works.",
			"It falls as the heap rots, because carbon leaves as gas.",
			"The sum is made over dry weights. Averaging the ratios themselves gives wrong answers.",
		},
		sources: []string{
			"About 30: Purdue Extension ID-182-W, https://extension.purdue.edu/extmedia/ID/ID-182.pdf",
			"25-35 and 20-40: Cooperband 2002, Art and Science of Composting, https://studylib.net/doc/7622894",
			"Ammonia when rich: Cornell Fact Sheet 1, https://compost.css.cornell.edu/Factsheets/FS1.html",
			"Falls in composting: Clemson, http://www.clemson.edu/public/regulatory/ag_svc_lab/compost/interpretation.html",
		},
	},
	{
		topic: "greens", aliases: []string{"green", "nitrogen rich", "greenery"},
		gist: "Greens are fresh and rich in nitrogen: they heat the heap and bring the water.",
		lines: []string{
			"Grass, kitchen scraps, coffee grounds, fresh weeds without seed, most manures.",
			"Alone they go slimy and smell of ammonia: always put browns with them.",
			"Colour is not the test: coffee grounds are brown to look at and a green by content.",
			"Ask for one by name to see its figures, for example: guide grass clippings",
		},
		sources: []string{
			"Ammonia with too much green: Cornell, https://news.cornell.edu/stories/1998/07/how-compost-and-keep-neighbors-happy",
			"The other lines: " + commonPractice,
		},
	},
	{
		topic: "browns", aliases: []string{"brown", "carbon rich", "dry stuff"},
		gist: "Browns are dry and rich in carbon: they soak up water and hold the heap open.",
		lines: []string{
			"Dry leaves, straw, torn cardboard, wood chips, dry stalks.",
			"By volume, published rules run from equal parts to three parts brown to one green.",
			"They differ because a bucket of leaves may be fluffy or settled. Let mix do the sum.",
			"Keep a covered store of browns: greens arrive all at once.",
		},
		sources: []string{
			"Equal volumes: Raabe, University of California, https://pl.scribd.com/document/50690411",
			"Two to three to one: UC Master Gardeners of Sonoma, https://sonomamg.ucanr.edu/composting/composting_basics",
			"The other lines: " + commonPractice,
		},
	},
	{
		topic: "air", aliases: []string{"free air space", "bulk density", "density", "oxygen", "structure"},
		gist: "A heap breathes through the holes between its pieces.",
		lines: []string{
			"Wet, fine or heavy material shuts them: it goes sour and stops heating.",
			"Twigs, stalks, straw and chips hold the holes open; put a coarse layer at the bottom.",
			"Turning loosens for a while; coarse pieces last.",
			"Field figures: oxygen above 5 %, pieces of 2 inches (5 cm) or less.",
		},
		sources: []string{
			"Oxygen and piece size: eXtension, http://www.extension.org/pages/34398/what-are-the-ideal-conditions-for-composting",
			"Wet or packed heaps smell: Cornell, https://news.cornell.edu/stories/1998/07/how-compost-and-keep-neighbors-happy",
			"Coarse base: " + commonPractice,
		},
	},
	{
		topic: "curing", aliases: []string{"cure", "cured", "maturing", "maturity", "mature"},
		gist: "Curing begins when the heap stays below 45 °C even after turning.",
		lines: []string{
			"It ends when the heap is within about 5 °C of the air.",
			"Allow three to six weeks for compost that goes on plants.",
			"Turn about weekly at first; leave it alone once it is below 40 °C.",
			"If it climbs over 45 °C after a turn it is not there yet: turn more, or make it smaller.",
			"Keep it apart from fresh material, and wash the tools in between.",
		},
		sources: []string{
			"AgriFutures, poultry waste composting guidelines, https://chicken-meat-extension-agrifutures.com.au/docs/poultry-waste-composting-guidelines/curing/",
		},
	},
	{
		topic: "stages", aliases: []string{"stage", "phases", "filling", "cooling", "how long", "time"},
		gist: "Filling, hot, cooling, curing, ready: a heap is read by its temperatures.",
		lines: []string{
			"Filling: still being fed. Hot: the core is high and climbs again after each turn.",
			"Cooling: each turn brings less heat back. Curing: it stays below 45 °C after a turn.",
			"Ready: close to the air's temperature, and a simple test passed.",
			"Time: 90 to 120 days when managed; six months to a year when left alone.",
		},
		sources: []string{
			"Curing rule: AgriFutures, https://chicken-meat-extension-agrifutures.com.au/docs/poultry-waste-composting-guidelines/curing/",
			"Managed: Texas TCEQ, https://takecareoftexas.org/about-us/blog/truth-about-turning-your-compost-pile",
			"Left alone: University of Illinois, https://extension.illinois.edu/news-releases/use-fall-leaves-home-compost",
			"Names of the stages: " + ownChoice,
		},
	},
}

// howPages say how to do a thing.
var howPages = []page{
	{
		topic: "reading", aliases: []string{"temperature", "thermometer", "take a reading", "take the temperature", "measure the temperature", "core", "readings", "probe"},
		asks: `\bhow (?:hot|warm) (?:should|must|ought)\b|\b(?:right|ideal|best|correct|proper|good) (?:temperature|heat)\b|\bhow\b.*\b(?:temperature|thermometer|probe|reading)\b|\bwhere\b.*\b(?:thermometer|probe)\b|\bhow deep\b`,
		gist: "Push the thermometer to the middle, wait until it stands still, and say how deep.",
		lines: []string{
			"Half a metre in is about right for a big heap; in a small one go to the middle.",
			"Rules for large heaps measure 30 to 60 cm below the surface.",
			"Take a second reading nearer the edge: the cool outside counts too.",
			"Same spot, same time of day, and just before a turn rather than just after.",
			"No thermometer: leave a metal rod in the middle. If you can hold the hot end for only",
			"three seconds, it is hot enough.",
			"Then log it: log temp 58 depth:40cm",
		},
		sources: []string{
			"30-61 cm: 14 CCR 17868.3 as a facility report gives it, https://lfweb.sjgov.org/WebLink/1/doc/721745/Page107.aspx",
			"Cool outside: USDA APHIS, https://www.aphis.usda.gov/animal_health/emergency_management/in-house_composting/scopage_dir/ovr/monturn.html",
			"Rod: Devon Community Composting Network, http://dccn.typepad.com/community_composting/monitoring-temperature-moisture-sampling.html",
			"The other lines: " + commonPractice,
		},
	},
	{
		topic: "squeeze", aliases: []string{"squeeze test", "feel", "moisture", "water content", "hand test", "fist test", "wet", "damp"},
		asks: `\bhow (?:wet|damp|moist|dry) (?:should|must|ought|does|do|can|is it meant|is too)\b|\b(?:right|ideal|best|correct|proper|good) (?:moisture|wetness|dampness|water content)\b|\bsqueeze test\b|\bwrung[ -]out sponge\b`,
		gist: "Squeeze a handful from inside the heap: it should feel like a wrung-out sponge.",
		lines: []string{
			"crumbles: will not make a ball. About under 40 %: too dry.",
			"holds: a ball, no drops. About 40 to 50 %: on the dry side.",
			"drops: one to three drops. About 50 to 60 %: right.",
			"drips: more than three drops. About 60 to 65 %: too wet.",
			"runs: water runs out. Over about 65 %: far too wet.",
			"Take it from a hand's depth or more, in two places. Gloves on; wash hands after.",
			"Then log it: log feel drops",
		},
		sources: []string{
			"50-60 %, a drop or two: https://www.nwhorsesource.com/pass-compost-squeeze-test/",
			"Two or three drops: Devon Community Composting Network, http://dccn.typepad.com/community_composting/monitoring-temperature-moisture-sampling.html",
			"50 %, a clump without drops: City of Plymouth MN, https://plymouthmn.gov/departments/public-works/recycling-disposal/guide-to-backyard-composting",
			"The joined-up scale of five: " + ownChoice,
		},
	},
	{
		topic: "layering", aliases: []string{"layers", "layer", "building", "build a heap", "lasagne", "lasagna", "thin layers"},
		asks: `\bhow\b.*\b(?:layer|layers|layering|build a|build the|build #|start a (?:heap|pile)|make (?:good )?compost)\b|\bhow\b.*\bstart a #`,
		gist: "Coarse stuff at the bottom, then green and brown in thin layers, or mixed.",
		lines: []string{
			"Bottom: a hand's breadth of twigs or stalks, so that air comes in from below.",
			"Grass, wet leaves and paper mat: no thick layers, unless they are shredded or mixed in.",
			"Wet each layer that goes on dry.",
			"Cover kitchen scraps with browns at once: it keeps flies and rats away.",
			"A dished top takes rain in, a peaked one sheds it.",
		},
		sources: []string{
			"Matting, wetting: extension sheet Troubleshooting Compost Piles, https://www.scribd.com/document/59759219/Compost-Piles-Troubleshooting-Problems",
			"Top: AgriFutures, https://chicken-meat-extension-agrifutures.com.au/docs/poultry-waste-composting-guidelines/composting/setting-up-and-managing-turned-windrows-for-conventional-composting",
			"Cover against flies: Langston University, https://goats.langston.edu/troubleshooting-mortality-compost",
			"Coarse base: " + commonPractice,
		},
	},
	{
		topic: "size", aliases: []string{"how big", "volume", "minimum size", "small heap", "big enough"},
		asks: `\bhow (?:big|large|high|tall|wide) (?:should|must|does|do|can|ought)\b`,
		gist: "About one cubic metre is the least that holds its heat.",
		lines: []string{
			"Cornell puts the least at a cubic yard (0.76 m³).",
			"Washington State: 3 by 3 feet and 4 feet high; a little more is better.",
			"Wasco County: not more than 5 feet each way, so that air still gets in.",
			"Smaller heaps rot too, cold and slowly. Insulate the sides and cover the top.",
		},
		sources: []string{
			"Cornell Horticulture, http://blogs.cornell.edu/horticulture/soil-basics/compost-basics/",
			"WSU Whatcom, https://extension.wsu.edu/whatcom/hg/home-composting/",
			"Wasco County, http://www.co.wasco.or.us/departments/code_compliance/composting.php",
			"Insulating: extension sheet, https://www.scribd.com/document/59759219/Compost-Piles-Troubleshooting-Problems",
		},
	},
	{
		topic: "turning", aliases: []string{"turn", "turn a heap", "aerate", "how often", "when to turn", "turning a heap"},
		asks: `\bhow often\b.*\bturn\b|\bwhy\b.*\bturn\b|\bhow (?:do|to|should)\b.* turn\b`,
		gist: "Turn when it starts to cool, or when it gets above 60 °C: outside in, inside out.",
		lines: []string{
			"Above 60 °C the wanted microbes suffer (Cornell).",
			"When a hot heap starts to fall, it has used its air: turn it (Miami University, Ohio).",
			"By calendar: weekly in summer, monthly in winter (TCEQ).",
			"In cold places some leave it alone from late autumn, to keep the heat.",
			"Wet dry patches while you turn. Wear a mask if it is dusty.",
			"More turning is faster, and loses more nitrogen (Getahun 2012).",
		},
		sources: []string{
			"Cornell Fact Sheet 1, https://compost.css.cornell.edu/Factsheets/FS1.html",
			"Miami University, http://cas.miamioh.edu/scienceforohio/CompVrTr/CoVt14.html",
			"TCEQ, https://takecareoftexas.org/about-us/blog/truth-about-turning-your-compost-pile",
			"Cold: http://makedirtnotwaste.org/ (publisher not shown)",
			"Getahun 2012, Resour. Conserv. Recycl. 65:79-84, https://it.scribd.com/document/410778316/getahun2012-pdf",
			"Mask: NSW Health, https://www.health.nsw.gov.au/news/Pages/20181214_00.aspx",
		},
	},
	{
		topic: "tests", aliases: []string{"bag test", "jar test", "radish test", "test", "is it done", "ready test", "germination test"},
		asks: `\bhow\b.*\b(?:know|tell|test)\b.*\b(?:ready|done|finished|mature)\b|\b(?:bag|jar|radish) test\b`,
		gist: "Three simple tests say whether it is done: bag, jar, radish.",
		lines: []string{
			"Bag: seal a damp handful in a plastic bag for a few days. It should smell pleasant.",
			"Jar: make it soggy and seal it for a week. Earthy is done, a bad smell is not.",
			"Radish: sow in pots of it. If three in four come up and grow on, use it anywhere.",
			"Then log it: log test passed test:radish",
		},
		sources: []string{
			"Bag: Devon Community Composting Network, http://dccn.typepad.com/community_composting/monitoring-temperature-moisture-sampling.html",
			"Jar: Cornell Cooperative Extension, Is It Done Yet?, http://www.scribd.com/doc/59759284",
			"Radish: UF/IFAS, https://sfyl.ifas.ufl.edu/sarasota/natural-resources/waste-reduction/composting/what-is-composting/when-is-compost-ready/compost-maturity-test/",
		},
	},
	{
		topic: "using compost", aliases: []string{"spreading", "mulch", "mulching", "top dressing", "spread compost"},
		asks: `\bhow (?:do|should|can|to|would|must) (?:i |we |you )?(?:use|apply) (?:the |our |my |finished |it|ready )*(?:compost\b|#|it\b)`,
		gist: "Coarse, part-finished compost is for mulch; mature and sieved for beds.",
		lines: []string{
			"Digging in close to planting asks for mature, sieved compost.",
			"Seed mixes ask for the ripest, sieved to an eighth of an inch (3 mm).",
			"Over a year or two old it needs no test.",
			"How much: spread 3 m2 3 cm. What a heap gives: spread heap:\"North Bay\"",
			"Is it ready, and for which use: ready",
			"Manure in it: guide manure. Hay, straw or manure in it: guide pea test",
		},
		sources: []string{"Cornell Cooperative Extension, Is It Done Yet?, http://www.scribd.com/doc/59759284"},
	},
	{
		topic: "pea test", aliases: []string{"bioassay", "bean test", "herbicide test", "test for herbicide", "peas"},
		gist: "Peas show whether weedkiller is left in compost, hay or manure.",
		lines: []string{
			"Fill some pots with the compost and some with a clean potting mix, to compare.",
			"Sow peas in all. Wait two to three weeks, until they have three sets of leaves.",
			"Cupped or twisted leaves only in the compost: do not use it on beds.",
			"It finds the group of weedkillers, not which one. Beans and tomatoes are sensitive too.",
		},
		sources: []string{
			"WSU Whatcom 2011, http://whatcom.wsu.edu/ag/aminopyralid/bioassay.html",
			"UF/IFAS AG416, https://edis.ifas.ufl.edu/publication/AG416",
		},
	},
}
