package words

import "wetside/trade/process"

// UsedBath names what is collected in a waste can: used fixer, used toner.
func (v *Voice) UsedBath(r process.Role) string {
	return plain(v.say("waste.used", args{"Role": v.Role(r)}))
}
