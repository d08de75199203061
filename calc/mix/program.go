package mix

// The linear program of one set of additions. Poured water is not an unknown
// of it: for given solids the least water that reaches the moisture's low end
// is max(0, need), need being linear in the amounts, and more water than that
// helps no constraint and costs effort. That leaves at most three unknowns,
// few enough to look at every vertex, which is exact.

// maxAdditions is how many materials a recipe may add beside water.
const maxAdditions = 3

// rowCount is how many inequalities hold a blend inside its limits.
const rowCount = 7

// column is what a blend contributes to each inequality, to the water needed
// and to the effort. All are linear, so columns add as blends do.
type column struct {
	rows   [rowCount]float64
	need   float64 // kg of water that reach the moisture's low end
	effort float64
}

// column writes the limits of C:N, moisture, density and air as sums that must
// not be negative; density and air without and with the needed water.
func (l limits) column(b Blend, effort float64) column {
	need := l.need(b)
	light := l.kgPerL*b.VolumeL - b.MassKg()
	open := l.fill*b.VolumeL - b.filledL()
	return column{
		rows: [rowCount]float64{
			b.CarbonKg - l.cnLow*b.NitrogenKg,
			l.cnHigh*b.NitrogenKg - b.CarbonKg,
			l.wetHigh*b.MassKg() - b.WaterKg,
			light, light - need,
			open, open - need/waterDensity,
		},
		need:   need,
		effort: effort,
	}
}

// need is the kg of water that bring b to the moisture's low end; negative when
// it is wetter.
func (l limits) need(b Blend) float64 { return (l.wetLow*b.MassKg() - b.WaterKg) / (1 - l.wetLow) }

// plane is p[0] + p[1] x1 + p[2] x2 + p[3] x3.
type plane [1 + maxAdditions]float64

// program is the blend to mend, up to three columns per litre to add, and the
// most litres of each.
type program struct {
	base column
	cols [maxAdditions]*column
	caps [maxAdditions]float64
	n    int

	planes [rowCount + 2*maxAdditions + 1]plane
	bounds int // how many of planes must not be negative
	all    int // with the plane of need = 0, where the effort bends
}

// epsilon is the slack of a plane scaled to its largest coefficient. The chosen
// amounts are checked again as blends after rounding.
const epsilon = 1e-10

// solve returns the litres of each column that meet every row with the least
// effort, and false when no amounts do.
func (p *program) solve() (litres [maxAdditions]float64, ok bool) {
	if !p.build() {
		return litres, false
	}
	best := 0.0
	try := func(x [maxAdditions]float64) {
		for i := range p.bounds {
			if p.planes[i].at(x) < -epsilon {
				return
			}
		}
		if e := p.effort(x); !ok || e < best {
			litres, best, ok = x, e, true
		}
	}
	switch p.n {
	case 0:
		try(litres)
	case 1:
		p.eachPoint(try)
	case 2:
		p.eachCrossing(try)
	default:
		p.eachCorner(try)
	}
	return litres, ok
}

// build fills the planes. It is false when a row fails whatever is added, and
// leaves out the rows that hold whatever is added.
func (p *program) build() bool {
	p.bounds = 0
	for r := range rowCount {
		pl := plane{p.base.rows[r]}
		for i := range p.n {
			pl[1+i] = p.cols[i].rows[r]
		}
		scale, lowest := pl.scale(p.n)
		switch {
		case pl[0] >= 0 && lowest >= 0:
			continue
		case pl[0] < -epsilon && scale <= 0:
			return false
		}
		p.push(pl.over(max(scale, -lowest)))
	}
	for i := range p.n {
		share, most := plane{}, plane{p.caps[i]}
		for j := range p.n {
			share[1+j] = -minShare
		}
		share[1+i]++
		most[1+i] = -1
		p.push(share)
		p.push(most)
	}
	p.all = p.bounds
	bend := plane{p.base.need}
	for i := range p.n {
		bend[1+i] = p.cols[i].need
	}
	if high, low := bend.scale(p.n); max(high, -low) > 0 {
		p.planes[p.all] = bend.over(max(high, -low))
		p.all++
	}
	return true
}

func (p *program) push(pl plane) {
	p.planes[p.bounds] = pl
	p.bounds++
}

// scale is the largest and the smallest coefficient of the n unknowns.
func (pl plane) scale(n int) (high, low float64) {
	for i := range n {
		high, low = max(high, pl[1+i]), min(low, pl[1+i])
	}
	return high, low
}

func (pl plane) over(k float64) plane {
	if k <= 0 {
		return pl
	}
	return plane{pl[0] / k, pl[1] / k, pl[2] / k, pl[3] / k}
}

func (pl *plane) at(x [maxAdditions]float64) float64 {
	return pl[0] + pl[1]*x[0] + pl[2]*x[1] + pl[3]*x[2]
}

func (p *program) effort(x [maxAdditions]float64) float64 {
	effort, need := 0.0, p.base.need
	for i := range p.n {
		effort += x[i] * p.cols[i].effort
		need += x[i] * p.cols[i].need
	}
	return effort + max(0, need)*waterEffort
}

// parallel is the determinant of scaled planes below which they do not meet.
const parallel = 1e-12

func (p *program) eachPoint(try func([maxAdditions]float64)) {
	for i := range p.all {
		if a := p.planes[i][1]; a > parallel || a < -parallel {
			try([maxAdditions]float64{-p.planes[i][0] / a})
		}
	}
}

func (p *program) eachCrossing(try func([maxAdditions]float64)) {
	for i := range p.all {
		a := &p.planes[i]
		for j := i + 1; j < p.all; j++ {
			b := &p.planes[j]
			det := a[1]*b[2] - a[2]*b[1]
			if det < parallel && det > -parallel {
				continue
			}
			x, y := (a[2]*b[0]-a[0]*b[2])/det, (a[0]*b[1]-a[1]*b[0])/det
			if x >= -epsilon && y >= -epsilon {
				try([maxAdditions]float64{x, y})
			}
		}
	}
}

func (p *program) eachCorner(try func([maxAdditions]float64)) {
	for i := range p.all {
		for j := i + 1; j < p.all; j++ {
			a, b := &p.planes[i], &p.planes[j]
			// The line where a and b meet runs along their cross product.
			c1, c2, c3 := a[2]*b[3]-a[3]*b[2], a[3]*b[1]-a[1]*b[3], a[1]*b[2]-a[2]*b[1]
			for k := j + 1; k < p.all; k++ {
				c := &p.planes[k]
				det := c[1]*c1 + c[2]*c2 + c[3]*c3
				if det < parallel && det > -parallel {
					continue
				}
				x := -(a[0]*(b[2]*c[3]-b[3]*c[2]) + b[0]*(c[2]*a[3]-c[3]*a[2]) + c[0]*c1) / det
				y := -(a[0]*(b[3]*c[1]-b[1]*c[3]) + b[0]*(c[3]*a[1]-c[1]*a[3]) + c[0]*c2) / det
				z := -(a[0]*(b[1]*c[2]-b[2]*c[1]) + b[0]*(c[1]*a[2]-c[2]*a[1]) + c[0]*c3) / det
				if x >= -epsilon && y >= -epsilon && z >= -epsilon {
					try([maxAdditions]float64{x, y, z})
				}
			}
		}
	}
}
