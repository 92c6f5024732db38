package standing

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"underlay/drills/board"
)

// effortModel tells what a stroke on a layer takes this user once it is
// settled, slips included, from its effort and the key that is pressed last:
//
//	ln ms = c0 + c1 (effort - 2) + c2 ln((1+tries)/(1+settled)) + key
//
// fitted to the user's own strokes on layers by Bayesian linear regression:
// strokes weigh by how well they are known, and c0..c2 begin at what the skill
// model presumes. The keys' own terms are what is left over, drawn towards 0.
type effortModel struct {
	coef [3]float64
	cov  *mat.SymDense
	key  map[board.Position]keyTerm
}

// keyTerm is what a key takes beyond its effort, in ln ms.
type keyTerm struct{ mean, variance float64 }

const (
	settledTries = 200 // a settled stroke has been met so often
	fitNeeded    = 10  // strokes on layers that are known well enough
	leftOver     = .04 // variance of ln ms between strokes of equal effort; own simulations
	ofKey        = .02 // part of it that belongs to the key
)

// prior of the coefficients: mean and standard deviation.
func effortPrior() (mean, sd [3]float64) {
	return [3]float64{math.Log(600), .12, -.12}, [3]float64{1, .12, .06}
}

// point is one stroke as the fit sees it.
type point struct {
	x           [3]float64
	y, variance float64
	position    board.Position
}

// fitEffort fits the user's strokes on layers, or says what is missing. own is
// what they take by themselves, in ms, by id.
func (w *work) fitEffort(own []float64) (*effortModel, string) {
	var points []point
	for id, st := range w.in.Strokes {
		l := w.in.Model.Level(id, w.at[0])
		if st.Board != 0 || st.Retired || st.Keys.Layer == w.in.Boards[0].Layers()[0] || w.timed(id) < triesForMS {
			continue
		}
		e := w.expect(id)
		points = append(points, point{x: effortTerms(st.Keys.Effort, float64(l.Tries)), y: math.Log(own[id]),
			variance: leftOver + e.SD*e.SD/(e.total()*e.total()), position: st.Keys.Final().Position})
	}
	if len(points) < fitNeeded {
		return nil, more(fitNeeded-len(points), "stroke", "on layers", "has", "have") + " to be met ten times"
	}
	m := regress(points)
	m.keys(points)
	return m, ""
}

func effortTerms(effort, tries float64) [3]float64 {
	return [3]float64{1, effort - 2, math.Log((1 + tries) / (1 + settledTries))}
}

// regress returns the posterior of the coefficients.
func regress(points []point) *effortModel {
	mean, sd := effortPrior()
	precision := mat.NewSymDense(3, nil)
	sum := mat.NewVecDense(3, nil)
	for i := range 3 {
		precision.SetSym(i, i, 1/(sd[i]*sd[i]))
		sum.SetVec(i, mean[i]/(sd[i]*sd[i]))
	}
	for _, p := range points {
		x := mat.NewVecDense(3, p.x[:])
		precision.SymRankOne(precision, 1/p.variance, x)
		sum.AddScaledVec(sum, p.y/p.variance, x)
	}
	var chol mat.Cholesky
	chol.Factorize(precision) // the prior keeps it positive definite
	m := &effortModel{cov: mat.NewSymDense(3, nil), key: map[board.Position]keyTerm{}}
	if err := chol.InverseTo(m.cov); err != nil { // ill-conditioned is still the best there is
		return m
	}
	var coef mat.VecDense
	coef.MulVec(m.cov, sum)
	copy(m.coef[:], coef.RawVector().Data)
	return m
}

// keys draws what is left over at a key towards 0.
func (m *effortModel) keys(points []point) {
	precision, sum := map[board.Position]float64{}, map[board.Position]float64{}
	for _, p := range points {
		precision[p.position] += 1 / (p.variance - ofKey)
		sum[p.position] += (p.y - m.plain(p.x)) / (p.variance - ofKey)
	}
	for at, n := range precision {
		m.key[at] = keyTerm{sum[at] / (n + 1/ofKey), 1 / (n + 1/ofKey)}
	}
}

func (m *effortModel) plain(x [3]float64) float64 {
	return m.coef[0]*x[0] + m.coef[1]*x[1] + m.coef[2]*x[2]
}

func (m *effortModel) term(p board.Position) keyTerm {
	if t, ok := m.key[p]; ok {
		return t
	}
	return keyTerm{0, ofKey}
}

// settled is what a stroke takes in ms once it is settled.
func (m *effortModel) settled(effort float64, p board.Position) float64 {
	return math.Exp(m.plain(effortTerms(effort, settledTries)) + m.term(p).mean)
}

// change sums up how the time of some strokes changes, with what it depends on.
type change struct {
	model *effortModel
	ms    float64
	grad  [3]float64
	key   map[board.Position]float64
}

// add adds times ms of a stroke of the given effort at p.
func (c *change) add(times, effort float64, p board.Position) {
	ms := times * c.model.settled(effort, p)
	c.ms += ms
	for i, x := range effortTerms(effort, settledTries) {
		c.grad[i] += ms * x
	}
	if c.key == nil {
		c.key = map[board.Position]float64{}
	}
	c.key[p] += ms
}

// sum is the change with its range.
func (c *change) sum() Range {
	g := mat.NewVecDense(3, slices.Clone(c.grad[:]))
	variance := mat.Inner(g, c.model.cov, g)
	for p, ms := range c.key {
		variance += ms * ms * c.model.term(p).variance
	}
	return around(c.ms, math.Sqrt(variance))
}
