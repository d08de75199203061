package commands

// cautionPages carry what can hurt somebody, and who says so. Local rules go
// before all of them.
var cautionPages = []page{
	{
		topic: stayOutTopic, aliases: []string{"what stays out", "keep out", "banned", "forbidden", "not allowed", "refused", "do not compost", "stay out", "left out"},
		asks: `\bwhat (?:should|must|can|may|do|could) (?:i |we |you )?not\b|\bwhat (?:stays?|must stay|should stay|is kept|do we keep|do i keep|should we keep) out\b|\bwhat is not (?:allowed|wanted)\b|\bwhat (?:can|may|should) (?:i|we|you) (?:put|compost|add)(?: in| on| into| onto| to)?(?: #| it| here)?(?: ?\?)?$|\bwhat (?:can|may) go (?:in|on|into)\b`,
		gist: "A shared heap takes no meat, no pet waste, no sick plants, no roots that grow on.",
		lines: []string{
			"A garden heap is seldom hot enough, all through and for long enough, to deal with these.",
			"Ask for one by name for its reason and source, for example: guide meat",
		},
		sources: []string{
			"US EPA list as reprinted, https://www.sunjournal.com/2022/04/17/the-dos-donts-and-benefits-of-composting/",
			"WSU Whatcom, https://extension.wsu.edu/whatcom/hg/home-composting/",
			"Clubroot lived through six months: Ryckeboer 2002, https://lirias.kuleuven.be/handle/123456789/411995",
		},
	},
	{
		topic: "dust", aliases: []string{"spores", "spore", "mould", "mold", "legionella", "legionnaires", "legionnaires disease", "aspergillus", "mask", "fungus", "breathing", "asthma", "gloves"},
		gist: "Compost dust can carry Legionella and mould spores: keep it damp, wear a mask.",
		lines: []string{
			"NSW Health: mask and gloves, wet the compost to lay the dust, wash your hands after.",
			"Most at risk: older people, smokers, and those with a weak immune system.",
			"Illness shows two to ten days later: tell the doctor that you handled compost.",
			"CIWMB: mould spores hardly trouble healthy people; they do with asthma,",
			"a weak immune system or high doses of steroids.",
			"If that is you: Recycle Now suggests a bin rather than a heap, kept moist, not turned;",
			"otherwise a mask, and stand upwind. Let somebody else do the turning.",
		},
		sources: []string{
			"NSW Health 2018, https://www.health.nsw.gov.au/news/Pages/20181214_00.aspx",
			"CIWMB advisory 6, https://www.calrecycle.ca.gov/LEA/Advisories/06/",
			"Recycle Now, http://www.recyclenow.com/home_composting/get_advice/buy_a_bin_faqs/i_havent_started.html",
			"Telling the doctor: " + commonPractice,
		},
	},
	{
		topic: "fire", aliases: []string{"smoke", "smoking", "burning", "too hot", "overheating", "catch fire", "on fire", "smoulder", "smouldering", "combustion"},
		gist: "Above 71 °C (160 °F) turn it and wet it; above 85 °C act at once.",
		lines: []string{
			"NC DEQ: at 160 °F (71 °C) turn, wet it while turning, keep it low, add less green.",
			"NRCS: watch closely above 165 °F (74 °C), act at once above 185 °F (85 °C).",
			"Dry, large heaps are the ones that catch fire (AgriFutures).",
			"City of Eugene: a garden bin is mostly too small, unless something burning goes in.",
			"Smoke, or a smell of burning: stand back and call the fire service. Do not dig into it.",
		},
		sources: []string{
			"NC DEQ, https://www.deq.nc.gov/about/divisions/waste-management/waste-management-permit-guidance/solid-waste-section/disaster-debris/spontaneous-combustion-guidance",
			"USDA NRCS job sheet 317 (2002), https://docest.com/doc/388104/fotg-section-iv-job-sheet-317",
			"City of Eugene, https://www.eugene-or.gov/FAQ.aspx?QID=211",
			"AgriFutures, poultry waste composting guidelines (page not named)",
			"The last line: " + commonPractice,
		},
	},
	{
		topic: "manure", aliases: []string{"raw manure", "fresh manure", "muck", "dung", "manure rule", "120 days"},
		gist: "Raw manure: 120 days before harvest where the crop touches soil, 90 where not.",
		lines: []string{
			"That is the US organic rule, 7 CFR 205.203(c)(1); your local rules go first.",
			"The 120 days hold where the eaten part touches soil or is splashed by it.",
			"Compost that was mixed with raw manure afterwards counts as raw again.",
			"Manure and bedding can also carry weedkiller: see guide herbicides.",
			"Gloves on, wash hands after. Dog and cat waste stays out altogether.",
		},
		sources: []string{
			"90-120 day rule: USDA AMS, https://www.ams.usda.gov/grades-standards/soil-building-manures-composts",
			"Its wording, second-hand: https://hn.masterscheme.cn/item?id=19013327",
			"Mixed with raw: Louisiana V-1211.B.3, https://d1tvxue8o4w0fl.cloudfront.net/regulation/louisiana-administrative-code/title-7-agriculture-and-animals/part-v-advertising-marketing-and-processing/chapter-12-produce-safety/section-v-1211-biological-soil-amendments-of-animal-origin-and-human-waste",
			"Pet waste: WSU Whatcom, https://extension.wsu.edu/whatcom/hg/home-composting/",
		},
	},
	{
		topic: "herbicides", aliases: []string{"herbicide", "weedkiller", "weed killer", "aminopyralid", "clopyralid", "picloram", "twisted leaves", "cupped leaves"},
		gist: "Some weedkillers pass through animals and through a heap, and still harm plants.",
		lines: []string{
			"Aminopyralid, clopyralid and picloram stay active in hay, manure, clippings and compost.",
			"The sign: cupped, twisted leaves on beans, peas, tomatoes.",
			"Ask where hay, straw and manure come from, and what the field was sprayed with.",
			"Unsure? Do the pea test before it goes on a bed: guide pea test",
		},
		sources: []string{
			"NC State AG-727, https://content.ces.ncsu.edu/herbicide-carryover",
			"Oregon State, https://smallfarms.oregonstate.edu/herbicide-carryover-hay-manure-compost-and-grass-clippings",
			"Pea test: WSU Whatcom 2011, http://whatcom.wsu.edu/ag/aminopyralid/bioassay.html",
		},
	},
	{
		topic: "rats", aliases: []string{"rat", "mice", "mouse", "vermin", "rodents", "pests"},
		gist: "Keep rats out with mesh, an open spot, and nothing cooked.",
		lines: []string{
			"Mesh under the bin and over gaps, holes of 15 mm at most.",
			"No cooked food, meat, dairy or bread, no dog or cat waste.",
			"Stand it in the open, away from fences and walls.",
			"Cover kitchen scraps with browns, and turn often: they like a quiet, dry heap.",
			"Where there were rats: gloves, covered cuts, washed hands.",
		},
		sources: []string{
			"Test Valley Borough Council, https://testvalley.gov.uk/housingandenvironmentalhealth/pest-control-services/controlling-rats-mice-guide-preventing-infestation?chapter=4&displaypref=default",
			"The last two lines: " + commonPractice,
		},
	},
	{
		topic: "ash", aliases: []string{"wood ash", "ashes", "coal ash", "charcoal", "fireplace ash", "bonfire ash"},
		gist: "A little ash of clean wood is fine, thin and mixed in; coal ash never.",
		lines: []string{
			"None from treated, painted or stained wood, rubbish, cardboard or coal.",
			"Mix it in as the heap is built. With nitrogen fertiliser it drives off ammonia.",
			"It is limy: nothing where the soil is above pH 7, on potatoes or acid-loving plants.",
			"Straight on grass at most 50 to 70 g per square metre.",
			"Wear eye protection, gloves and a mask: it is caustic dust.",
		},
		sources: []string{
			"Oregon State, https://extension.oregonstate.edu/news/wood-ashes-can-benefit-gardens-lawns",
			"Oregon State, http://extension.oregonstate.edu/gardening/use-caution-wood-ash-your-lawn-and-garden",
			"50 to 70 g: its 10-15 lb per 1,000 square feet, converted",
		},
	},
	{
		topic: "tetanus", aliases: []string{"cuts", "vaccination", "lockjaw", "injury", "wounds"},
		gist: "Tetanus lives in soil and manure: keep the vaccination up to date.",
		lines: []string{
			"CDC, as reprinted: a booster every ten years; ask your doctor what holds for you.",
			"Gloves and stout shoes, forks points down, cuts washed and covered.",
			"A deep or dirty wound: see a doctor the same day.",
		},
		sources: []string{
			"CDC as reprinted, https://universityplacecommunitygarden.org/2017/04/06/gardening-health-and-safety-tips-family-health-cdc/",
			"Shoes, forks, wounds: " + commonPractice,
		},
	},
	{
		topic: "weeds", aliases: []string{"weed seeds", "weed seed", "seeds", "disease", "diseases", "pathogens", "hot enough", "sick plants", "blight"},
		gist: "Heat deals with many seeds and diseases, but only where and as long as it was hot.",
		lines: []string{
			"Six weeds died at 50 °C and above in one test (Dahlquist 2007).",
			"Other tests found seeds of some species alive after days at 60 °C and more (Egley 1990).",
			"Moist heat counts for more than dry. The cool outside keeps seeds: turn it in.",
			"Clubroot outlived six months in garden vessels (Ryckeboer 2002).",
			"So: weeds before they seed, sick plants and creeping roots not at all.",
		},
		sources: []string{
			"Dahlquist 2007, Weed Science 55:619-625, https://www.cambridge.org/core/journals/weed-science/article/time-and-temperature-requirements-for-weed-seed-thermal-death/509FE7A61FAE479592AE1CE9EF995D4A",
			"Egley 1990, Weed Science, https://homsy-staging.cambridgecore.org/core/journals/weed-science/article/hightemperature-effects-on-germination-and-survival-of-weed-seeds-in-soil/2D3996A23BD3F25980DF3A983F02F8D2",
			"Ryckeboer 2002, https://lirias.kuleuven.be/handle/123456789/411995",
			"The last line: " + commonPractice,
		},
	},
}

