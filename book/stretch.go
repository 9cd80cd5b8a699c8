package book

// apart is how many entries that nobody wants are read along rather than that a read begins anew.
const apart = 32

// stretches parts rising positions into such as are read in one go, and calls do with the first and the last of each.
type stretches struct {
	do       func(from, to int64) error
	from, to int64 // the one that grows; 0: none yet
}

func (s *stretches) add(at int64) error {
	if s.from > 0 && at-s.to > apart {
		if err := s.end(); err != nil {
			return err
		}
		s.from = 0
	}
	if s.from == 0 {
		s.from = at
	}
	s.to = at
	return nil
}

// end calls do with the last.
func (s *stretches) end() error {
	if s.from == 0 {
		return nil
	}
	return s.do(s.from, s.to)
}
