package commands

// aboutPages say how to use this assistant and what its answers rest on.
var aboutPages = []page{
	{
		topic: "asking", aliases: []string{"help", "commands", "how to ask", "examples", "start here"},
		asks: `\bwhat can (?:you|i ask|i say)\b|\bhow (?:do|can|does) (?:i use(?: you| this| it| the bot|(?: ?\?)*$)|this work|you work)\b|\bwho are you\b|\bwhat are you\b`,
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
		topic: "languages", aliases: []string{"language", "german", "french", "spanish", "dutch"},
		gist: "A garden chooses its language, or each hears their own.",
		lines: []string{
			"Choose: garden language de, fr, es, nl, en-GB or en-US; caller: each their own.",
			"Said in it: what was logged or taken back, what to do, what to add, reminders and buttons.",
			"Still English: reasons, cautions, sources, this guide, and names of materials.",
			"What you type is read in English.",
		},
		sources: []string{ownChoice},
	},
	{
		topic: "reminders", aliases: []string{"duty", "rota", "turns", "nagging", "notifications"},
		asks: `\bhow (?:do|does) (?:the |your )?(?:reminders?|rota|turns)\b`,
		gist: "At most one message a day, to whoever's turn it is, and none when nothing needs doing.",
		lines: []string{
			"Switch them on: duty when daily 18:00. Take turns: duty join.",
			"Whoever did least, for the days they were there, comes next.",
			"Done by anyone, by a button or a log, closes it for all.",
			"Tomorrow puts one job off. Not needed asks why, and I learn from it.",
			"Going away: duty away 3 to 17 August. Swap a turn: duty swap Odalys.",
			"Too much: duty kinds, duty quiet, duty pause, duty off. A heap that is too hot is always spoken of.",
		},
		sources: []string{ownChoice},
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
		topic: "outlook", aliases: []string{"forecast", "model", "heap model", "prediction", "when will it be ready", "estimate"},
		asks: `\bhow (?:does|do) (?:the |your )?(?:outlook|forecast|model|estimate)s?\b|\bwhere does the (?:outlook|forecast|estimate)\b`,
		gist: "The outlook runs a model of your heap through its record and the weather.",
		lines: []string{
			"256 heaps like yours go through the same additions, turnings and weather.",
			"Those that agree with your readings, squeezes and heights count for more.",
			"“Likely 41 to 53” should hold for 8 readings in 10; the heap left alone.",
			"Every outlook is kept and held against the reading that comes.",
			"Misses widen the bands; outlook says how earlier ones did.",
			"One reading a week sharpens it more than anything: log temp 58 depth:40cm",
			"It has not been tried on many garden heaps yet: trust the thermometer first.",
		},
		sources: []string{
			"Heat, water and oxygen: after Haug 1993, Rosso et al. 1995 and others; many numbers are " + ownChoice,
			"Tried on 63 published small-scale runs: Khandakar, Kibria et al., Qatar University (CC BY 4.0)",
		},
	},
	{
		topic: "weather", aliases: []string{"weather service", "weather services", "climate", "rain gauge"},
		asks: `\bwhere (?:does|do) (?:the |your )?weather\b|\bwhich weather\b`,
		gist: "With the garden's place set, rain and air temperature come from a weather service.",
		lines: []string{
			"Set it once: garden place 51.75, -1.26. About a kilometre is all that is kept.",
			"Whom an answer rests on stands below it, and how old it is.",
			"Your own rain gauge goes first: log rain 12 mm",
			"Without a place or a service a plain climate stands in, with wider bands.",
		},
		sources: []string{
			"Open-Meteo, https://open-meteo.com (CC BY 4.0, free for non-commercial use)",
			"MET Norway, https://api.met.no (CC BY 4.0); US National Weather Service, https://api.weather.gov",
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
		gist: "Kept: what was logged or changed, when, and the name shown. Seen by: this channel only.",
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
		asks: `\bhow\b.*\b(?:undo|take (?:\w+ )?back|correct|delete|remove)\b`,
		gist: "undo takes back your latest entry; undo 12 takes back number 12.",
		lines: []string{
			"Numbers stand in history. You can take back your own; an organiser, anyone's.",
			"The record keeps that it was logged, and who took it back.",
			"Then log it again as it should be.",
			"A setting or reminder changed by mistake: history changes shows what it was; set it so again.",
		},
		sources: []string{ownChoice},
	},
}