// troublePages say what a sign means and what to do.
var troublePages = []page{
	{
		topic: "smells", aliases: []string{"smell", "smelly", "stink", "stinks", "stinking", "ammonia", "rotten", "rotten eggs", "sour", "vinegar", "odour", "odor", "slimy"},
		gist: "Ammonia wants browns; rotten or sour wants air and less water.",
		lines: []string{
			"Ammonia: too much green. Mix in dry leaves or straw.",
			"Rotten eggs, rancid, vinegar: too wet or packed. Turn it, add coarse dry stuff, cover it.",
			"Of rubbish: too wet, wrong food, or uncovered. Mix in leaves or sawdust and cover.",
			"Earthy, like a wood floor: it is well.",
			"Log what you smell (log smell ammonia): next then says what to do.",
		},
		sources: []string{
			"Cornell, https://news.cornell.edu/stories/1998/07/how-compost-and-keep-neighbors-happy",
			"Greenville County, https://sc-greenville-old.civicplus.com/293/Composting",
			"Extension sheet, https://www.scribd.com/document/59759219/Compost-Piles-Troubleshooting-Problems",
		},
	},
	{
		topic: "cold heap", aliases: []string{"not heating", "cold", "not hot", "not warm", "will not heat", "does not heat", "not getting hot", "not working", "not rotting", "slow"},
		gist: "A heap that stays cold is small, dry, short of greens, short of air, or done.",
		lines: []string{
			"Dark, crumbly, earthy: it is finished. Use it.",
			"Dry throughout: turn it and water as you go.",
			"Damp and sweet-smelling: too little nitrogen. Mix in grass, scraps or manure.",
			"Warm only in the middle: too small. Gather a cubic metre, insulate, cover.",
			"Cold weather: make it larger, or pack straw round it.",
			"Wet and heavy: too little air. Turn it with something coarse.",
		},
		sources: []string{"Extension sheet, https://www.scribd.com/document/59759219/Compost-Piles-Troubleshooting-Problems"},
	},
	{
		topic: "flies", aliases: []string{"fly", "fruit flies", "maggots", "larvae", "gnats"},
		gist: "Flies find food that lies open: cover it thicker.",
		lines: []string{
			"Put a thicker layer of browns over fresh scraps, and stop liquid leaking.",
			"Bury scraps in the warm middle rather than on top.",
		},
		sources: []string{
			"Langston University, https://goats.langston.edu/troubleshooting-mortality-compost",
			"Burying: " + commonPractice,
		},
	},
	{
		topic: "cover", aliases: []string{"covering", "tarp", "lid", "rain", "weather", "frost", "winter"},
		gist: "A cover keeps a heap from soaking in winter and drying in summer.",
		lines: []string{
			"Where it is dry, one county adviser leaves heaps open, to let rain and air in.",
			"In the cold a larger heap loses less heat; turn it less often (WSU).",
			"Straw bales round it and a sheet on top help in frost (Moberly).",
			"Wind cools one side: a windbreak helps (WSU).",
		},
		sources: []string{
			"Cover: https://www.nwhorsesource.com/pass-compost-squeeze-test/",
			"Against: https://hggarden.blogspot.com/2020/06 (second-hand)",
			"WSU, http://whatcom.wsu.edu/ag/compost/fundamentals/needs_climatic.htm",
			"Moberly MO, https://moberlymo.org/237/Dormancy",
		},
	},
}

