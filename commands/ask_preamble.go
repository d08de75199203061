package commands

// preamble leads up to what is said: it asks, or doubts, for the whole sentence.
type preamble struct {
	said          phrase // its last group begins what is said
	asks, doubted bool
}

var preambles = []preamble{
	{said: pattern(`^(?:(?:can|could|would|will) (?:you|someone|somebody|anyone|anybody) (?:please |kindly )?(?:tell|say|show|explain to|let|remind) (?:to )?(?:me|us)(?: know)?|(?:can|could) (?:you|someone|anyone) (?:say|explain)|` +
		`do (?:you|we) (?:happen to )?know|does (?:anyone|anybody|someone|somebody) (?:here )?know|any(?:one|body) know|any idea|(?:i|we) (?:wonder|was wondering|am wondering|are wondering|do not know|would like to know|want to know|need to know|am not sure|can not remember)|` +
		`wondering|curious|(?:please )?(?:tell|remind) (?:me|us)|what i (?:want|need) to know is|do you (?:think|reckon)|have you any idea|you know)(?: about)?(?: ,)? (what|when|which|who|whose|why|how|where)\b`), asks: true},
	{said: pattern(`^(?:(?:can|could|would|will) (?:you|someone|anyone) (?:please |kindly )?(?:tell|say|let) (?:me|us)(?: know)?|do (?:you|we) know|does (?:anyone|anybody|someone) know|any(?:one|body) know|any idea|(?:i|we) (?:wonder|was wondering|am wondering|do not know|would like to know|want to know|need to know|am not sure)|` +
		`wondering|(?:please )?tell (?:me|us)|not sure) (?:if|whether) (\S+)`), asks: true},
	{said: pattern(`^(?:do you|would you|does anyone) (?:think|reckon|believe|say) (?:that )?(\S+)`), asks: true},
	{said: pattern(`^(?:i|we) (?:really |just |do )?(?:think|reckon|guess|believe|suspect|feel|fear|suppose|am afraid|am worried)(?: like| that| ,)? ((?:i|we|it|that|this|there|the|some\w*|#) .*)`), doubted: true},
	{said: pattern(`^(?:it (?:seems|looks|appears|sounds)|seems|looks|sounds)(?: to me)? (?:like|as if|as though|that) (\S+)`), doubted: true},
	{said: pattern(`^(?:(?:i|we) (?:just )?(?:wanted|want|would like) to (?:say|report|tell you|let you know)|(?:just )?(?:to let you know|letting you know|so you know|wanted to say|to say|reporting)|happy to (?:say|report)|i can report|i (?:am|would be) (?:happy|glad|pleased|sad|sorry) to (?:say|report))(?: ,| :| -)*(?: that)? (\S+)`)},
}

// readPreamble drops what leads up to a sentence and keeps what it says of it.
func (s *sentence) readPreamble() {
	for _, p := range preambles {
		m := p.said.FindStringSubmatchIndex(s.text)
		if m == nil {
			continue
		}
		s.text = s.text[m[2]:]
		s.question = s.question || p.asks
		s.doubtful = s.doubtful || p.doubted
	}
}

// plainer are ways to speak of a heap that the rules need not know.
var plainer = []rewriting{
	{pattern(`# is (?:own )?(temp|temperature|core temperature|height|volume|size|moisture|name|status|state|history|log|record|chart|outlook|aim|container|contents)\b`), "the $1 of #"},
	{pattern(`(?:^|\b(?:all|the rest|the last) )of # (is|was|has)\b`), "# $1"},
	{pattern(`\b(?:both (?:sides|halves|ends|parts) of|everything (?:in|on)|all the stuff in|the (?:whole|entirety) of|the (?:stuff|contents|compost|material|stuff that is) (?:in|of|from)) #`), "#"},
}

func rewritten(text string, rules []rewriting) string {
	for _, r := range rules {
		text = r.said.ReplaceAllString(text, r.as)
	}
	return text
}
