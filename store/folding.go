package store

import "wetside/book"

// handful is how many entries are handed over to be folded at a time.
const handful = 256

// A folding folds what is read on a second core: reading a long book takes about as long as folding it. A book that is only moved
// on by a little is folded where it is read.
type folding struct {
	apply  func(book.Entry) error
	hand   []book.Entry
	handed chan []book.Entry // nil until the first handful
	ended  chan error        // holds what the folding came to
}

// add takes the next entry. The error is that of an entry before it.
func (f *folding) add(e book.Entry) error {
	f.hand = append(f.hand, e)
	if len(f.hand) < handful {
		return nil
	}
	if f.handed == nil {
		f.handed, f.ended = make(chan []book.Entry, 8), make(chan error, 1)
		go f.fold()
	}
	hand := f.hand
	f.hand = make([]book.Entry, 0, handful)
	select {
	case f.handed <- hand:
		return nil
	case err := <-f.ended: // it ends before the last only where it fails
		f.ended <- err
		return err
	}
}

func (f *folding) fold() {
	for hand := range f.handed {
		if err := f.all(hand); err != nil {
			f.ended <- err
			return
		}
	}
	f.ended <- nil
}

func (f *folding) all(hand []book.Entry) error {
	for i := range hand {
		if err := f.apply(hand[i]); err != nil {
			return err
		}
	}
	return nil
}

// end waits for all that was added. It is called in any case.
func (f *folding) end() error {
	if f.handed == nil {
		return f.all(f.hand)
	}
	select {
	case f.handed <- f.hand:
	case err := <-f.ended:
		return err
	}
	close(f.handed)
	return <-f.ended
}
