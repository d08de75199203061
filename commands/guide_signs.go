package commands

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
		topic: "cover", aliases: []string{"covering", "tarp", "lid", "rain"},
		gist: "A cover keeps a heap from soaking in winter and drying in summer.",
		lines: []string{
			"Where it is dry, one county adviser leaves heaps open, to let rain and air in.",
			"Without a cover: a dished top takes rain in, a peaked one sheds it.",
		},
		sources: []string{
			"Cover: https://www.nwhorsesource.com/pass-compost-squeeze-test/",
			"Against: county adviser, second-hand, https://hggarden.blogspot.com/2020/06",
			"Top: AgriFutures, https://chicken-meat-extension-agrifutures.com.au/docs/poultry-waste-composting-guidelines/composting/setting-up-and-managing-turned-windrows-for-conventional-composting",
		},
	},
	{
		topic: "winter", aliases: []string{"frost", "cold weather", "snow", "freezing", "wind"},
		gist: "In the cold a larger heap loses less heat, and works even in hard frost.",
		lines: []string{
			"Turn it less often: it is slow to get warm again (WSU).",
			"Wind cools one side: wet the outside, chop to about 2 inches, or put up a windbreak (WSU).",
			"Straw bales round it and a sheet on top; or let it rest and add on (Moberly).",
			"They disagree: TCEQ turns monthly in winter, others not from late autumn, to keep the heat.",
		},
		sources: []string{
			"WSU, http://whatcom.wsu.edu/ag/compost/fundamentals/needs_climatic.htm",
			"Moberly MO, https://moberlymo.org/237/Dormancy",
			"TCEQ, https://takecareoftexas.org/about-us/blog/truth-about-turning-your-compost-pile",
			"Not in late autumn: http://makedirtnotwaste.org/ (publisher not shown)",
		},
	},
}
