package cutting

// A master is the linear programme of cutting: the least number of sheets, fractions allowed, over the patterns known
// so far. It keeps the inverse of its basis and takes patterns in one by one (revised simplex, Gilmore & Gomory 1961).
type master struct {
	need  []float64
	basis []basic
	inv   [][]float64
	x     []float64
}

// A basic is a column of the basis: a pattern, or the surplus of one item.
type basic struct {
	tree   *node
	counts []int
	copies int // items of a starting pattern that has no tree yet
	item   int // of the surplus or starting column
	price  float64
}

const tiny = 1e-9

// newMaster starts with one pattern for each item that holds fit[i] copies of it.
func newMaster(need, fit []int) *master {
	m := &master{}
	for i, n := range need {
		m.need = append(m.need, float64(n))
		m.basis = append(m.basis, basic{item: i, copies: fit[i], price: 1})
		row := make([]float64, len(need))
		row[i] = 1 / float64(fit[i])
		m.inv = append(m.inv, row)
		m.x = append(m.x, float64(n)/float64(fit[i]))
	}
	return m
}

// prices are the dual values: what one more of each item would cost in sheets.
func (m *master) prices() []float64 {
	y := make([]float64, len(m.need))
	for r, b := range m.basis {
		if b.price == 0 {
			continue
		}
		for i, v := range m.inv[r] {
			y[i] += float64(b.price * v)
		}
	}
	return y
}

// settle lets surplus columns in until no price is negative. It gives up after a number of steps.
func (m *master) settle() []float64 {
	for range 4*len(m.need) + 16 {
		y := m.prices()
		worst, at := -tiny, -1
		for i, v := range y {
			if v < worst {
				worst, at = v, i
			}
		}
		if at < 0 {
			return y
		}
		col := make([]float64, len(m.need))
		col[at] = -1
		if !m.enter(col, basic{item: at}) {
			break
		}
	}
	y := m.prices()
	for i := range y {
		y[i] = max(0, y[i])
	}
	return y
}

// pattern takes a pattern into the basis.
func (m *master) pattern(tree *node, counts []int) bool {
	col := make([]float64, len(m.need))
	for i, n := range counts {
		col[i] = float64(n)
	}
	return m.enter(col, basic{tree: tree, counts: counts, item: -1, price: 1})
}

func (m *master) enter(col []float64, b basic) bool {
	n := len(m.need)
	u := make([]float64, n)
	for r := range u {
		for i, c := range col {
			if c != 0 {
				u[r] += float64(m.inv[r][i] * c)
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
	m.basis[out] = b
	return true
}
