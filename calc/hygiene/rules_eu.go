package hygiene

import "time"

const (
	atBioAbfV = "Annex 2 no. 2.2.2.1, text of March 2022 before the amendment of 28.4.2022"
	atWales   = "Sch. 1 Part II para 1, https://legislation.gov.uk/wsi/2006/1293/schedule/1/part/II/made/data.xht?view=snippet&wrap=true"

	scopeGermany = "Leaves home, kitchen and allotment gardens out (s. 1(3) no. 1). The heat must reach all of the material."
	scopeWales   = "Written for approved plants that take catering waste. Meat kept out at source, or a second treatment."
)

// eachSystem: the text names no system.
const eachSystem = Turned | Static | Vessel

// The product of composting under the German rule may hold two germinable seeds
// in a litre (BioAbfV Annex 2 no. 4.3.2, seen).
const germanSeedsPerLitre = 2

var europeanRules = []Rule{
	{
		Code: "uk-windrow", Name: "the Welsh rule for catering waste in housed windrows",
		Source: "WSI 2006/1293", Locator: atWales, Seen: Read,
		Systems: Turned, Hold: Hold{C: 60, For: 8 * day}, Turns: 3, Apart: 2 * day, PieceMm: 400, Store: 18 * day,
		Scope: scopeWales,
	},
	{
		Code: "uk-reactor-60", Name: "the Welsh rule for catering waste in closed reactors",
		Source: "WSI 2006/1293", Locator: atWales, Seen: Read,
		Systems: Vessel, Hold: Hold{C: 60, For: 2 * day}, PieceMm: 400, Store: 18 * day,
		Scope: scopeWales,
	},
	{
		Code: "uk-reactor-70", Name: "the Welsh rule for catering waste in closed reactors",
		Source: "WSI 2006/1293", Locator: atWales, Seen: Read,
		Systems: Vessel, Hold: Hold{C: 70, For: time.Hour}, PieceMm: 60, Store: 18 * day,
		Scope: scopeWales,
	},
	{
		Code: "bioabfv-55", Name: "one of three German rules",
		Source: "BioAbfV", Locator: atBioAbfV, Seen: Read,
		Systems: eachSystem, Hold: Hold{C: 55, For: 14 * day}, MoistPct: 40, SeedsPerLitre: germanSeedsPerLitre, NotGardens: true,
		Scope: scopeGermany + " The two weeks are to be as unbroken as possible.",
	},
	{
		Code: "bioabfv-60", Name: "one of three German rules",
		Source: "BioAbfV", Locator: atBioAbfV, Seen: Read,
		Systems: eachSystem, Hold: Hold{C: 60, For: 6 * day}, MoistPct: 40, SeedsPerLitre: germanSeedsPerLitre, NotGardens: true,
		Scope: scopeGermany,
	},
	{
		Code: "bioabfv-65", Name: "one of three German rules",
		Source: "BioAbfV", Locator: atBioAbfV, Seen: Read,
		Systems: eachSystem, Hold: Hold{C: 65, For: 3 * day}, MoistPct: 40, SeedsPerLitre: germanSeedsPerLitre, NotGardens: true,
		Scope: scopeGermany,
	},
	{
		Code: "bioabfv-70", Name: "the German rule for pasteurising",
		Source: "BioAbfV", Locator: "Annex 2 no. 2.2.1.1", Seen: Read,
		Systems: Vessel, Hold: Hold{C: 70, For: time.Hour}, Unbroken: true, PieceMm: 12, SeedsPerLitre: germanSeedsPerLitre, NotGardens: true,
		Scope: scopeGermany,
	},
}
