package process

import "heapside/calc/water"

// Params are the numbers of the model; each may differ from one member of an
// ensemble to the next. Rates are per day.
type Params struct {
	KFast, KSlow     float64 // degradation at 20 C, 1/d
	TMin, TOpt, TMax float64 // cardinal temperatures, C
	DryDensity       float64 // kg/m3 of an average mixture just turned
	Permeability     float64 // m2 at free air space 0.5 and a dry density of 110 kg/m3
	Closing          float64 // how far ln of permeability falls per 110 kg/m3 more of dry density
	VapourDiffusion  float64 // diffusivity of vapour relative to that of oxygen
	ConductSlope     float64 // W/mK per volumetric share of water
	TurnLoss         float64 // share of the heat above air lost by one turn
	Settle           float64 // 1/d, how fast looseness goes
	SettleMax        float64 // relative rise of dry density when settled
	Activity0        float64 // activity of fresh material, 0 to 1
	Growth           float64 // 1/d at 35 C
	ProbeShare       float64 // how far a thermometer reads from core towards mantle, 0 to 1
	FreeWater        float64 // kg per kg dry above which water drains
	Reflux           float64 // share of the chimney's excess vapour that condenses in the mantle
	SurfaceDrying    float64 // evaporation from the surface relative to ET0

	// What the materials turn out to be, against what their table says.
	FastShift       float64 // added to the fast share of degradable solids
	DegradableShift float64 // added to the degradable share of organic solids
	MoistureShift   float64 // added to the wet-basis moisture of what is put in
}

// Constants that are the same for every member.
const (
	heatPerO2    = 14.0                         // MJ/kg O2; 13.75 seen in public code after de Guardia 2012, 13.6-14.5 from memory
	o2PerLoss    = 1.25                         // kg O2 per kg degradable solids; mixtures 1.2-1.4 from their formula (computed)
	heatPerLoss  = heatPerO2 * o2PerLoss * 1000 // kJ per kg degradable solids; 17.5 MJ/kg seen, Cotera thesis code
	waterPerLoss = 0.55                         // kg water made per kg; cellulose 0.56 from its formula (computed)
	conduct0     = 0.05                         // W/mK of the dry matrix (own choice; straw and hay 0.03-0.30, Ahn et al. 2009, abstract seen)
	filmWm2K     = 10                           // surface film in light wind; 6-15 from memory
	groundWm2K   = 3                            // base to soil (own choice)
	o2Half       = 0.02                         // mole fraction; Haug 1993, formula seen in public code
	coreShare    = 0.5                          // of the mass (own choice)
	optBelowMax  = 17                           // C between TOpt and TMax (own choice); puts TOpt at 56 C, where 96 h of CO2 were highest (56-60 C, abstract seen, Suler & Finstein 1977 from memory)
)

// DefaultParams returns the medians.
func DefaultParams() Params {
	p := Params{
		Closing:       1,   // own choice; the form is that of garden waste, whose log permeability is linear in dry density (Waste Manag. Res. 2007, doi 10.1177/0734242X07077819, abstract seen)
		SettleMax:     0.6, // own choice
		Growth:        2.0, // own choice
		FreeWater:     water.DrainsAbove,
		Reflux:        0.5, // own choice
		SurfaceDrying: water.SurfaceShare,
	}
	for i := range priors {
		*priors[i].of(&p) = priors[i].median
	}
	p.TOpt = p.TMax - optBelowMax
	return p
}