// aboutPages say how to use this assistant and what its answers rest on.
var aboutPages = []page{
	{
		topic: "asking", aliases: []string{"help", "commands", "how to ask", "examples", "start here"},
		asks: `\bwhat can (?:you|i ask|i say)\b|\bhow (?:do|can|does) (?:i use|this work|you work)\b|\bwho are you\b|\bwhat are you\b`,
		gist: "Say it in plain words, or in the short form.",
		lines: []string{
			"Something arrived: mix 2 buckets of grass clippings",
			"Put it on the record: log add 2 buckets of grass",
			"A reading: log temp 58 depth:40cm (or: 58 degrees in North Bay at 40 cm)",
			"What needs doing: next. Is it ready: ready. Who did what: history",
			"What we have: stock list. The heaps: heap list",
			"Slipped? undo takes back your latest entry.",
			"Name a heap anywhere with heap:\"North Bay\"; with one heap you need not.",
		},
		sources: []string{ownChoice},
	},
	{
		topic: "measures", aliases: []string{"units", "bucket", "buckets", "barrow", "sack", "litres", "gallons", "weigh", "weighing"},
		gist: "Say amounts in whatever you carry: buckets, barrows, sacks, litres, kilograms.",
		lines: []string{
			"Containers have default sizes; yours go before them.",
			"Tell the size: garden measure our bucket holds 14 l",
			"Better still, weigh one: stock weigh one bucket of our grass is 3.1 kg",
			"How heavy a bucketful is counts most for the answer, and is known worst.",
			"Weigh it full and empty, not pressed down, as you would tip it in.",
			"Units: garden units metric, us or imperial. 140F and 60C are always understood.",
		},
		sources: []string{
			"Spread of published weights: MassDEP 396 kg/m³ and SWOLF 250 kg/m³ for grass; see guide sources",
			"Default containers: " + commonPractice,
		},
	},
	{
		topic: "uncertainty", aliases: []string{"how sure", "8 of 10", "in 8 of 10 loads", "loads", "accuracy", "how accurate", "range", "ranges", "confidence"},
		asks: `\bhow (?:sure|certain|accurate|reliable|good|exact)\b.*\b(?:you|this|it|that|numbers?|answer|recipe|figures)\b|\bin \d+ of 10\b|\bof (?:10|ten) loads\b`,
		gist: "“In 8 of 10 loads” means: of ten loads like yours, about eight come out right.",
		lines: []string{
			"No two buckets of grass are alike, so every property here is a range.",
			"The sum is made hundreds of times, each time with other values out of those ranges.",
			"Low and high are what one time in ten lies below, and one time in ten above.",
			"It counts a load as right with C:N 20 to 40 and moisture 40 to 65 %.",
			"The same question always gives the same answer.",
			"To be surer: weigh a bucket (guide measures), and squeeze a handful (guide squeeze).",
		},
		sources: []string{
			"20-40 and 40-65 %: USDA NRCS, National Engineering Handbook 637 ch. 2, pp. 2-2 and 2-11, as quoted in a course; see guide sources",
			"The method: " + ownChoice,
		},
	},
	{
		topic: sourcesTopic, aliases: []string{"source", "references", "numbers", "where the numbers come from", "figures", "data"},
		asks: `\bwhere (?:do|did|are|does)\b.*\b(?:numbers?|figures?|data|facts|sources?)\b|\bwho says\b|\bsays who\b`,
		gist: "Every figure names where it was read; what was not read says so.",
		lines: []string{
			"Material figures come from published tables; ask for a material to see its own.",
			"“memory” marks a figure nobody could look up; “judgement” is our own choice.",
			"Ask for one by its id, for example: guide NRCS-NEH637-T2A1",
		},
		sources: []string{"The table of sources kept with the materials."},
	},
	{
		topic: "privacy", aliases: []string{"kept data", "personal data", "data protection", "gdpr", "who sees", "names", "forget me"},
		asks: `\bwho (?:can|could) (?:see|read)\b|\bwhat (?:do you|is|data) .*\b(?:keep|kept|store|stored|know about me)\b`,
		gist: "Kept: what was logged, when, and the name shown. Seen by: this channel only.",
		lines: []string{
			"Only what you say to me is read; other messages in the chat are not.",
			"One channel never sees another channel's heaps.",
			"An entry is never changed; undo keeps it, marked as taken back, with who did it.",
			"history csv:yes hands the record out to anyone in the channel.",
		},
		sources: []string{ownChoice},
	},
	{
		topic: "undo", aliases: []string{"mistake", "correct", "correction", "take back", "wrong entry", "delete"},
		asks: `\bhow\b.*\b(?:undo|take back|correct|delete|remove)\b`,
		gist: "undo takes back your latest entry; undo 12 takes back number 12.",
		lines: []string{
			"Numbers stand in history. You can take back your own; an organiser, anyone's.",
			"The record keeps that it was logged, and who took it back.",
			"Then log it again as it should be.",
		},
		sources: []string{ownChoice},
	},
}
