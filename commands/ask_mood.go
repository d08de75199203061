package commands

import (
	"strings"
)

// The rules of mood decide whether a sentence may change the record. They err
// on the side of not writing: a question, a plan, a wish or a denial is never
// logged.
var (
	// asking opens a sentence or one of its clauses.
	asking = []phrase{
		pattern(`\?`),
		pattern(`^(?:is|are|am|was|were|do|does|did|should|shall|would|could|will|has|might|may|must|ought)\b`),
		pattern(`^(?:can|have|had|need) (?:i|we|you|it|#|they|the|this|that|our|my|any\w*|some\w*|he|she|\w+ (?:go|be|turned|been))\b`),
		pattern(`(?:^|[.,;!:-] |\b(?:and|but|so|or) )(?:what|when|which|who|whose|whom|why|how|where)\b`),
		pattern(`[.,;!:-] (?:and |but |so |or )?(?:is|are|do|does|did|can|could|should|shall|would|will|has|have) (?:i|we|you|it|they|the|this|that|there|our|my|any\w*|some\w*)\b`),
		pattern(`[.,;!:-] (?:is|are|does|did|can|could|should|will|has) #`),
		pattern(`\b(?:wonder|wondering|not sure|unsure|any(?:one|body) (?:know|knows|else|tell)|any (?:idea|ideas|advice|tips|thoughts)|want to know|like to know|need to know|curious|no idea|tell me|show me|let me know|advise)\b`),
	}
	// doubting words say that a thing did not happen, or not yet.
	doubting = pattern(`\b(?:if|unless|would|could|should|might|may|maybe|perhaps|probably|shall|will|going to|about to|due to be|tomorrow|next (?:week|month|time|year|weekend)|later|soon|` +
		`plan|plans|planning|planned|thinking|think of|think about|thought|believed|thought about|want|wants|wanted|need|needs|needed|have to|has to|had to|got to|must|ought|supposed|meant to|` +
		`let us|almost|nearly|wish|wished|hope|hoping|hopes|hoped|imagine|pretend|suppose|assume|assuming|say we|dream|dreamt|dreamed|try to|trying to|tried to|remember to|remind|` +
		`forgot|forget|ready to|used to|forecasts?|predict\w*|(?:is|are) coming|they (?:say|said|reckon)|(?:he|she) (?:says|said|reckons)|heard|apparently|` +
		`instead of|refuse|never|nobody|no one|neither|nor|cancel|postpone|` +
		`last (?:year|summer|spring|autumn|fall|winter|season)|years? ago|in (?:19|20)\d\d|yet to|anyone|someone please|(?:when|before|after|once|until|till) (?:you|they|someone|he|she))\b`)
	// bidding tells somebody to do it: it is not done.
	bidding = pattern(`^(?:take|pull|lift|fold|roll|drag|close|shut|open|remove) (?:off |back |up )?(?:the |a |that |its )?(?:{cover})\b`)
	// wontHold is a squeeze test, not a plan.
	wontHold = pattern(`\b(?:will|would) not (hold|stick|stay|clump|make)\b`)
	// denying words matter except where a rule is about what is not there.
	denying = pattern(`\b(?:not|without)\b`)
	// telling asks us outright to write something down, as a plain order or
	// a polite one.
	telling = pattern(`^(?:(?:can|could|would|will) (?:you|someone|somebody|we|i) (?:please )?|any chance (?:you|someone|we) could |i would like to |i want to |i need to |let us |please )*` +
		`(?:log|record|write|write down|put down|jot down|enter|mark|save|add to the log|put in the log|add to the record)\b(?: down| in)?(?: that| this| as| :| ,| it that)*`)
	// ordering is a polite order whose verb a rule still has to see.
	ordering = pattern(`^(?:can|could|would|will) you (?:please )?(undo|start|remind|nudge|ping|notify|pause|stop|mute|hold|put me|pop me|sign me|count me|get me|take me|drop me|make a note|take a note|leave a note|keep a note|note|remember that|add|set|use|switch|turn off|turn on|finish|close|rename|call|change|give|send|keep|leave|cancel|scrap|revert|take that back|take it back|take back|remove|delete)\b`)
	// supposing takes the certainty from an order.
	supposing = pattern(`\b(?:if|unless|whether|maybe|perhaps|probably|possibly|hopefully|depending|depends|not sure|unsure)\b`)
	// tagged ends a statement that asks after all.
	tagged = pattern(`[,;.-] (?:right|eh|huh|yes|yeah|no|innit|correct|or (?:not|what|no)|(?:is|was|are|were|did|do|does|has|have|had) (?:not )?(?:i|we|you|it|he|she|they|that)(?: not)?)(?: [.!])*$|\b(?:is it|was it|have we|did (?:i|we|you|they|he|she)|or not|or what)(?: not)?(?: [.!])*$`)
	// apart is another garden than this, and a habit is no single deed.
	apart = pattern(`\b(?:at home|(?:my|his|her|their|your) own|(?:his|her|their|your|another|(?:my|our) (?:old|last|other|former|first)) (?:garden|allotment|plot|heap|pile|bin|compost|tumbler|bay|place|school)|` +
		`(?:at|in) (?:the |my |her |his |our )?(?:school|work|university|office|church)|school garden|on (?:the )?(?:telly|tv|television|radio|youtube|news|internet)|in (?:a|the) (?:book|video|film|magazine|article)|an? (?:heap|pile|bin|bay|tumbler) (?:that|which|was|had|hit|in|at)|weekly|always|usually|normally|regularly|every (?:day|week|month|time|year))\b`)
	// unfit text is never written down as a log entry.
	unfit = pattern(`^"[^"]+" |@everyone|@here|<[@#!&]|\b(?:lol|haha\w*|ha ha|jk|kidding|joke|knock knock)\b|` +
		`\bdrop table\b|\binsert into\b|\bdelete from\b|\bselect\b.*\bfrom\b|\bupdate\b.*\bset\b.*=|--\s*$|;\s*--|\bunion all\b|\bor 1=1|<script|\$\{|\{\{`)
)

func (s *sentence) readMood() {
	if m := telling.FindStringIndex(s.text); m != nil {
		s.directed = true
		s.text = strings.TrimSpace(s.text[m[1]:])
		s.text = strings.TrimSpace(strings.TrimSuffix(s.text, "?"))
	} else if m := ordering.FindStringSubmatchIndex(s.text); m != nil {
		s.text = strings.TrimSpace(strings.TrimSuffix(s.text[m[2]:], "?"))
	}
	if !supposing.MatchString(s.text) {
		s.text = rewritten(s.text, ordered)
	}
	for _, rule := range asking {
		s.question = s.question || rule.MatchString(s.text)
	}
	s.question = s.question || tagged.MatchString(s.text)
	s.doubtful = s.doubtful || bidding.MatchString(s.text) || doubting.MatchString(wontHold.ReplaceAllString(s.text, "does not $1"))
	s.denied = denying.MatchString(s.text)
	s.apart = apart.MatchString(strings.ToLower(s.raw))
}

// mayWrite reports whether a rule that changes the record may answer.
func (s *sentence) mayWrite(in *intent) bool {
	switch {
	case s.question || s.unfit:
		return false
	case in.words:
		return true
	case s.doubtful || s.apart && in.when:
		return false
	}
	return in.denials || !s.denied
}
