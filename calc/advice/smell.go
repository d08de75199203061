package advice

const (
	srcAmmonia = "Cornell news 1998; NJ Department of Environmental Protection"
	srcRotten  = srcTrouble + "; Cornell news 1998"
)

// lateSmell is the age from which a bad smell no longer asks for work today (own choice).
const lateSmell = 3 * day

var smellRules = []Rule{
	{
		Code:   "rotten",
		Text:   "At a rotten or sour smell, turn and mix in coarse dry browns: the heap lacks air.",
		Source: srcRotten,
		when:   func(l *look) bool { return l.smell == "rotten" || l.smell == "sour" },
		job: func(l *look) Job {
			u := Today
			if l.Now.Sub(l.SmellAt) > lateSmell {
				u = Soon
			}
			return Job{
				Kind: Browns, Title: "Turn it and mix in coarse dry browns", Urgency: u, Confidence: likely, Caution: l.dust(), Done: "log turn",
				Reason: l.say.Say("It smelled %s %s: parts of it get no air.", l.say.Word(l.smell), l.ago(l.SmellAt)),
			}
		},
	},
	{
		Code:   "ammonia",
		Text:   "At a smell of ammonia, mix in browns: there is more green than the heap can use.",
		Source: srcAmmonia,
		when:   func(l *look) bool { return l.smell == "ammonia" },
		job: func(l *look) Job {
			return Job{
				Kind: Browns, Title: "Mix in dry leaves, straw or other browns", Urgency: Soon, Confidence: likely, Caution: l.dust(), Done: "log turn",
				Reason: l.say.Say("It smelled of ammonia %s: too much green. Ask mix for the amount.", l.ago(l.SmellAt)),
			}
		},
	},
}
