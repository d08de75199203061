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
		topic: "dust", asks: `\b(?:mask|gloves|breath\w*|lungs?|inhal\w*|spores?)\b|\b(?:dust|mou?ld\w*|fungus)\b.*\b{harm}`, aliases: []string{"spores", "spore", "mould", "mold", "aspergillus", "mask", "fungus", "breathing", "gloves"},
		gist: "Compost dust carries mould spores: keep the heap damp, wear a mask, stand upwind.",
		lines: []string{
			"CIWMB: mould spores hardly trouble healthy people; they do with asthma,",
			"a weak immune system or high doses of steroids: see guide at risk",
			"Wet dry compost before you turn, sieve or spread it. Mask and gloves on, hands washed after.",
			"The same dust can carry Legionella: see guide legionella",
		},
		sources: []string{
			"CIWMB advisory 6, https://www.calrecycle.ca.gov/LEA/Advisories/06/",
			"Mask, gloves, wetting: NSW Health 2018, https://www.health.nsw.gov.au/news/Pages/20181214_00.aspx",
			"Upwind: Recycle Now, http://www.recyclenow.com/home_composting/get_advice/buy_a_bin_faqs/i_havent_started.html",
		},
	},
	{
		topic: "legionella", aliases: []string{"legionnaires", "legionnaires disease", "legionella longbeachae", "pneumonia"},
		gist: "Compost and potting mix can carry Legionella: wet it, mask and gloves, wash hands.",
		lines: []string{
			"It is breathed in with dust, or swallowed from unwashed hands.",
			"Most at risk: older people, smokers, and those with a weak immune system.",
			"Illness shows two to ten days later: tell the doctor that you handled compost.",
		},
		sources: []string{
			"NSW Health 2018, https://www.health.nsw.gov.au/news/Pages/20181214_00.aspx",
			"How it is taken up: from memory. Telling the doctor: " + commonPractice,
		},
	},
	{
		topic: "at risk", aliases: []string{"asthma", "weak immune system", "immune system", "steroids", "not turning", "no turning", "vulnerable", "chemotherapy", "lung disease"},
		asks: `\b(?:i|we) (?:have|am|are) .*\b(?:asthma\w*|immune|steroids|vulnerable|chemo\w*)\b|\b(?:asthma|weak immune system|immune system)\b.*\?`,
		gist: "At risk from dust? You may choose not to turn, and leave dusty jobs to others.",
		lines: []string{
			"At risk: asthma, a weak immune system, high doses of steroids (CIWMB).",
			"Recycle Now, if you worry: a bin rather than a heap, kept moist (60 to 70 %), not turned;",
			"a mask on, and stand upwind.",
			"That runs against the turning advice in this guide, so it is your choice, not the rule:",
			"unturned, a heap rots more slowly and is seldom hot all through.",
			"Your doctor knows best what holds for you.",
		},
		sources: []string{
			"Recycle Now (UK), http://www.recyclenow.com/home_composting/get_advice/buy_a_bin_faqs/i_havent_started.html",
			"CIWMB advisory 6, https://www.calrecycle.ca.gov/LEA/Advisories/06/",
			"What is lost unturned; the doctor: " + commonPractice,
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
		topic: "pets", aliases: []string{"pet", "dog", "dogs", "cat", "cats", "pet mess"},
		gist: "Dog and cat mess and litter stay out of a shared heap, and dogs stay off it.",
		lines: []string{
			"US EPA and WSU both list pet waste among what not to compost.",
			"Dog mess can have a bin of its own: with sawdust, 50 to 60 % moist, 2 to 3 feet deep,",
			"filled once, turned as it cools (University of Alaska Fairbanks).",
			"What comes of that stays off beds for food (Addison County).",
			"Bedding of rabbits, guinea pigs and hens may come; gloves on, hands washed after.",
			"Mouldy scraps make dogs ill: cover them, and keep the bin shut.",
		},
		sources: []string{
			"US EPA list as reprinted, https://www.sunjournal.com/2022/04/17/the-dos-donts-and-benefits-of-composting/",
			"WSU Whatcom, https://extension.wsu.edu/whatcom/hg/home-composting/",
			"Dog bin: University of Alaska Fairbanks, http://www.uaf.edu/ces/ah/compost/dogs/",
			"Food beds: Addison County, https://www.addisoncountyrecycles.org/guide/pet-waste/",
			"Bedding: " + commonPractice + " Mouldy scraps: from memory.",
		},
	},
	{
		topic: "urine", aliases: []string{"wee", "pee", "humanure", "compost toilet"},
		gist: "Urine: store it a month for your own food, six months where others eat it.",
		lines: []string{
			"Others eat from a shared garden, so count six months.",
			"Stop a month before harvest.",
			"On soil: three parts of water to one of urine; a person's day, 1 to 1½ litres,",
			"per square metre and crop.",
			"Faeces stay out altogether: guide human faeces",
		},
		sources: []string{
			"Compendium of sanitation, second-hand, https://akvopedia.org/s_wiki/index.php?diff=6409&mobileaction=toggle_view_desktop",
			"Six months in a shared garden: " + ownChoice,
		},
	},
	{
		topic: "keeping apart", aliases: []string{"recontamination", "clean tools", "tools", "topping up", "raw and finished"},
		gist: "Keep finished compost and raw material apart, and wash the tools in between.",
		lines: []string{
			"Finished compost that is mixed with raw manure or scraps counts as raw again.",
			"Germs of the cool edge get back into the middle: turn the outside in while it is hot.",
			"New material starts a new heap, rather than going on one that is curing.",
		},
		sources: []string{
			"Apart, tools: AgriFutures, https://chicken-meat-extension-agrifutures.com.au/docs/poultry-waste-composting-guidelines/curing/",
			"Mixed is raw: Louisiana V-1211.B.3, https://d1tvxue8o4w0fl.cloudfront.net/regulation/louisiana-administrative-code/title-7-agriculture-and-animals/part-v-advertising-marketing-and-processing/chapter-12-produce-safety/section-v-1211-biological-soil-amendments-of-animal-origin-and-human-waste",
			"Cool edge: Germer et al. 2010, Waste Management 30:185-191, https://dspace7test.ilri.org/items/83c3f9aa-6749-4795-ae19-b44ff99cb340",
			"A new heap: " + commonPractice,
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
