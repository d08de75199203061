package commands

import "slices"

// intents is the whole table of rules: questions first, then changes.
var intents = slices.Concat(questionIntents, dutyIntents, settingIntents, logIntents)

// questionIntents only read.
var questionIntents = []intent{
	{
		path: "spread", heap: true, example: "how much compost do I need for a bed of 3 m2, 5 cm deep?", fill: fillSpread,
		cues: []cue{
			{9, pattern(`\bhow (?:much|many (?:bags|sacks|buckets|barrows|barrowloads|litres|gallons|cubic \w+)(?: of)?) ?(?:finished |ready )?(?:compost|#)?\b.*\b(?:need|needs|for|cover|takes?|spread|go on|want|order|buy|put|use|lay)\b.*(?:\b(?:m2|m²|sq|sqm|square|beds?|lawn|acres?|deep|thick)\b|\d ?(?:m2|m²|x \d|by \d))`)},
			{9, pattern(`\bhow far (?:will|would|does|do|can|could|should)\b.*\b(?:go|stretch|reach|spread|get)\b`)},
			{9, pattern(`\b(?:how (?:much|many|large|big)|what)(?: an?)? (?:area|ground|space|beds?|m2|square \w+|plots?)\b.*\b(?:cover|covers|do|does|serve|serves|spread|get|feed|dress|enough)\b`)},
			{9, pattern(`\bwhat\b.*\b(?:get|come|yield|expect)\b.*\b(?:out of|off) #`)},
			{9, pattern(`\bhow (?:much|many)\b.* # (?:give|yield|make|produce)\b|\bhow (?:much|many)\b.*\b(?:get|expect|come|comes)\b.*\b(?:out of|from|off) #`)},
			{9, pattern(`\bhow (?:much|many \w+(?: of)?) (?:wood )?(?:ash|ashes|lime)\b.*\b(?:on|for|over|spread|lawn|beds?|m2|square)\b`)},
			{9, pattern(`\bhow (?:thick|thickly|deep)\b.*\b(?:spread|compost|layer|put|lie|lies)\b`)},
			{8, pattern(`\b(?:is|are|will|would) .*\benough (?:compost )?(?:in # )?(?:for|to cover|to do)\b.*\b(?:beds?|m2|m²|square|lawn)\b`)},
			{8, pattern(`\b(?:spread|cover|top dress|mulch)\b.*(?:\bm2\b|m²|\bsq|\d ?(?:x|by) ?\d|\bbeds?\b|\blawn\b).*\bcompost\b|\b(?:spread|cover|top dress|mulch)\b.*\bcompost\b.*(?:\bm2\b|m²|\bsq|\d ?(?:x|by) ?\d)`)},
			{8, pattern(`\b(?:beds?|lawn|border)\b.*\bhow much compost\b`)},
			{6, pattern(`\bhow much compost (?:do|should|would|will|must|can) (?:i|we|it)\b`)},
		},
	},
	{
		path: "mix", heap: true, example: "what do I add to 2 buckets of grass?", fill: fillMix,
		cues: []cue{
			{9, pattern(`\b(?:what|which|how much|how many)\b.* (?:add|adding|mix|mixed|mixing|put with|goes? (?:well )?with|go with|combine|blend|balance|balances|pair|chuck in|throw in)\b`)},
			{8, pattern(`\bhow (?:do|should|can|would|to) .*(?:balance|mix|compost|blend|use up|deal with|combine)\b`)},
			{7, pattern(`\b(?:balance|mix|recipe|blend|brown|browns|green|greens|carbon|straw|leaves|cardboard) (?:for|to go with|do i need|do we need|should)\b`)},
			{7, pattern(`\bwhat (?:can|could|should|shall|do|would|to|must|might) (?:i|we|you)?.*\b(?:with|to|about|from|more)\b|\bwhat with\b`)},
			{6, pattern(`^(?:i|we|someone|somebody|they) (?:have|has|had|got|have got|am carrying|brought|am bringing|bring|have brought)\b`)},
			{6, pattern(`^(?:got|have|with|given|here with|arrived with|there (?:is|are)|mix|balance|balancing|a recipe for|recipe for|suppose|if|need|help with|too much)\b`)},
			{6, pattern(`\b(?:what now|what next|what else|what then|any ideas|help|ideas|advice|arrived|turned up with|came in)\b`)},
			{6, pattern(`\bis (?:that|it|this|there) (?:ok|okay|fine|enough|too|about right|right|good|balanced|the right|enough brown|enough green)\b`)},
			{6, pattern(`\b(?:is|are|would|will|should|can|could|if) .*(?:ok|okay|alright|all right|enough|too much|too wet|too dry|too many|balance|right mix|good mix|ok mix|mix well|work)\b`)},
			{8, pattern(`^(?:can|could|may|should|shall) (?:i|we) (?:add|put|compost|use|mix)\b`)},
			{8, pattern(`{amount}.*[,.;:-] (?:\w+ )?(?:what|how|which|any|help)\b`)},
			{6, pattern(`\b(?:does|do|will|would|could|can|should)\b.*\b(?:work|suit|match|go|pair|mix|do|fit)\b.*\b(?:with|together|for)\b`)},
			{6, pattern(`\b(?:how (?:much|many)|what amount of|what quantity of|which|what|how)\b.*{amount}|\b(?:something|anything|stuff) to (?:go|mix|put|balance|add|pair)\b|\b(?:suggestions?|thoughts|suits|would suit|rate|proportions?|quantit(?:y|ies)|ratio)\b`)},
			{5, pattern(`\bc ?[:/] ?n\b|\bcarbon to nitrogen\b|\bif (?:i|we) (?:add|added|put|mix|mixed)\b`)},
		},
	},
	{
		path: "next", heap: true, example: "what needs doing?",
		cues: []cue{
			{8, pattern(`\b(?:what|anything|something|which (?:jobs|tasks)|much)(?: (?:is|are|else|still|that|there|we|i|now))* (?:needs?|wants?|to be|left|needed)(?: to be)? ?(?:doing|done|to do|to be done|attention|attending|seeing to|do|me|us|a hand)?\b(?: ?\?|$| #| in| on| for| at| with| next| now| first)`)},
			{9, pattern(`\bwhen (?:is|are) (?:{it}|they|the #) (?:next )?due\b`)},
			{8, pattern(`\bwhat (?:does|do) {it} (?:need|want)\b|\bwhat to do(?: next| now| first| today)*(?: ?[?.!])*$|^what is (?:the )?(?:most )?(?:urgent|pressing|important)\b`)},
			{8, pattern(`\bwhat (?:is|are) (?:the |our |my |today is |this week is )*(?:plans?|priorit(?:y|ies)|agenda|order of the day|to ?do|jobs?|tasks?|chores?|duties|outstanding|pending|pressing|overdue|left|up next|on today|on the agenda|still open|open)\b`)},
			{10, pattern(`^what is up next\b`)},
			{8, pattern(`\b(?:has|have|is|are|got|needs|need|remains|left|still) to (?:be done|do)\b|^(?:which|what) (?:work|jobs?|tasks?|chores?)\b`)},
			{7, pattern(`\bwh(?:at|ich|ere)(?: #| heaps?| bays?| one| of them)? (?:should|shall|do|must|can|could|would|needs?|is|am) (?:i|we|you|the|most|first|it)\b.*\b(?:first|look|start|tackle|see to|attend|begin|needed|attention|work|need me|help|urgent\w*)\b`)},
			{7, pattern(`\b(?:is|would|will) (?:it|now)(?: be)? (?:really |still |already |now )?(?:necessary|time|worth|wise|ok|okay|right|better|best|useful|needed|required|good|sensible|a good (?:idea|time)) (?:to|for) (?:me to |us to )?(?:be )?{care}`)},
			{7, pattern(`\b(?:do|does|would|should|shall|must) (?:you|i|we) (?:want|need|like|have|ought)(?: me| us)? to {care}|\b(?:meant|supposed|due|expected|obliged) to (?:be )?{care}|\b(?:need|needs|want|wants|could do with|could use|ask\w* for|crying out for|due|ready for) (?:a |an |some |more |to be |another |its )*(?:good )?{care}.*(?: ?\?|$)`)},
			{6, pattern(`{it} (?:is |looks |feels |seems )?(?:a bit |very |too )?(?:thirsty|hungry|parched)\b`)},
			{5, pattern(`^(?:is|are|(?:do|can|could|need|must|should|shall|would|when (?:is|are|do|should|shall|must|can|will)|how soon (?:do|should|can|must)) (?:i|we|you|they|#|it|any\w*)|does|ought|any)\b.*\b{care}\b`)},
			{6, pattern(`^(?:is there |are there |have you |have we |got |have |do you have |will there be )*(?:any|some|much|more|other)(?:thing)?(?: \w+)? ?(?:work|jobs?|chores?|tasks?|to do|need\w*|want\w*|doing|i should|we should|i can|we can)\b`)},
			{6, pattern(`\bhow (?:can|could|may|do|shall) (?:i|we) (?:be (?:useful|helpful|of (?:use|help|service))|help|lend a hand|pitch in|make myself useful|join in)\b|\bwhere (?:do you need|am i needed|are we needed|is help|do i start|should i start|to start)\b|\bput me to work\b|\bgive me (?:a job|something to do|a task|work)\b`)},
			{6, pattern(`\b(?:on shift|my shift|spare|free|half an hour|an hour|minutes|mins|a moment|some time|bit of time|at the (?:garden|heaps?|allotment|plot))\b.*\b(?:what|which|anything|where|how|something)\b`)},
			{8, pattern(`^(?:what|whats) (?:is )?(?:next|now|up next|first|to do|on the list)\b`)},
			{7, pattern(`\b(?:what|which) (?:should|shall|can|do|must|could|jobs?|chores?|tasks?|would) (?:i|we|you|a volunteer|a person|needs?|the|be|is|are)?.*\b(?:do|doing|done|first|next|job|jobs|now|help|are there)\b`)},
			{7, pattern(`\b(?:does|do|did|will|would|is|are|has) (?:{it}|any\w*(?: of them| of the heaps| of #| heaps?| bays?)?|we|i|you|either|they) (?:need|needs|want|due|have to|got to|ready for)(?: (?:a|an|any|some|more|for|to be))* ?(?:turn|turning|turned|turnin|water|watering|watered|cover|covering|covered|doing|mixing|stir|stirring|attention|air|anything|help|rain|us|drink)`)},
			{7, pattern(`\b(?:should|shall|must|ought|can|could|do|may|need|time|due|when|how soon|is it time)\b.*\b(?:turn|turning|water|watering|cover|uncover|aerate|stir)\b`)},
			{7, pattern(`\b(?:jobs?|chores?|tasks|to ?do list|todo|to-do|to dos|todos)\b`)},
			{6, pattern(`\b(?:needs?|wants?|is due|due|overdue|time) (?:for )?(?:a |to |some )?(?:turn|turning|water|watering|a cover|covering|stirring)\b`)},
			{6, pattern(`\b(?:what|how) (?:should|shall|do|can|must|could) (?:i|we) (?:do|look after|treat|help|add)\b(?: next| now| first| today| to| with| for| about| at| on)*(?: {it})?(?: ?\?)?$`)},
			{6, pattern(`\bhow much water\b|\btoo (?:wet|dry)\b.*\?|\bis {it} (?:too )?(?:wet|dry|hungry|thirsty|ok|okay|alright|all right)\b`)},
			{5, pattern(`\b(?:anything|something|what) (?:i|we|someone|a volunteer) (?:can|could|should) (?:do|help)\b|\b(?:how|where|what) can (?:i|we) help\b|\bneed (?:a hand|any help|help)\b|\bsomething to do\b|\bwhat help\b|\banything (?:urgent|to do|pressing|wrong)\b|\bneeds? (?:any )?(?:attention|help)\b`)},
		},
	},
	{
		path: "trouble", heap: true, example: "why does North Bay smell?", fill: fillTrouble,
		cues: []cue{
			{9, pattern(`\b(?:smell|smells|stinks?|smelly|reeks|stinking|pongs?|whiff\w*)\b.*(?:\bwhat\b|\bhow\b|\bwhy\b|\bhelp\b|\?|\bshould\b|\bstop\b)|\b(?:what|how|why|help|stop)\b.*\b(?:smell|smells|stink|stinks|stinking|smelly)\b`)},
			{8, pattern(`\b(?:can not|could not|not able to|unable to|struggling to|failing to|refuses to|fails to|hard to|trouble|problems?) (?:get |getting |make |keep )?(?:{it} )?(?:to )?(?:heat(?: up)?|hot|warm(?: up)?|get (?:hot|warm|going)|start(?:ed)?|rot|work|going)\b|{it} (?:just |still |only )*(?:sits there|sitting there|stays cold|stay cold|does nothing|is stone cold|is dead|is stuck|is not doing)\b`)},
			{9, pattern(`\bwhat (?:am i|are we|did i|did we|have i|have we) (?:doing |do |done |got |get )*wrong\b|\b(?:what|something|anything)(?: is)?(?: going| gone)? (?:up|amiss|funny|strange|weird|odd|the matter|causing|wrong|fishy)(?: going on)?(?: with| in| about)?\b`)},
			{9, pattern(`{pest}\b.*#|#.*{pest}\b`)},
			{8, pattern(`\b(?:weeds?|seedlings?|bindweed|nettles|grass) (?:are |is |have |has )?(?:all )?(?:sprout\w*|growing|coming|germinat\w*|shooting|popping)`)},
			{7, pattern(`\b(?:why|how come|what|help|how)\b.*{it}.*\b(?:wet|soaking|sodden|sopping|dripping|boggy|mushy|bone dry|dried out|cold|smoking|burning|rotting|stink\w*|smell\w*|pongs?|honks?|hums)\b|#.*\b(?:sopping|sodden|slimy|soggy|mushy|smoking|on fire|bone dry)\b`)},
			{9, pattern(`#.*\b(?:sopping|sodden|slimy|soggy|mushy|smoking|on fire|bone dry|soaking|waterlogged)\b.*\b(?:what|why|how|help)\b|\b(?:why|how come)\b.*{it}.*\b(?:wet|soaking|sodden|sopping|boggy|mushy|dried out|cold|smoking|burning)\b`)},
			{5, pattern(`#.*\b(?:stinks|reeks|pongs|honks|stank|stinking)\b`)},
			{8, pattern(`\b(?:not|never|will not|is not|does not|no longer)(?: #)? (?:gets? |getting |got |really |properly |even |been )*(?:heats?|heating|hot|getting hot|warm|warming|get(?:ting)? (?:hot|warm)|heat(?: up)?|working|rotting|doing anything)\b`)},
			{8, pattern(`\b(?:gone|went|turned) (?:all |stone |completely )*cold\b|\bstopped (?:shrinking|heating|warming|working|rotting|steaming|going down)\b`)},
			{9, pattern(`\b(?:what|something|anything) (?:is |has )?(?:gone |going )?(?:not right|off|odd|wrong|the matter|the problem|the trouble)(?: with)?\b`)},
			{9, pattern(`\b(?:why|help|what|how)\b.*\b(?:slimy|soggy|too wet|dry|dusty|stuck|shrunk|shrinking|so (?:cold|hot|slow)|too (?:cold|hot))\b`)},
			{7, pattern(`\b(?:there (?:is|are)|we have|we have got|i (?:saw|see|found)|full of|covered in|has got|it has|# has)\b.*\b(?:flies|maggots|rats?|mouse|mice|ants|mould|mold|mushrooms|toadstools)\b`)},
			{8, pattern(`\bfound (?:\w+ ){0,2}(?:flies|maggots|rats?|mouse|mice|ants|mould|mold|mushrooms|toadstools)\b|\b(?:flies|maggots|rats?|mouse|mice|ants|mould|mold|mushrooms|toadstools) (?:are |is |have been )?(?:growing |living |nesting |crawling |everywhere |all )*(?:in|on|under|over|around) {it}`)},
			{9, pattern(`\b(?:white|gr[ae]y|green|black) (?:stuff|powder|fluff|threads|fuzz)\b`)},
			{8, pattern(`\b(?:is|are|it|#|has gone|went|turned) (?:all |very |really |too |so )?(?:slimy|soggy|waterlogged)\b`)},
		},
	},
	{
		path: "outlook", heap: true, example: "what is the outlook for North Bay?", fill: fillOutlook,
		cues: []cue{
			{9, pattern(`^(?:(?:what is|what does|show|show me|give me|can (?:i|we) (?:see|get|have)) )?(?:the |an )?outlook(?: (?:for|of|on|at|say))*(?: {it})?(?: this week| tomorrow| next week| say| ?[?.!])*$|\b(?:forecast|prediction) (?:for|of) {it}`)},
			{8, pattern(`^(?:will|would|is|are|could|might|does|do|when will|when is|when does|how (?:soon|long|far|much|hot|warm|high|quickly|fast) (?:will|would|is|does|can|before|until))\b.*\b(?:will|would|going to|likely|expected|set to|about to|due to|stay|stays|ever|does|do)\b(?: {it})?.*\b(?:hot|hotter|hottest|warm|warmer|cold|colder|cool|cooler|heat|heats|dry|drier|wet|wetter|peak|peaks|freeze|shrink|sink|steam|temperature)\b`)},
			{8, pattern(`^(?:when|how (?:soon|long|much|quickly|fast)) (?:will|would|is|does|do|can)\b.*\b(?:hot|hotter|warm|warmer|cold|cool|heat|dry|wet|peak|freeze|shrink|sink|steam)\b`)},
			{9, pattern(`\b(?:what|how|does|do|will|would|could|might|if)\b.*\b(?:turn|turning|turned|turns)\b.*\b(?:affect|change|help|heat|warm|warmer|hot|hotter|cool|cooler|do to|influence|effect|impact|speed|difference)\b`)},
			{9, pattern(`\b(?:in store|ahead|coming up|coming) for {it}|\b(?:prospects?|prognosis|projections?|predictions?|forecasts?|outlook|development|trend)\b.*{it}|{it}.*\b(?:prospects?|prognosis|projection|prediction|forecast|outlook)\b|\b(?:what|how) (?:is|will|would|do|does|can|should|might|could)\b.*\b(?:expect|going to do|develop|happen next)\b`)},
			{9, pattern(`\bhow (?:will|would) {it} (?:do|develop|go|get on|behave|be|look|turn out)\b|\bhow (?:hot|warm|cold|wet|dry) (?:will|would|might|is) {it} (?:going to )?(?:get|be|become|go)\b`)},
			{9, pattern(`\b(?:will|would|is) {it} (?:going to |still |ever |soon |likely to )*(?:heat|get|warm|cool|dry|stay|go|be) (?:up|out|down|too |much )*(?:hot|hotter|cold|colder|cooler|warm|warmer|dry|drier|wet|wetter|again|if|$|\?)|\bwill {it} (?:heat up|warm up|cool down|dry out)\b`)},
			{9, pattern(`\bwhat temp\w* .*\bexpect\b|\bwhat (?:would|will|does|could) (?:a |another )?turn(?:ing)?\b.*\b(?:do|change|bring)\b|\bwhat (?:happens|will happen|would happen|is going to happen)\b.*{it}|\bwhat (?:is|are) {it} (?:expected|likely|going) to\b|\bwhat (?:can|should|do) (?:we|i) expect (?:of|from|for) {it}`)},
		},
	},
	{
		path: "ready", heap: true, example: "is North Bay ready?", fill: fillReady,
		cues: []cue{
			{10, pattern(`^(?:is|was|did|does|has|have|will|are|were|do you (?:think|reckon)|any idea if)\b.*\b(?:hot|warm) enough(?: yet| now| for .+| (?:to|and) (?:kill|killed|cook|get rid|deal|finish|destroy) .+| against .+| in #)?(?: ?\?)*$`)},
			{10, pattern(`^(?:did|does|do|has|have|will|would|is|are|were|could|can)\b.*\b(?:kill|kills|killed|destroy|destroys|destroyed|finish off|finished off|get rid of|got rid of)\b.*\b` + pests + `\b`)},
			{10, pattern(`^(?:did|does|do|has|have|will|would|is|are|were|could|can)\b.*\b` + pests + `\b.*\b(?:survive|survived|alive|dead|killed|live on|live through|lived|die|died)\b`)},
			{8, pattern(`\b(?:is|are|was|will|would|could|does|when|how|any|which|if|think)\b.*\b(?:ready|mature|cured)\b(?: yet| now| soon| to| for| ?\?|$| by| enough| in| at)?`)},
			{8, pattern(`\bwhen (?:can|could|will|do|is|does|might|should) .*\b(?:use|spread|finish|finished|done|dig|harvest|empty|sieve|have compost|be compost)\b`)},
			{7, pattern(`\b(?:can|could|may|should|shall|is|are) (?:i|we|you|it|#|they|this|that|the compost) (?:safely )?(?:use|spread|dig|sieve|plant|sow|put|start using|take|empty|be used|harvest|be spread|finished|done|cooked|usable|fit)\b(?: some of)?(?: {it}| the compost| from #| from it| on| in| yet| for| compost|$| now| ?\?| out)`)},
			{8, pattern(`^(?:can|could|may|should|is|are|would|will|might) {it} (?:now |yet |already )*(?:be )?(?:emptied|used|dug|taken|harvested|spread|sieved|screened|bagged|go|come|put|opened|safe|fine) ?(?:on|onto|in|into|out|up|now|yet|over|round|around|$|\?)`)},
			{8, pattern(`\b(?:has|have|is|did) {it} (?:\w+ )?(?:finish|finished|done|stopped|completed|through) ?(?:rotting|composting|cooking|decomposing|breaking down|maturing|curing|being compost|yet|\?|$)|\b(?:is|are) (?:this|that|the|our) (?:stuff|compost|lot|batch|material) (?:\w+ )?(?:finished|done|ready|usable|good|fit|cooked|mature)\b`)},
			{8, pattern(`\b(?:when|how soon|how long|how many (?:weeks|days|months))\b.*\b(?:compost|usable|black gold|finished|mature|ripe|ready|dig)\b|\bhow (?:far off|far away|far gone|far on|ripe|mature|nearly|ready) (?:is|are)\b`)},
			{7, pattern(`^(?:can|could|may|should|shall|would|is it|are we able to) (?:i|we|you|someone)? ?(?:be able to |to )?(?:take|have|use|get|grab|pinch|dig|scoop|bag|collect|pick up|start|begin)\b.*\b(?:out of|from|of|off|on|with|using) #`)},
			{7, pattern(`\bhow (?:far along|long (?:until|till|before|to go|will|does|do|is|must)|close|much longer|near|mature|many (?:weeks|days|months) (?:until|till|before))\b`)},
			{6, pattern(`\b(?:is|was|are) {it} (?:finished|done|cooked|usable|compost|good to go|good enough|fit)\b|\bgood to go\b|{it} is (?:done|finished|cooked)\b.*\?|\bready (?:yet|now)\b|{it} is ready\b|^{it} ready\b|^ready\b`)},
			{8, pattern(`\b(?:is it|would it be|will it be) (?:ok|okay|fine|alright|all right|time|too early|too soon|possible) to (?:use|spread|dig out|dig in|sow|plant|empty|harvest)\b.*(?:#|\bit\b|\bcompost\b)|\b(?:is|are|would) {it} (?:be )?(?:good|fit|fine|ok|okay|ripe)(?: enough)? (?:for|to) (?:sow|plant|seed|pot|mulch|use|using|the bed|beds|my bed)\w*|\buse?able\b`)},
			{6, pattern(`\b(?:what|which) (?:stage|phase)\b|\bwhat (?:is|can|could) {it} (?:be )?(?:good|fit|used|ready) for\b|\bfinished compost\b.*\?`)},
		},
	},
	{
		path: "history", heap: true, example: "who turned it last?", fill: fillHistory,
		cues: []cue{
			{9, pattern(`\bwho (?:has |had |have |was |did |last |else )*(?:\w+ed|put|did|logged|has|was|said|got|took|brought|fed|made|wrote|forked|gave|been)\b`)},
			{9, pattern(`\bwhen (?:was|were|did|have|has|is) .*(?:last|turned|watered|covered|added|started|moved|fed|turn|water|cover|add|start|move|put|test|tested|log|measure|measured)\b`)},
			{9, pattern(`\b(?:which|any|one) of (?:you|us|them)(?: all| lot)? (?:has |have |had |did |was )*\w+|\bwhat (?:went|has gone|was going|was) on\b|\bwhat (?:was|is) the (?:last|latest|most recent) (?:thing|job|entry|deed|work|time)\b`)},
			{8, pattern(`\b(?:list|show|see|everything|all)\b.*\b(?:done|did|happened|logged|entered)\b`)},
			{8, pattern(`^(?:did|has|have|was|were|had)\b.*\b(?:happen(?:ed)?|turned?|water(?:ed)?|cover(?:ed)?|add(?:ed)?|put|fed|feed|check(?:ed)?|measured?|logged?|moved?|emptied|done|been)\b`)},
			{8, pattern(`\bwhat (?:is|has) been (?:going on|happening|done|up)\b`)},
			{8, pattern(`^any(?:one|body) (?:\w+ed|been|had|fed|put)\b`)},
			{8, pattern(`\b(?:history|log ?book|records?|diary|timeline|csv|spreadsheet|chart|graph|audit|the log|our log)\b`)},
			{8, pattern(`\bwhat (?:(?:has |have |had )?(?:happened|been (?:done|added|going|happening|logged|put))|(?:did|have|has) \w+ (?:do|done|add|added|put|log|logged)|was (?:done|added|put|logged))\b`)},
			{7, pattern(`\b(?:last|previous|recent|latest) (?:turn|turning|turned|watering|entries|entry|reading|readings|temperature|temp|things|few|time)\b`)},
			{7, pattern(`\bhow (?:often|many times) (?:have|has|did|was|were|do)\b|\bhow long (?:ago|since|has it been since|is it since)\b|^(?:has|have|did) (?:any\w*|someone|somebody|we|you|they|i|{it}|\w+) (?:been )?(?:turn|water|cover|add|log|measur|check|take|taken|fed|feed|put|move)\w*\b`)},
			{6, pattern(`\b(?:hottest|peak|highest|maximum|max)\b`)},
		},
	},
	{
		path: "heap show", heap: true, example: "how hot is North Bay?",
		cues: []cue{
			{8, pattern(`\bhow (?:hot|warm|cold|cool|big|full|old|wet|dry|damp|tall|high|large|much is in|is|are|has|well|active|rich|brown|green)\b.*(?:{it}|doing|going|getting on)`)},
			{8, pattern(`\bwhat (?:is|was|are) (?:the |its |it is |current |latest )+(?:temp|temperature|core temperature|reading|heat|state|status|condition|height|volume|size|level|moisture|age)\b|\bwhat (?:is|was) (?:the |its )+c ?[:/] ?n\b.*{it}|\bwhat (?:state|shape|condition) is {it}`)},
			{7, pattern(`\bwhat (?:is|is going|went|goes|has gone|do we have|have we got|have we put|have we|did we put|is there|all is) (?:in|into|inside|on) {it}`)},
			{7, pattern(`\b(?:tell me|show me|show|see|info|information|details|status|state|news|update|summary|look|report)(?: all| more)? ?(?:about|on|of|for|from|at|is)? ?{it}(?: ?[.?!])*$`)},
			{7, pattern(`^how (?:is|are|goes|about) {it}|\bwhat about {it}|\bwhat is (?:up|the (?:story|news|deal|situation|latest|matter)) (?:with|on|at|in) {it}|\bwhat do you (?:make|think) of {it}|\bwhat is # is (?:temp\w*|height|volume|size|moisture)\b|\bwhat temp\w*\b|^{it} ?\?+$|\bhow do(?:es)? {it} (?:look|fare|do|feel)`)},
			{7, pattern(`\bwhere is {it} (?:at|now|up to)\b|\bhow(?: is| are|) (?:my |our |old |dear )*{it}.*\b(?:doing|feeling|looking|going|getting on|coming (?:on|along))\b|\bwhat is {it} (?:like|doing|at|up to|made of|reading|showing|running at)\b|\b(?:latest|news|word|gen|lowdown|update|info) (?:on|about|from|of|for) {it}|\bhow much (?:is|stuff is|have we got|do we have|did we put) in {it}`)},
			{6, pattern(`\bis {it} (?:still |getting |nice and |too )*(?:hot|warm|cold|cool|heating|cooling|working|cooking|active|steaming|full|covered|alive|happy|fine|going)\b`)},
			{5, pattern(`^(?:temp|temperature|status|state|news)(?: of| in| for| from)? {it}$|^{it} (?:temp|temperature|status|state|news|update)(?: ?\?)*$`)},
		},
	},
	{
		path: "heap list", example: "which heaps do we have?",
		cues: []cue{
			{9, pattern(`\b(?:which|what|how many|list|show|all|see|name|where are)\b.*\b(?:heaps|bays|piles|bins|tumblers)\b`)},
			{8, pattern(`\bnames? of (?:the |our |all )*(?:heaps|bays|piles|bins)\b|\b(?:heaps|bays|piles|bins)\b.*\b(?:we have|have we|do we have|are there|exist|on the go|got|running)\b`)},
			{7, pattern(`^(?:the |our |all )*(?:heaps|bays|piles|bins)(?: ?\?)*$`)},
			{7, pattern(`\bhow are (?:the |our |all |they |all the )*(?:heaps|bays|piles|bins)\b|\bhow (?:is|are) every(?:thing|one)\b`)},
		},
	},
	{
		path: "stock list", example: "what do we have in stock?",
		cues: []cue{
			{9, pattern(`(?:\b(?:what|which|how much|how many|show|list)|^(?:any|do|have|is|are|see|check))\b.*\b(?:in stock|on hand|in the shed|in store|in the store|stock|left over|stored|supplies|to hand|in reserve)\b`)},
			{7, pattern(`(?:^|[.,;] )(?:what|which)(?: materials?| browns| greens| stuff)? (?:do we have|have we got|have we|is there|are there|do we still have|we have got|we have)(?: got)?(?: left| here| around| to use| at the moment)*(?: ?\?)*$`)},
			{8, pattern(`^(?:do (?:we|you|i)|have (?:we|you)|is there|are there|any|got|are we|how are we|how is|how much|how many|what)\b.*\b(?:(?:have|got|have got) [a-z ]*at the moment|left|spare|remaining|to hand|on hand|lying around|put by|stored|in (?:the |our )?(?:shed|store|barn|stock|storage))\b|^(?:are we|how are we|do we) (?:\w+ )?(?:low on|short of|off for|fixed for|running (?:low|out)|out of|need (?:more|any more)|got any)\b|^(?:do|have) we (?:still |got )*(?:have |got )*(?:any )?[a-z]+(?: now| at the moment)(?: ?\?)*$`)},
			{7, pattern(`^(?:got|have you got) any\b|^any [a-z ]+ left\b|^do we still have [a-z]+|^(?:how (?:much|many)) .*\b(?:do we have|have we got|is there|are there|is left|are left|remain)\b`)},
			{7, pattern(`^(?:do we (?:still )?have|have we(?: still)?(?: got)?|is there|are there|are we out of|did we run out of|have we run out of) (?:any |some |enough |more |of )+`)},
			{6, pattern(`^(?:the |our )?(?:stock|supplies)(?: list)?(?: ?\?)*$`)},
		},
	},
	{
		path: "garden show", example: "what are our settings?",
		cues: []cue{
			{8, pattern(`\b(?:what|which|show|see|our|list)\b.*\b(?:settings|organisers?|organizers?|time ?zone)\b`)},
			{8, pattern(`\b(?:what|which|do|are) .*\b(?:units|thermometer|celsius|fahrenheit|metric|imperial)\b.*\b(?:we|use|using|set|in|is)\b`)},
			{8, pattern(`\bhow (?:big|large|much) (?:is|are|does) (?:our|a|the|one|my) (?:bucket|barrow|wheelbarrow|sack|caddy|trug|bag)s?\b`)},
			{8, pattern(`\bwho (?:is|are) (?:the |our |an? )*(?:organi[sz]ers?|in charge|boss|admins?|leaders?)\b`)},
		},
	},
	{
		path: "guide", example: "how do I do a squeeze test?", fill: fillGuide,
		cues: []cue{
			{9, pattern(`\bhow (?:big|large|high|tall|wide) (?:should|must|ought|does|do|can) (?:a |the |our |my )?#|\bhow (?:do|can|would|will|should) (?:i|we|you|one|people) (?:know|tell|see)\b.*\b(?:ready|done|finished|mature)\b|\bhow long (?:does|do) (?:compost|composting|a #) (?:usually |normally )?take\b`)},
			{8, pattern(`^who (?:can|could) (?:see|read)\b|\bhow .*\bstart a #|\bhow .*\btake (?:\w+ )?back\b`)},
			{6, pattern(`^what about [a-z]`)},
			{9, pattern(`\bwhat (?:can|could|should|shall|do|must|to) (?:i|we)?.*\b(?:about|against)\b.*\b(?:rats?|mice|vermin|flies|dust|spores|ash|weeds?|herbicides?|weedkiller|fire)\b`)},
			{9, pattern(`\bwhat (?:does|do|did) .+ (?:mean|stand for)\b|\b(?:meaning|definition) of\b|\bexplain\b|\bdefine\b`)},
			{9, pattern(`\b(?:can|could|may|should|do|is it (?:ok(?:ay)?|fine|wise|worth|good|a good idea|allowed)(?: to)?|am i allowed to|are we allowed to|shall|would) (?:i|we|you|people)? ?(?:really )?(?:compost|put|add|throw|chuck|use|bring|include|burn|tip|feed|pop|stick)(?:t?ing)? .+`)},
			{9, pattern(`\b(?:can|could|does|do|is|are|may|should) .+ (?:go (?:in|on|into)|be composted|be added|compost|compostable|ok(?:ay)? to compost|allowed|ok(?:ay)? (?:in|on|for)|fine (?:in|on)|welcome|good for|bad for|green or (?:a )?brown|a green or a brown|a brown|a green|belong (?:in|on))\b`)},
			{8, pattern(`\bhow (?:do|does|should|can|to|is|would|must) (?:i|we|you|one|people)?.*\b(?:squeeze|bag test|jar test|radish|pea test|read|take|measure|layer|build|start a heap|undo|keep|stop|prevent|avoid|protect|store|know|tell|cure|use this|use you|work|test)\b`)},
			{9, pattern(`\bhow (?:wet|damp|moist|dry|hot|warm) (?:should|must|ought)\b.*\b(?:be|get|#|heap|it|stay|become|right|best|ideal|good)\b|\b(?:right|ideal|best|correct|good|proper|target|optimum|enough) (?:moisture|wetness|dampness|water content|temperature|heat)\b|\b(?:moisture|dampness|wetness)\b.*\b(?:right|ideal|best|should|good|enough|level|check|test|tell|know|mean)\b`)},
			{9, pattern(`\b(?:mask|gloves|breath\w*|lungs?|inhal\w*|cough\w*)\b|\b(?:dust|dusty|spores?|mou?ld|mou?ldy|fungus)\b.*\b{harm}|\b{harm}.*\b(?:dust|spores?|mou?ld|fungus)\b`)},
			{8, pattern(`\bhow {harm}`)},
			{8, pattern(`\b(?:difference|differ|distinguish) between\b|\bwhat counts as\b|\b(?:example|kind|sort)s? of (?:a )?(?:greens?|browns?)\b`)},
			{6, pattern(`^(?:is|are) [a-z' -]+ (?:all right|a problem|bad|good|harmful|dangerous|poisonous|safe|suitable|compostable|acceptable|permitted|allowed|wanted|useful)\b`)},
			{9, pattern(`\bhow often\b.*\b(?:should|do|must|ought|to)\b`)},
			{9, pattern(`\b(?:asthma\w*|immune system|steroids|chemo\w*)\b`)},
			{6, pattern(`^(?:is|are) [a-z' -]+ (?:ok|okay|fine|allowed|alright)\b`)},
			{8, pattern(`\bwhy (?:does|do|is|are|has|did|can|would|not|should|must|will)\b`)},
			{8, pattern(`^what (?:is|are) (?:a |an |the |meant by |so bad about |wrong with )*(?:\w[\w: /-]*)\b`)},
			{7, pattern(`\b(?:rats?|mice|rodents?|vermin|legionella|legionnaires|aspergillus|spores?|mould|mold|dust|tetanus|herbicides?|weed ?killers?|pea test|wood ash|ash|ashes|catch fire|on fire|fire|smoulder\w*|smok(?:e|es|ing)|flies|privacy|personal data|gdpr|dangerous|danger|safe|safety|hazards?|gloves|mask)\b`)},
			{9, pattern(`^help(?: me)?(?: ?[.!?])*$|^(?:guide|manual|instructions|what can you do|what do you do|how does this work|how do you work|who are you|what are you|commands)\b`)},
			{6, pattern(`\bwhat (?:should|must|can|may) (?:not|never|i not|we not) (?:go|put|be|add|compost)|\bwhat (?:stays?|must stay|to keep|do we keep|do i keep|should stay|should i keep|goes|can go|may go|can not go|is not allowed|can not|is allowed|can) ?(?:out|in|on)?\b.*\b(?:out|heap|in|compost|#|allowed)\b`)},
			{6, pattern(`\bwhere (?:do|did|are|does) .*\b(?:numbers|figures|data|facts|sources?)\b|\b(?:sources|references|your numbers|your figures)\b|\bhow (?:sure|certain|accurate|reliable)\b`)},
		},
	},
}

