package store_test

import (
	"os"
	"strconv"

	"wetside/store"
)

// dieAt returns what kills this process after so many statements of a change of the schema; nil for none.
func dieAt(statement string) func(store.Change) {
	at, err := strconv.Atoi(statement)
	if err != nil {
		return nil
	}
	n := 0
	return func(store.Change) {
		if n++; n == at {
			p, err := os.FindProcess(os.Getpid())
			if err == nil {
				_ = p.Kill()
			}
			select {} // until it is dead
		}
	}
}
