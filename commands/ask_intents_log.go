package commands

// logIntents put one thing on the record. Each needs a plain statement that
// it happened.
var logIntents = []intent{
	{
		path: "log turn", writes: true, heap: true, when: true, example: "I turned North Bay this morning", fill: fillTurn,
		cues: []cue{
			{8, pattern(`\bturned (?:over )?(?:and \w+ )?{it}(?: over| again)?(?: |$)`)},
			{8, pattern(`{it} (?:has been|was|got|has had|had|been|is)(?: just| now)? (?:turned|a (?:good |quick |proper )?turn)\b|{it} (?:was |has been |been )?given (?:a|its|another) (?:good |quick |proper )?(?:turn|turning|spin|stir)\b`)},
			{8, pattern(`^(?:i |we |have |has |just |been and )*turned(?: over| again)?(?: [.!,]|$)`)},
			{8, pattern(`\bgave {it} (?:a|its|another|the|some|two|three) (?:\w+ )?(?:turns?|turning|stir|turn over|spins?)\b|^(?:i|we) have (?:just )?turn {it}(?: |$)`)},
			{7, pattern(`^(?:i |we |have |just )*(?:spun|span|rolled|rotated) {it}(?: over| round| around| again)?(?: [.!,]|$)`)},
			{7, pattern(`{it} turned(?: over)?(?: [.!,]|$)`)},
			{7, pattern(`\b(?:did|done|finished|completed) (?:a |the |another )?(?:turn|turning)\b`)},
			{5, pattern(`^(?:i|we) (?:\w+ )?(?:flipped|forked over|aerated|forked through|stirred|tossed) {it}(?: over)?(?: |$)`)},
		},
	},
	{
		path: "log turn", writes: true, told: true, heap: true, when: true, example: "log a turn of North Bay", fill: fillTurn,
		cues: []cue{{8, pattern(`^(?:a |another |the )?(?:turn|turned|turning)\b`)}},
	},
	{
		path: "log temp", writes: true, heap: true, when: true, example: "58 degrees in North Bay at 40 cm", fill: fillTemp,
		cues: []cue{
			{7, pattern(`{n} ?(?:°|degrees?|deg)(?: ?[cf]\b| celsius| fahrenheit)?|{n} ?(?:celsius|fahrenheit|c|f)\b`)},
			{7, pattern(`\b(?:temp|temperature|thermometer|probe|core|reading|reads|measured|air|middle|centre|center)\b.*{n}|{n}.*\b(?:on the thermometer|in the (?:middle|centre|center|core)|core)\b`)},
			{6, pattern(`^(?:at |in |on )?# ?(?:is|was|at|is at|was at|now|is now|(?:is |was )?(?:up|down|sitting|running|standing|holding|steady|stuck|still) at|stands at|sits at|(?:is |was )?(?:showing|reading|registering)|shows|reads|hit|has hit|reached|has reached|got to|is up to|is down to|dropped to|rose to|fell to|climbed to|has climbed to|cooled to|(?:has |had )?(?:gone|come|dropped|fallen|risen|cooled|warmed|crept) (?:up |down )?to|up to|down to|:|,|-)* (?:about |around )?{n}(?: [.!,]| when| before| after|$)`)},
			{6, pattern(`^(?:it is |it was |its |it |hit |reached |up to |down to |now |at |got )*(?:at |up to |down to |to |now )?{n} (?:in|on|at|for|from) (?:the middle of |the core of |the centre of )?#|^(?:in|at|on) # (?:it is|it was|i got|we got|i measured) (?:at )?{n}(?: [.!,]|$)|^(?:# )?{n} (?:at )?{len}`)},
			{6, pattern(`^(?:it is |it was )?(?:about |around )?{n} (?:outside|outdoors|in the air)\b|^\d{2,3}(?:[.,]\d)? #(?: [.!])*$`)},
			{6, pattern(`\b(?:degrees?|celsius|fahrenheit)\b`)},
			{6, pattern(`(?:,| and) (?:it (?:is|was)|it read|was|reading) (?:at )?{n}(?: [.!,]|$)`)},
		},
	},
	{
		path: "log temp", writes: true, told: true, heap: true, when: true, example: "log 58 for North Bay", fill: fillTemp,
		cues: []cue{{6, pattern(`^(?:a |the |it )?(?:temp |temperature |reading |of |at |as )*{n}\b`)}},
	},
	{
		path: "log add", writes: true, heap: true, when: true, example: "added 2 buckets of grass to North Bay", fill: fillAdd,
		cues: []cue{
			{7, pattern(`\b(?:added|tipped|dumped|emptied|threw|chucked|popped|piled|loaded|layered|forked|shovell?ed|wheeled|stuck|dropped|fed|mixed|spread|bunged|barrowed|poured|scattered|lobbed|slung|heaped|shoved|topped up|filled up)\b`)},
			{7, pattern(`\bput (?:in |on |another )?(?:.*\b(?:in|on|into|onto|to)\b)?`)},
			{6, pattern(`\b(?:went|gone|going) (?:in|on|into|onto|to)\b|\bgot .*{it}|{it} (?:got|has had|had|received|was given|has|was fed)\b|\b(?:in|into|onto|on|to) #`)},
			{6, pattern(`^# [:-] `)},
			{7, pattern(`\b(?:gave|given|treated) {it} (?:to )?(?:another )?{amount} of\b`)},
			{7, pattern(`\bfilled\b.*\b(?:in|into|onto) #|^there (?:is|are) now\b.*\b(?:in|on) #|\b(?:dropped off|unloaded|offloaded|flung|heaved|raked|swept|scraped|deposited|contributed|donated|placed|laid|delivered)\b.*\b(?:in|on|into|onto|to|over) #`)},
			{6, pattern(`^(?:add|adding|put)\b.*(?: (?:to|in|into|on|onto) {it})`)},
		},
	},
	{
		path: "log add", writes: true, told: true, heap: true, when: true, example: "log 2 buckets of grass for North Bay", fill: fillAdd,
		cues: []cue{{5, pattern(`.`)}},
	},
	{
		path: "log water", writes: true, heap: true, when: true, example: "watered North Bay with 20 litres", fill: fillWater,
		cues: []cue{
			{8, pattern(`\b(?:watered|soaked|wetted|hosed|hosed down|sprinkled) (?:down )?{it}\b|\b(?:watered|soaked|wetted|hosed|sprinkled) (?:down )?#`)},
			{8, pattern(`^(?:i |we |have |has |just |been and )*watered(?: again)?(?: [.!,]| with|$)`)},
			{8, pattern(`{it} (?:was|got|has been|has had|had|has|been)(?: just)? (?:watered|a (?:good |big |quick |long )?(?:drink|soak|watering|soaking))\b`)},
			{8, pattern(`\b(?:gave|given) {it} (?:a|another|some)? ?(?:\w+ )?(?:drink|soak|soaking|watering|water)\b`)},
			{9, pattern(`{much} of (?:rain ?|pond ?|tap ?)?water\b`)},
			{8, pattern(`\b(?:gave|given) {it} (?:about )?{much}(?: [.!]|$)`)},
			{8, pattern(`^(?:i |we |have |has |just |been and )*watered\b.*\b(?:on|onto|over|into) #|\bwatering (?:is )?(?:done|finished)\b|\b(?:done|did|finished) (?:the |some )?watering\b|\b(?:sprayed|misted|drenched|showered) {it}`)},
			{8, pattern(`\b(?:poured|put|added|sprinkled|tipped|gave|given|brought) (?:some |more |a bit of )?water (?:on|in|onto|into|over|to)\b`)},
			{7, pattern(`{it} watered(?: [.!,]|$)`)},
		},
	},
	{
		path: "log cover", writes: true, heap: true, when: true, example: "covered North Bay with a tarp", fill: fillCover,
		cues: []cue{
			{8, pattern(`\b(?:uncovered|covered(?: up)?) {it}|{it} (?:is|was|has been|got) (?:now )?(?:covered|uncovered)\b|^(?:i |we )?(?:have )?(?:covered|uncovered)(?: it)?(?: [.!]|$| with| up)`)},
			{8, pattern(`\b(?:put|threw|pulled|laid|dragged|got|placed|popped|stuck|fitted|slung) (?:the |a |an |an old |its |some )?(?:{cover})(?: back)?(?: on| over| down)\b`)},
			{8, pattern(`\b(?:put|threw|popped|stuck) (?:back )?on (?:the |a )?(?:{cover})\b|\b(?:{cover}) (?:is |was |now |has gone |went |goes |back )*(?:on|off)\b|\b(?:{cover}) (?:is |was |now )*back over\b|\bleft {it} (?:uncovered\b|open(?: [.,!]|$))`)},
			{8, pattern(`\b(?:{cover}) (?:on # |of # |over # )?(?:has |had |is |was |have )?(?:just )?(?:(?:come|came|been|fallen|fell|flown|slipped|slid|blown|gone)(?: taken| blown| pulled| put| laid)?(?: right)?(?: off| back on| on)|shut|closed|open|opened)(?: #| of #|(?: [.!])*$)|\b(?:closed|shut|opened|replaced|removed|refitted|drew|rolled) (?:up |back |down )?(?:the |a |its )?(?:{cover})\b|{it} has (?:its |a |the )?(?:{cover}) (?:back )?on\b`)},
			{8, pattern(`\b(?:took|taken|pulled|lifted|removed|folded|blew|blown) (?:off |back )?(?:the |a )?(?:{cover})\b`)},
		},
	},
	{
		path: "log height", writes: true, heap: true, when: true, example: "North Bay is 90 cm high", fill: fillHeight,
		cues: []cue{
			{8, pattern(`{len} (?:high|tall|in height)\b|\bheight\b.*{len}`)},
			{7, pattern(`\b(?:sunk|sank|shrunk|shrank|settled|slumped|dropped|collapsed|gone|went|is|fallen|fell|grown|measures|measured|stands?|stood)(?: now| down| up| at| about)* (?:to |at )?{len}(?: [.!,]| now|$)`)},
		},
	},
	{
		path: "log rain", writes: true, heap: true, when: true, example: "we had 12 mm of rain", fill: fillRain,
		cues: []cue{{8, pattern(`\brain(?:ed|fall|ing|s)?\b.*{n} ?(?:mm|millimet(?:re|er)s?|mils?|inch(?:es)?|in|")|{n} ?(?:mm|millimet(?:re|er)s?|mils?|inch(?:es)?|in|")(?: of)? rain|{n} ?(?:mm|millimet(?:re|er)s?|mils?|inch(?:es)?|in|") in the (?:rain )?gauge`)}},
	},
	{
		path: "log feel", writes: true, denials: true, heap: true, when: true, example: "squeeze test: two drops came out", fill: fillFeel,
		cues: []cue{
			{8, pattern(`\b(?:squeez\w*|fist\w*|handful|hand|wrung|wring)\b`)},
			{7, pattern(`\b(?:a|one|two|three|four|five|six|1|2|3|4|5|6|few|many|no|1-3|2-3) drops?\b|\bwater (?:runs|ran|running|pours|poured|came|comes) out\b`)},
			{7, pattern(`^(?:it|#) (?:just |only )?(?:crumbles|drips|does not hold together|holds together|fell apart|falls apart)\b`)},
		},
	},
	{
		path: "log feel", writes: true, told: true, heap: true, when: true, example: "log that it drips when squeezed", fill: fillFeel,
		cues: []cue{{7, pattern(`^(?:feel|squeeze)\b`)}},
	},
	{
		path: "log smell", writes: true, denials: true, heap: true, when: true, example: "it smells of ammonia", fill: fillSmell,
		cues: []cue{{7, pattern(`\b(?:smells?|smelling|smelt|smelled|smelly|stinks?|stinking|stank|whiffs?|reeks|reeking|pongs?|odou?r|odou?rless|hums)\b`)}},
	},
	{
		path: "log test", writes: true, denials: true, heap: true, when: true, example: "North Bay passed the jar test", fill: fillTest,
		cues: []cue{{9, pattern(`\b(?:bag|jar|radish|radishes|self-heating|self heating|germination|cress|lab|laboratory)(?: \w+)? (?:tests?|reports?|results?|sheet)\b`)}},
	},
	{
		path: "log note", writes: true, words: true, heap: true, when: true, example: "note: saw a slow worm in Old Bay", fill: fillNote,
		cues: []cue{{9, pattern(`^(?:please )?(?:just )?(?:note to self|notes?|noting|to note|(?:make|take|keep|leave|add|write|drop)(?: down)? (?:a|this|the|another)(?: \w+)? note|a note (?:that|of|about|:)|let it be noted|be it noted|memo|nb|(?:remember )?for the (?:record|log|notes)|remember that)\b(?: [:,]| that| of| about| #| \w)`)}},
	},
	{
		path: "log note", writes: true, words: true, told: true, heap: true, when: true, example: "note: saw a slow worm in Old Bay", fill: fillNote,
		cues: []cue{{4, pattern(`^(?:i|we|there|a|an|the|saw|found|seen|someone|some)\b`)}},
	},
	{
		path: "log move", writes: true, when: true, example: "moved half of Old Bay to North Bay", fill: fillMove,
		cues: []cue{{9, pattern(`\b(?:moved|shifted|transferred|forked|shovell?ed|emptied|turned|tipped|barrowed|put|decanted|dug) (?:\w+ )*?(?:over |out )?# (?:over |across |out )?(?:to|into|onto|in|on) #|# (?:was|has been|got) (?:moved|shifted|transferred|forked|shovell?ed|emptied|tipped|barrowed) (?:over |across |out )?(?:to|into|onto|in|on) #`)}},
	},
}
