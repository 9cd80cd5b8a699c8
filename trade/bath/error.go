package bath

import "fmt"

// ErrorKind says what is wrong with what was asked.
type ErrorKind string

// The kinds of errors.
const (
	NoSuchBath  ErrorKind = "no_such_bath"  // an index that names no bath
	NoVolume    ErrorKind = "no_volume"     // a bath of nothing, or less
	BadAmount   ErrorKind = "bad_amount"    // less than nothing, or no number
	NoMaterial  ErrorKind = "no_material"   // a sheet of nothing that the trade knows
	NoTitration ErrorKind = "no_titration"  // a pH asked of a bath whose acid is not known
	TwiceInPath ErrorKind = "twice_in_path" // a sheet that goes through one bath twice
)

// An Error says what is wrong and where: the number of the step, or -1 where it is not in one; the bath's index.
type Error struct {
	Kind ErrorKind
	Step int
	Bath int
}

// Error returns the kind and the place, for a log.
func (e *Error) Error() string {
	return fmt.Sprintf("bath: %s (step %d, bath %d)", e.Kind, e.Step, e.Bath)
}
