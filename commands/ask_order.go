package commands

// rewriting is a way to say something, and the plain way to say it.
type rewriting struct {
	said phrase
	as   string
}

// ordered are sentences that a plan or a wish stands in for: "remind us" is what
// a later reminder is called, and who will be away says so now. A later one
// reads what an earlier one wrote.
var ordered = []rewriting{
	{pattern(`^you (?:can|could|may) (?:now )?(?:please )?((?:switch|turn|start|stop|pause|put|take|cross|strike|leave) )`), "$1"},
	{pattern(`^(?:can|could|may) we (?:please )?((?:rename|pause|suspend|switch off|turn off|stop) )`), "$1"},
	{pattern(`^let us ((?:rename|pause|suspend|switch off|turn off|stop) )`), "$1"},

	// reminders
	{pattern(`^(?:please )?(?:remind|nudge|notify|alert|prompt) {us}\b`), "set us"},
	{pattern(`^(?:please )?(?:ping|message|text|tell|call|buzz|poke|prod|mail|email|chase|let) {us} (?:know |about it |again )?((?:on|at|every|each|daily|in the|from now on|once a) )`), "set us $1"},
	{pattern(`^(?:please )?(?:give|send|drop) {us} (?:a|an|the|another|our) (?:little |quick |friendly )?(?:shout|nudge|ping|prompt|reminder|heads up|poke|call|alert|bell|buzz|message|line)\b`), "set us"},
	{pattern(`^(?:i|we) (?:want|need|would (?:like|love|prefer|want|rather)) (?:(?:to )?(?:be|get) reminded|(?:(?:(?:to )?(?:get|have|receive) )?(?:the |our |my |a |some )*reminders?))\b`), "set us reminders"},
	{pattern(`^(?:can|could|may|might) (?:i|we) (?:please )?(?:(?:get|have|receive) (?:the |our |my |a |some )*reminders?|(?:be|get) reminded)\b`), "set us reminders"},
	{pattern(`^(?:please )?(?:change|move|set|switch|shift|put|make|reschedule|bring) (?:the |our |my |all )*reminders? (?:to|for|on to|on|at|back to|forward to|over to) `), "set us reminders "},

	// no reminders
	{pattern(`^(?:i|we) do not (?:want|need) (?:any |the |more |your )*(turning|watering|covering|squeezing|testing|curing|cooling) reminders?\b`), "stop reminding us about $1"},
	{pattern(`^(?:i|we) do not (?:want|need) (?:any |the |more |your )*reminders?\b`), "stop the reminders"},
	{pattern(`^(?:i|we) do not (?:want|need) (?:to be|to get|being) reminded\b`), "stop reminding us"},
	{pattern(`^(?:please )?do not (?:remind|nag|nudge|bother) {us} (?:of|about|to) `), "stop reminding us about "},
	{pattern(`^(?:please )?(?:stop|quit) (?:telling|asking|reminding|nagging|bugging|pestering|nudging) {us} (?:to|about|of) `), "stop reminding us about "},
	{pattern(`^(?:please )?(?:stop|no|no more|switch off|turn off|drop|skip) (?:the |our |any )*(turning|watering|covering|squeezing|testing|curing|cooling) reminders?\b`), "stop reminding us about $1"},
	{pattern(`^(stop reminding us about )(?:the )?(turn|water|cover|squeez|test)e?(?: (?:it|them|#|the heaps?|the compost))*((?: [.!])*)$`), "$1${2}ing$3"},
	{pattern(`^(?:please )?(?:stop|quit|no more|enough (?:of|with)|give it a rest with|switch off|turn off|cancel|postpone|mute|disable|drop) (?:(?:with|all|the|our|your|these|those|sending|giving|posting|bloody|daft) )*(?:reminders?|nagging|nudges?|nudging|pings?|pinging|pestering|bothering|reminding)(?: us| me| everyone)?\b`), "stop the reminders"},
	{pattern(`^(stop the reminders) for (?:now|the moment|the time being|good|ever)\b`), "$1"},

	// quiet hours
	{pattern(`^(?:please )?(?:do not|no) (?:message|messages|write|post|posts|text|texts|ping|pings|disturb|disturbing|send|bother|contact|buzz|notify|notifications?|nudges?|noise|alerts?|wake)(?: to)?(?: (?:us|me|anyone|anybody|any|messages?|reminders?|posts?|anything|stuff|things|the group|up))*\b`), "no messages"},
	{pattern(`^(?:please )?(?:silence|hush|shush|mute(?: yourself)?|(?:stay|remain|go|keep it) (?:quiet|silent)|(?:keep|be) silent|leave us (?:alone|in peace|be)|nothing)((?: (?:from|between|after)\b)| \d)`), "no messages$1"},
	{pattern(`^(?:please )?(?:leave us (?:alone|in peace|be)|give us (?:a break|a rest|peace))( (?:until|till|for) )`), "pause the reminders$1"},

	// who is away, and who is back
	{pattern(`^(?:(?:i|we) (?:am|are) )?(?:back|home)(?: (?:now|again|home|safely|in town|here|from (?:my |our |the )?(?:holidays?|vacation|leave|trip|break|travels?|hospital|abroad|honeymoon)))+((?: [.!])*)$|^(?:i|we) (?:am|are) back((?: [.!])*)$`), "i am back"},
	{pattern(`^(?:(?:i|we) (?:am|are|will be|am going to be|are going to be|shall be|have to be) )?(?:still |off )?{away}\b[^?]*`), "i am away then"},
	{pattern(`^(?:(?:i|we) (?:am|are) )?(?:off|going|flying|travelling|traveling|driving) (?:away|home|abroad|on (?:holidays?|vacation|leave|a trip)|to (?:(?:the|my|our|a) [a-z]+(?: [a-z]+)?|[a-z]+)) (?:from|until|till)\b[^?]*`), "i am away then"},
	{pattern(`^(?:(?:i|we) )?(?:will|can|could|shall) not (?:be (?:here|around|there|in|able to (?:come|make it|be there|help|do (?:it|my turn)))|come(?: along| by| down| over)?|make it|attend|get (?:there|down|over)|help(?: out)?|take part|do (?:my|our|the) turn|take (?:my|our) turn)\b[^?]*`), "i am away then"},
	{pattern(`^(?:(?:i|we) )?(?:can|will) not (?:do|make|manage) ((?:this |next |on )*(?:mon|tues|wednes|thurs|fri|satur|sun)day|next week|tomorrow|the (?:weekend|\d+)\w*)\b[^?]*`), "i am away then $1"},

	{pattern(`^(?:i|we) have (?:got )?(?:no time|other plans|something (?:else )?on|another appointment)\b[^?]*`), "i am away then"},
	{pattern(`^(?:please )?(?:count|leave) me out (?:for|on|until|till|from|this|next|tomorrow)\b[^?]*`), "i am away then"},

	// the rota
	{pattern(`\b(put|add|sign|write|take|remove|drop|strike|cross|delete) my name\b`), "$1 me"},
	{pattern(`^(?:(?:can|could|will) you )?(?:please )?(?:swap|switch|trade) me with `), "swap with "},
	{pattern(`^(?:i|we) (?:am |are |have |will )?(?:swapp?(?:ed|ing)?|trad(?:e|ed|ing)|switch(?:ed|ing)?|exchang(?:e|ed|ing)) ((?:[a-z]+ )*with )`), "swap $1"},
	{pattern(`^(?:can|could|may) ([a-z]+) and (?:i|me) (?:please )?(?:swap|trade|switch|exchange)(?: (?:our|the|a|next|go|goes|turns?|days?|weeks?|shifts?))*$|^([a-z]+) and (?:i|me) (?:are |have |will |want to |would like to )?(?:swapp?(?:ed|ing)?|trad(?:e|ed|ing)|switch(?:ed|ing)?|exchang(?:e|ed|ing))(?: (?:our|the|a|next|go|goes|turns?|days?|weeks?|shifts?|dut(?:y|ies)|places))*((?: [.!])*)$`), "swap with $1$2$3"},
	{pattern(`\b(my|your|our|whose) (next )?(?:turn|shift)\b`), "$1 ${2}go"}, // nobody turned anything
	{pattern(`^(?:can|could|may|might) i (?:please )?((?:join|leave|swap|switch|trade|exchange)\b[^?]*?)(?: ?\?)*$`), "$1"},
	{pattern(`^(?:i|we) (?:want|need|would (?:like|love|be (?:happy|glad))|am (?:happy|glad|willing)) to ((?:join|leave|swap|switch|trade|exchange)\b)`), "$1"},
	{pattern(`^(?:please )?(?:join|i (?:want|would like|would love) (?:to (?:be|get|go) )?(?:on|in|onto|part of|up for)|i am (?:in|up) for) the {rota}((?: [.!]| too| as well)*)$`), "put me on the rota$1"},
	{pattern(`^(?:can|could|may) i (?:please )?(?:be|get|go) (?:on|in|onto|part of) the {rota}(?: too| as well)?(?: ?\?)*$`), "put me on the rota"},
	{pattern(`^i (?:(?:want|would (?:like|love|be (?:happy|glad)))|am (?:happy|glad|willing)|can|will) (?:to )?(?:take|do) (?:a turn|turns|my share|my bit)(?: too| as well)?((?: [.!,]| add me| sign me up| put me down)*)$`), "put me on the rota$1"},
	{pattern(`^(?:please |i )?(?:leave|quit|resign from|drop out of|i am (?:done with|out of|leaving|quitting)|i (?:want|would like|need) (?:to (?:be|get|come|step|drop) )?(?:off|out of)) the {rota}\b`), "take me off the rota"},
	{pattern(`^i can not do (?:the {rota}|turns) (?:any ?more|any longer)\b[^?]*`), "take me off the rota"},
	{pattern(`^(?:please )?((?:put|add|sign|pop|stick|get|write|take|remove|drop) me [^?]*?)(?: , )?(?: would you| will you| could you| can you)$`), "$1"},

	// taken back
	{pattern(`^{oops}(?:please )?(?:cancel|scratch|scrap|revoke|void|erase|wipe|strike|discard|retract|withdraw|revert|reverse|delete|remove|undo) (?:{last}|that|it|this)((?: [.!,;-].*)?)$`), "undo that$1"},
	{pattern(`^{oops}(?:please )?(?:ignore|forget|disregard) (?:{last}|what i (?:just )?(?:said|wrote|logged|typed|put|entered|sent))((?: [.!])*)$`), "undo that"},
	{pattern(`^{oops}(?:please )?take (?:{last} (?:back|out|off|away)|(?:that|it|this) (?:back|out))(?: again)?((?: [.!])*)$`), "undo that"},
	{pattern(`^{oops}{last} (?:is|was) (?:all )?(?:wrong|a mistake|a typo|an error|a slip|incorrect|not right|by mistake|by accident|in error)\b(?: [,;.-] (?:please )?(?:and )?(?:undo|delete|remove|cancel|scrap) (?:it|that))?((?: [.!])*)$`), "undo that"},
	{pattern(`^{oops}(?:please )?(?:(?:rub|strike|cross|scratch) (?:{last}|that|it) out|(?:rub|strike|cross|scratch) out (?:{last}|that|it)|get rid of {last})((?: [.!])*)$`), "undo that"},
	{pattern(`^{oops}i (?:logged|wrote|put|entered|said|typed|sent|noted) (?:{last}|that|it|this)(?: down| in)? (?:by mistake|by accident|in error|wrong|wrongly|twice)((?: [.!])*)$`), "undo that"},
	{pattern(`^{oops}i (?:logged|wrote|entered|noted|recorded) (?:{last}|that|it|this) (?:on|in|to|for|under|against) the wrong (?:heap|bay|bin|pile|tumbler|one|#)((?: [.!])*)$`), "undo that"},
	{pattern(`^(?:i )?(?:did not|never) mean(?:t)? (?:to (?:log|say|write|send|enter|post|record|put) )?(?:that|it|this|that one|that last one)((?: [.!])*)$`), "undo that"},
	{pattern(`^(?:{last}|that|it|this) (?:should|must|ought) not (?:to )?have been (?:logged|written down|put down|recorded|noted)((?: [.!])*)$`), "undo that"},

	{pattern(`^did (an?|the|my|our) ((?:[\w-]+ ){0,2}(?:test|turn|check|watering)(?: (?:on|in|of|for|at) #)? [,:;-] )([^?]+)$`), "i did $1 $2$3"},
	{pattern(`^(?:i |we )?(?:have )?(?:just )?managed to (turn|water|cover)\b`), "i ${1}ed"},
}