// gave is what a heap gave when it was dug out, at the end of a sentence.
const gave = `.*(?: [,:;-]| and| it was| got| gave| came to| made| yielded| which was| that was)(?: us| about| around| got| it was| roughly| a good)* {amount}(?: of (?:(?:\w+ )?(?:compost|stuff|it|black gold|goodness)))?(?: out of it| from it| in all| altogether| in total| total)?(?: [.!])*$`

// settingIntents change the heaps, the stock and the garden's settings.
var settingIntents = []intent{
	{
		path: "undo", writes: true, example: "undo that", fill: fillUndo,
		cues: []cue{
			{9, pattern(`^{oops}(?:please )?(?:undo|revert|roll back|take back)(?: [.!])*$`)},
			{9, pattern(`^{oops}(?:please )?(?:undo|take (?:that|it) back|scrap (?:that|it)|take back|delete (?:that|my last|the last|entry|it)|remove (?:that|my last|the last|entry)|strike (?:that|it))\b`)},
			{7, pattern(`^{oops}(?:a |my )?mistakes?(?: [.!])*$|^{oops}(?:(?:that|it|this) was (?:wrong|a mistake|a typo|my mistake|an error|the wrong (?:heap|one)|#)|i (?:have )?made a mistake|my mistake|wrong (?:one|bay|bin|heap|pile|tumbler))\b|^{oops}(?:that was (?:the )?|it was (?:the )?)?wrong #(?: [,.!]|$)`)},
		},
	},
	{
		path: "heap start", writes: true, example: "start a new heap called South Bay", fill: fillHeapStart,
		cues: []cue{
			{9, pattern(`\b(?:start|started|starting|begin|began|begun|set up|create|created|make|made|built|build|opened|open|add)\b.* (?:heap|pile|bay|bin|tumbler|#)\b?.* (?:called|named|call it|name it)\b`)},
			{7, pattern(`^new (?:heap|pile|bay|bin|tumbler|#) ?(?:called|named|:)`)},
		},
	},
	{
		path: "heap finish", writes: true, heap: true, example: "finish Old Bay, we got 6 barrows", fill: fillHeapFinish,
		cues: []cue{
			{8, pattern(`^(?:please )?(?:finish|close|retire|close down|wind up) #`)},
			{9, pattern(`^(?:i |we )?(?:have |just |now |finally |all )*(?:emptied|dug|cleared|sieved|harvested|took|taken|scooped|shovell?ed|(?:finished|done|are done) (?:digging|emptying|clearing|sieving|with))(?: out| all| everything| the lot| up| of| from)* #(?: out| up| off| completely)*` + gave)},
			{9, pattern(`^(?:that is )?# (?:(?:is|was|has been)(?: now| all| completely| finally)* )?(?:all )?(?:finished|emptied|dug out|cleared(?: out)?|closed|done)` + gave)},
			{8, pattern(`^# as (?:finished|closed|emptied|dug out)\b|^(?:please )?(?:end|archive|shut down|close off|close out) #(?: [.!,]|$)|^(?:i am|we are) (?:all )?(?:done|finished) with #(?: [,;.-])* (?:and |so |please |you can )*(?:close|finish|retire) (?:it|#)(?: [.!])*$`)},
			{7, pattern(`^(?:i|we) (?:have )?(?:finished|closed|retired|harvested|emptied and finished) #`)},
			{9, pattern(`^# (?:is|was|has been) (?:now )?(?:finished|emptied|dug out|cleared|closed)\b.*\b(?:got|gave|yielded)\b|^(?:i|we) (?:have )?(?:emptied|dug out|cleared|sieved|harvested) #.*\b(?:got|gave|yielded)\b`)},
		},
	},
	{
		path: "heap change", writes: true, example: "rename North Bay to Sunny Bay", fill: fillRename,
		cues: []cue{{9, pattern(`^(?:please )?(?:re-?name|call|(?:change|set|make|switch) the name of) #|^(?:please )?give # (?:the|a|its) (?:new )?name\b|^(?:# is|the name of # is) now\b`)}},
	},
	{
		path: "stock weigh", writes: true, example: "one bucket of our grass weighs 3.1 kg", fill: fillWeigh,
		cues: []cue{
			{9, pattern(`^(?:i |we )?(?:have |just )*(?:weighed (?:it )?[,:]? ?(?:our |the )?{amount}.*|put {amount} .*\bon the scales?\b.*|(?:the )?weight of {amount} .*){n} ?(?:kg|kilos?|kilograms?|g|grams?|lbs?|pounds?|oz)\b`)},
			{9, pattern(`^(?:i weighed (?:it )?(?:,|:)? ?)?(?:a|one|1|each|our|half a|\d+) .*\b(?:of|full of)\b.* (?:weighs|weighed|weighs in at|is|was|comes to|came to|are|weigh) (?:about |around )?{n} ?(?:kg|kilos?|kilograms?|g|grams?|lbs?|pounds?|oz)\b`)},
		},
	},
	{
		path: "garden measure", writes: true, example: "our bucket holds 14 litres", fill: fillWhole("what"),
		cues: []cue{{9, pattern(`^(?:our|my|the|a|each|one) (?:\w+ ){0,2}\w+ (?:holds?|takes?|is|are|has|hold|contains?) (?:about |around )?{n} ?(?:l|litres?|liters?|gallons?|gal)\b(?: each| of \w+)?$`)}},
	},
	{
		path: "garden zone", writes: true, example: "our time zone is Europe/London", fill: fillZone,
		cues: []cue{{9, pattern(`\btime ?zone (?:is|to|:)`)}},
	},
	{
		path: "garden place", writes: true, example: "the garden is at 51.75, -1.26", fill: fillPlace,
		cues: []cue{{9, pattern(`^(?:the |our )?(?:garden|allotment|plot) (?:is|lies)\b|^(?:please )?set the place\b`)}},
	},
	{
		path: "garden units", writes: true, example: "use Fahrenheit", fill: fillUnits,
		cues: []cue{{9, pattern(`^(?:our|the|my) thermometers? (?:is|are|shows?|reads?|uses?)(?: set)?(?: in| to)? (?:degrees )?(?:celsius|fahrenheit)\b|^(?:please )?(?:use|switch to|change to|set (?:the )?(?:units|thermometer) to|we use|we measure in|i use|we work in|go|set it to|change (?:the )?units to|put it in|show (?:it |them |temperatures? )?in) (?:the )?(?:us|american|imperial|british|metric|celsius|fahrenheit|degrees (?:c|f|celsius|fahrenheit))\b`)}},
	},
	{
		path: "stock set", writes: true, denials: true, example: "we have 3 sacks of leaves in stock", fill: fillStock,
		cues: []cue{
			{8, pattern(`^(?:we|i|there|the shed|the store) (?:have|has|is|are|got|have got|now have|still have|holds?)(?: got| now| still)* .+ (?:in stock|on hand|in the shed|by the shed|behind the shed|in store|in the store|in reserve|stored|in the barn|in the corner|left over|left|spare|to hand)\b`)},
			{8, pattern(`^(?:(?:i|we) (?:have |have got )?)?(?:still |now |only |just )*{amount}.* (?:left|left over|spare|put by|stored|on hand|to hand|in stock|in (?:the |our )?(?:shed|store|barn|stock))(?: now| left| still| spare)*(?: [.!])*$`)},
			{8, pattern(`^(?:the |our )?(?:shed|store|barn)(?: now| still)* (?:has|holds|contains|got)\b|^(?:(?:i|we) (?:are|am) )?(?:now )?(?:down to|left with) (?:our |the |my )?(?:last )?(?:just |only )?{amount}|^(?:i|we) (?:are having|have) .+ in (?:stock|store)\b`)},
			{8, pattern(`^(?:i |we )?(?:have )?(?:now |just )?(?:used up|used|finished(?: off| up)?) (?:all |the last |the rest )(?:of )?|^there (?:is|are) no [a-z -]+?(?: left| any ?more| any longer| remaining)(?: in .*)?(?: [.!])*$|^(?:i|we) (?:do not have|have not got|have not) any(?: more)? [a-z -]+$`)},
			{8, pattern(`^(?:stock|in stock)(?: is| now| :| ,)* .+`)},
			{8, pattern(`^(?:we|i) (?:are|am|have) (?:now )?(?:all )?(?:out of|run out of|no more|used up all the|used up the|used all the|no)\b .+|^(?:no more|out of|ran out of|we ran out of|we have no|there (?:is|are) no more) .+|^no [a-z -]+ left\b|^[a-z -]+ (?:is|are) (?:now )?(?:all )?(?:gone|used up|finished)(?: now| again)*(?: [.!])*$`)},
		},
	},
}
