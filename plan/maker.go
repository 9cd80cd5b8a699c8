package plan

import (
	"wetside/darkroom"
	"wetside/darkroom/hazards"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// A maker holds a plan in the making.
type maker struct {
	r    Request
	file darkroom.File
	plan Plan
	// product of each bath of plan.Baths, nil for water.
	products []*darkroom.Product
	taken    map[string]bool // trays and tanks in use
	// left is what is still free of each lot while baths draw on it, in the order of mixing.
	left []quantity.Volume
	// loadBaths says, for each load, which bath serves which step.
	loadBaths []map[process.Step]int
	counts    map[string]counted // by bath, once asked for
	judge     *hazards.Judge
	solved    map[solved]measure.Result
}

func newMaker(r Request) *maker {
	m := &maker{r: r, file: r.File, taken: map[string]bool{}, judge: hazards.NewJudge(r.File), solved: map[solved]measure.Result{}}
	m.plan.Name = r.File.Darkroom.Name
	m.plan.System = r.system()
	m.plan.Starts = r.Now
	if start, said := r.File.Session.Start(r.Now.Location()); said {
		m.plan.Starts = start
	}
	m.left = make([]quantity.Volume, len(r.File.Shelf.Lots))
	for i, l := range r.File.Shelf.Lots {
		m.left[i] = content(l, m.product(l.Product))
	}
	return m
}

// content returns what a lot holds now, as far as it is known.
func content(l darkroom.Lot, p *darkroom.Product) quantity.Volume {
	switch {
	case l.Left.Given():
		return l.Left.Value
	case l.LeftUnknown:
		return 0
	case l.Packets > 0 && p != nil:
		return p.Makes.Value.Times(l.Packets)
	case l.Opened.Given() && !l.Stock:
		return 0
	}
	return l.Holds.Value
}

// unknown reports whether nobody knows how much a lot holds.
func unknown(l darkroom.Lot) bool {
	return l.LeftUnknown || (!l.Left.Given() && (l.Opened.Given() || !l.Holds.Given()) && l.Packets == 0 && !l.Stock)
}

func (m *maker) product(name string) *darkroom.Product {
	for i := range m.file.Shelf.Products {
		if m.file.Shelf.Products[i].Name == name {
			return &m.file.Shelf.Products[i]
		}
	}
	return nil
}

func (m *maker) find(f Finding)   { m.plan.Findings = append(m.plan.Findings, f) }
func (m *maker) lack(x Missing)   { m.plan.Missing = append(m.plan.Missing, x) }
func (m *maker) bath(i int) *Bath { return &m.plan.Baths[i] }

// add puts a bath into the plan and returns its index.
func (m *maker) add(b Bath, p *darkroom.Product) int {
	m.plan.Baths = append(m.plan.Baths, b)
	m.products = append(m.products, p)
	return len(m.plan.Baths) - 1
}
