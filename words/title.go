package words

import "wetside/plan"

// BathTitle names a bath of a plan as a heading: "Developer", "First fixer".
func (v *Voice) BathTitle(b plan.Bath) string { return sentence(v.Bath(b)) }
