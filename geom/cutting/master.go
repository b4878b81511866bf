package cutting

// A master is the linear programme of cutting: the least cost of patterns, fractions allowed, over those taken in so
// far. It keeps the inverse of its basis (revised simplex, Gilmore & Gomory 1961). Its first rows are the items, each
// wanted need times at least, the others are bins of limited number.
type master struct {
	items int
	limit []int // row of each bin, −1 where its number has no limit
	basis []column
	inv   [][]float64
	x     []float64
}

// A column of the basis is a pattern, or the slack of a row.
type column struct {
	*pattern
	cost float64
}

const tiny = 1e-9

// newMaster starts with one pattern for each item, of that item alone. Costs are in units.
func newMaster(bins []bin, left, need []int, alone []*pattern, unit float64) *master {
	m := &master{items: len(need)}
	for i, n := range need {
		if n == 0 {
			m.add(column{}, -1, 0)
		} else {
			m.add(column{alone[i], float64(alone[i].cost) / unit}, float64(alone[i].counts[i]), float64(n))
		}
	}
	for b, bin := range bins {
		m.limit = append(m.limit, -1)
		if bin.n > 0 {
			m.limit[b] = len(m.basis)
			m.add(column{}, 1, float64(left[b]))
		}
	}
	return m
}

// add appends a row and the column that is its basis.
func (m *master) add(c column, pivot, need float64) {
	n := len(m.basis)
	for r := range m.inv {
		m.inv[r] = append(m.inv[r], 0)
	}
	m.inv = append(m.inv, make([]float64, n+1))
	m.inv[n][n] = 1 / pivot
	m.basis, m.x = append(m.basis, c), append(m.x, need/pivot)
}

// value is the cost.
func (m *master) value() float64 {
	sum := 0.0
	for r, b := range m.basis {
		sum += float64(b.cost * m.x[r])
	}
	return sum
}

// prices are the dual values: what one more of each item would cost, then, not above zero, what one more sheet of a
// limited bin would. Slacks enter until all have their signs.
func (m *master) prices() []float64 {
	y := make([]float64, len(m.basis))
	for range 4*len(m.basis) + 16 {
		clear(y)
		for r, b := range m.basis {
			if b.cost != 0 {
				for i, v := range m.inv[r] {
					y[i] += float64(b.cost * v)
				}
			}
		}
		worst, at, sign := tiny, -1, 0.0
		for i, v := range y {
			s := m.sign(i)
			if v*s > worst {
				worst, at, sign = v*s, i, s
			}
		}
		if at < 0 {
			break
		}
		col := make([]float64, len(m.basis))
		col[at] = sign
		if !m.enter(col, column{}) {
			break
		}
	}
	for i := range y {
		if y[i]*m.sign(i) > 0 {
			y[i] = 0
		}
	}
	return y
}

// sign is that of a row's slack.
func (m *master) sign(row int) float64 {
	if row < m.items {
		return -1
	}
	return 1
}

// gain is what a pattern is worth at the prices, above its cost.
func (m *master) gain(p *pattern, y []float64, unit float64) float64 {
	v := -float64(p.cost) / unit
	for i, n := range p.counts {
		if n > 0 {
			v += float64(y[i] * float64(n))
		}
	}
	if r := m.limit[p.bin]; r >= 0 {
		v += y[r]
	}
	return v
}

// take lets a pattern in.
func (m *master) take(p *pattern, unit float64) bool {
	col := make([]float64, len(m.basis))
	for i, n := range p.counts {
		col[i] = float64(n)
	}
	if r := m.limit[p.bin]; r >= 0 {
		col[r] = 1
	}
	return m.enter(col, column{p, float64(p.cost) / unit})
}

// enter brings a column into the basis; false when no row limits it.
func (m *master) enter(col []float64, c column) bool {
	u := make([]float64, len(m.basis))
	for r := range u {
		for i, v := range col {
			if v != 0 {
				u[r] += float64(m.inv[r][i] * v)
			}
		}
	}
	out, least := -1, 0.0
	for r := range u {
		if u[r] > 1e-7 {
			if q := m.x[r] / u[r]; out < 0 || q < least-tiny {
				out, least = r, q
			}
		}
	}
	if out < 0 {
		return false
	}
	pivot := u[out]
	for i := range m.inv[out] {
		m.inv[out][i] /= pivot
	}
	m.x[out] /= pivot
	for r := range u {
		if r == out || u[r] == 0 {
			continue
		}
		for i := range m.inv[r] {
			m.inv[r][i] -= float64(u[r] * m.inv[out][i])
		}
		m.x[r] = max(0, m.x[r]-float64(u[r]*m.x[out]))
	}
	m.basis[out] = c
	return true
}
