package hygiene

import "time"

const notSeen = "from memory, text not seen"

const (
	scopeEU     = "Written for compost sold as a fertilising product; all parts of the batch, turned regularly."
	scopeCanada = "For compost sold or given away (actiumresources.com). Ontario's own standard leaves backyard and on-farm heaps out (ontario.ca, seen)."
	scopeFarms  = "Written for farms that grow produce eaten raw; curing must follow."
)

// rememberedRules are rules whose text was not seen. They are compared, since
// people ask for them by name, and never named first.
var rememberedRules = []Rule{
	{
		Code: "pas100", Name: "the UK specification PAS 100",
		Source: "PAS 100", Locator: notSeen, Seen: FromMemory,
		Systems: Turned, Hold: Hold{C: 65, For: 7 * day}, Turns: 2, MoistPct: 51,
		Scope: "Written for certified composting works. The days need not be in a row.",
	},
	{
		Code: "cmc3-70", Name: "one of four EU rules", Source: "Regulation (EU) 2019/1009 Annex II CMC 3", Locator: notSeen, Seen: FromMemory,
		Systems: eachSystem, Hold: Hold{C: 70, For: 3 * day}, Scope: scopeEU,
	},
	{
		Code: "cmc3-65", Name: "one of four EU rules", Source: "Regulation (EU) 2019/1009 Annex II CMC 3", Locator: notSeen, Seen: FromMemory,
		Systems: eachSystem, Hold: Hold{C: 65, For: 5 * day}, Scope: scopeEU,
	},
	{
		Code: "cmc3-60", Name: "one of four EU rules", Source: "Regulation (EU) 2019/1009 Annex II CMC 3", Locator: notSeen, Seen: FromMemory,
		Systems: eachSystem, Hold: Hold{C: 60, For: 7 * day}, Scope: scopeEU,
	},
	{
		Code: "cmc3-55", Name: "one of four EU rules", Source: "Regulation (EU) 2019/1009 Annex II CMC 3", Locator: notSeen, Seen: FromMemory,
		Systems: eachSystem, Hold: Hold{C: 55, For: 14 * day}, Scope: scopeEU,
	},
	{
		Code: "abp-reactor", Name: "the EU rule for animal by-products in reactors",
		Source: "Regulation (EU) 142/2011 Annex V", Locator: "ch. III from memory; the same figures for biogas plants in ch. I s. 1 were seen", Seen: FromMemory,
		Systems: Vessel, Hold: Hold{C: 70, For: time.Hour}, Unbroken: true, PieceMm: 12,
		Scope: "Written for approved plants.",
	},
	{
		Code: "as4454", Name: "the Australian standard", Source: "AS 4454-2012", Locator: notSeen, Seen: FromMemory,
		Systems: Turned, Hold: Hold{C: 55, For: 3 * day}, Unbroken: true, Turns: 3,
		Scope: "For garden waste. All of the material must be hot.",
	},
	{
		Code: "as4454-rich", Name: "the Australian standard for manure and food", Source: "AS 4454-2012", Locator: notSeen, Seen: FromMemory,
		Systems: Turned, Hold: Hold{C: 55, For: 15 * day}, Turns: 5,
		Scope: "For manure, food and other feed of higher risk.",
	},
	{
		Code: "ccme-windrow", Name: "the Canadian guideline for turned heaps", Source: "CCME 2005", Locator: notSeen, Seen: FromMemory,
		Systems: Turned, Hold: Hold{C: 55, For: 15 * day}, Unbroken: true, Turns: 5, NotGardens: true, Scope: scopeCanada,
	},
	{
		Code: "ccme-static", Name: "the Canadian guideline for aerated piles", Source: "CCME 2005", Locator: notSeen, Seen: FromMemory,
		Systems: Static, Hold: Hold{C: 55, For: 3 * day}, NotGardens: true, Scope: scopeCanada,
	},
	{
		Code: "ccme-vessel", Name: "the Canadian guideline for vessels", Source: "CCME 2005", Locator: notSeen, Seen: FromMemory,
		Systems: Vessel, Hold: Hold{C: 55, For: 3 * day}, Unbroken: true, NotGardens: true, Scope: scopeCanada,
	},
	{
		Code: "produce-turned", Name: "the US produce rule for turned heaps", Source: "21 CFR 112.54(b)", Locator: notSeen, Seen: FromMemory,
		Systems: Turned, Hold: Hold{C: celsius(131), For: 15 * day}, Turns: 5,
		Scope: scopeFarms + " The days need not be in a row.",
	},
	{
		Code: "produce-static", Name: "the US produce rule for heaps at rest", Source: "21 CFR 112.54(b)", Locator: notSeen, Seen: FromMemory,
		Systems: Static, Hold: Hold{C: celsius(131), For: 3 * day}, Unbroken: true, Scope: scopeFarms,
	},
}
