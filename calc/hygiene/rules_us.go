package hygiene

import "time"

const (
	atPart257  = "https://ecfr.io/Title-40/Part-257/Appendix-II"
	atTexas    = "30 Tex. Admin. Code 332.23(2), https://texreg.sos.state.tx.us/public/readtac$ext.TacPage?sl=R&app=9&p_dir=&p_rloc=&p_tloc=&p_ploc=&pg=1&p_tac=&ti=30&pt=1&ch=332&rl=23"
	atGuidance = "guidance on PFRP, http://www.cloacina.org/index.php?/safety/"
	atOMRI     = "generic list, compost in vessels and aerated piles, omri.org"
)

const scopeSludge = "Written for works that compost sewage sludge; of gardens it says nothing."

// The US rules carry one federal text (40 CFR 503 App. B, itself not seen) over.
// Where it says only "days", a guidance wording asks for consecutive ones: both
// readings are kept.
var americanRules = []Rule{
	{
		Code: "pfrp-windrow", Name: "the US rule for turned heaps",
		Source: "40 CFR 257 App. II", Locator: "B; also " + atTexas + "; " + atPart257, Seen: Read,
		Systems: Turned, Hold: Hold{C: 55, For: 15 * day}, Turns: 5,
		Scope: scopeSludge,
	},
	{
		Code: "pfrp-windrow-row", Name: "US guidance on the rule for turned heaps",
		Source: "as quoted at cloacina.org", Locator: atGuidance, Seen: SecondHand,
		Systems: Turned, Hold: Hold{C: 55, For: 15 * day}, Turns: 5, Unbroken: true, StrictOf: "pfrp-windrow",
		Scope: scopeSludge,
	},
	{
		Code: "pfrp-static", Name: "the US rule for vessels and aerated piles",
		Source: "40 CFR 257 App. II", Locator: "B; also " + atTexas + "; " + atPart257, Seen: Read,
		Systems: Static | Vessel, Hold: Hold{C: 55, For: 3 * day},
		Scope: scopeSludge,
	},
	{
		Code: "pfrp-static-row", Name: "US guidance on the rule for vessels and aerated piles",
		Source: "as quoted at cloacina.org", Locator: atGuidance, Seen: SecondHand,
		Systems: Static | Vessel, Hold: Hold{C: 55, For: 3 * day}, Unbroken: true, StrictOf: "pfrp-static",
		Scope: scopeSludge,
	},
	{
		Code: "nop-windrow", Name: "the US organic rule for turned heaps",
		Source: "7 CFR 205.203(c)(2)", Locator: "as quoted at http://www.suite101.com/article.cfm/simple_homesteading/64231", Seen: SecondHand,
		Systems: Turned, Hold: Hold{C: celsius(131), MostC: celsius(170), For: 15 * day}, Turns: 5, StartCN: [2]float64{25, 40},
		Scope: "Written for certified organic farms.",
	},
	{
		Code: "nop-static", Name: "the US organic rule for vessels and aerated piles",
		Source: "7 CFR 205.203(c)(2)", Locator: atOMRI, Seen: SecondHand,
		Systems: Static | Vessel, Hold: Hold{C: celsius(131), MostC: celsius(170), For: 3 * day}, StartCN: [2]float64{25, 40},
		Scope: "Written for certified organic farms.",
	},
	{
		Code: "psrp", Name: "the lesser US rule",
		Source: "40 CFR 257 App. II", Locator: "A; " + atPart257, Seen: Read,
		Systems: Turned | Static | Vessel, Hold: Hold{C: 40, For: 5 * day}, Peak: Hold{C: 55, Above: true, For: 4 * time.Hour}, Lesser: true,
		Scope: "Made to reduce germs, not to bring them below detection. " + scopeSludge,
	},
	{
		Code: "psrp-row", Name: "the lesser rule as Massachusetts has it",
		Source: "310 CMR 32.80", Locator: "(4), casetext.com", Seen: Read,
		Systems: Turned | Static | Vessel, Hold: Hold{C: 40, For: 5 * day}, Peak: Hold{C: 55, For: 4 * time.Hour}, Unbroken: true, Lesser: true, StrictOf: "psrp",
		Scope: "Made to reduce germs, not to bring them below detection. " + scopeSludge,
	},
}
