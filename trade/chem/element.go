package chem

// An element is its symbol and its standard atomic weight, g/mol.
type element struct {
	symbol string
	weight float64
}

// elements are the standard atomic weights of IUPAC: Coplen, Pure Appl. Chem. 73 (2001) 667, with the changes of
// 2001 (Loss, Pure Appl. Chem. 75 (2003) 1107), as python3-periodictable 1.6.0 holds them too. Later tables print
// intervals for some elements; the abridged values of 2021 are within 2e-5 of these for all that a
// darkroom weighs, selenium (2e-4) apart. Never written to.
var elements = [...]element{
	{"H", 1.00794},
	{"Li", 6.941},
	{"B", 10.811},
	{"C", 12.0107},
	{"N", 14.0067},
	{"O", 15.9994},
	{"F", 18.9984032},
	{"Na", 22.98977},
	{"Mg", 24.305},
	{"Al", 26.981538},
	{"Si", 28.0855},
	{"P", 30.973761},
	{"S", 32.065},
	{"Cl", 35.453},
	{"K", 39.0983},
	{"Ca", 40.078},
	{"Ti", 47.867},
	{"V", 50.9415},
	{"Cr", 51.9961},
	{"Mn", 54.938049},
	{"Fe", 55.845},
	{"Co", 58.9332},
	{"Ni", 58.6934},
	{"Cu", 63.546},
	{"Zn", 65.409},
	{"Se", 78.96},
	{"Br", 79.904},
	{"Mo", 95.94},
	{"Ag", 107.8682},
	{"Cd", 112.411},
	{"Sn", 118.71},
	{"Te", 127.6},
	{"I", 126.90447},
	{"Ba", 137.327},
	{"Ce", 140.116},
	{"W", 183.84},
	{"Pt", 195.078},
	{"Au", 196.96655},
	{"Hg", 200.59},
	{"Pb", 207.2},
	{"U", 238.02891},
}

// elementNamed returns the place of a symbol in elements, or −1.
func elementNamed(symbol string) int {
	for i, e := range elements {
		if e.symbol == symbol {
			return i
		}
	}
	return -1
}
