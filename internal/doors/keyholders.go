package doors

import (
	"context"

	"wetside/access"
	"wetside/book"
	"wetside/store"
)

// MakeFirst makes the first keyholder and signs them in. Where other machines reach the server it asks for the one-time word,
// which ends with it; the error is access.ErrWrong or an *access.LimitedError. It is access.ErrKept where there is a keyholder
// by now. phrase is what access.Passphrase made.
func (d *Doors) MakeFirst(ctx context.Context, word, name, phrase, address string) (token string, err error) {
	if d.Outside {
		if err := d.knowsWord(word, address); err != nil {
			return "", err
		}
	}
	hash, err := d.hash(ctx, phrase)
	if err != nil {
		return "", err
	}
	token = access.Token()
	err = d.Store.Write(ctx, func(tx *store.Tx) error {
		if kept, err := tx.Kept(ctx, d.Room); err != nil || kept {
			return errKeptUnless(err)
		}
		person, err := d.put(ctx, tx, name, hash)
		if err != nil {
			return err
		}
		return tx.PutKey(ctx, d.Room, token, d.signedIn(person))
	})
	if err != nil {
		return "", err
	}
	d.spend()
	return token, nil
}

func errKeptUnless(err error) error {
	if err != nil {
		return err
	}
	return access.ErrKept
}

func (d *Doors) knowsWord(word, address string) error {
	const one = "\x00the one-time word" // no name
	if wait := d.limits.take(one, address); wait > 0 {
		return &access.LimitedError{Wait: wait}
	}
	if !d.fits(word) {
		return access.ErrWrong
	}
	d.limits.give(one, address)
	return nil
}

// hash makes of a new passphrase what is kept; the error is access.ErrStolen for one that was stolen elsewhere.
func (d *Doors) hash(ctx context.Context, phrase string) (string, error) {
	stolen, err := d.Stolen.Has(phrase)
	if err != nil {
		return "", err
	}
	if stolen {
		return "", access.ErrStolen
	}
	return d.hasher.Hash(ctx, phrase)
}

// MakeKeyholder makes another keyholder; the error is of kind Conflict where somebody signs in by that name.
func (d *Doors) MakeKeyholder(ctx context.Context, name, phrase string) error {
	hash, err := d.hash(ctx, phrase)
	if err != nil {
		return err
	}
	return d.Store.Write(ctx, func(tx *store.Tx) error {
		_, err := d.put(ctx, tx, name, hash)
		return err
	})
}

// put keeps a keyholder and their name.
func (d *Doors) put(ctx context.Context, tx *store.Tx, name, hash string) (person string, err error) {
	person = d.NewID()
	if err := tx.PutPerson(ctx, d.Room, book.Person{ID: person, Name: name}); err != nil {
		return "", err
	}
	return person, tx.PutKeyholder(ctx, d.Room, store.Keyholder{Person: person, Signs: access.Signs(name), Passphrase: hash, Made: d.Now()})
}

// A Keyholder is somebody who keeps the darkroom.
type Keyholder = access.KeyholderMade

// Keyholders returns who keeps the darkroom, by when they were made.
func (d *Doors) Keyholders(ctx context.Context) (all []Keyholder, err error) {
	found, err := d.keyholders(ctx)
	if err != nil {
		return nil, err
	}
	people, err := d.Store.People(ctx, d.Room)
	for _, k := range found {
		all = append(all, Keyholder{Person: k.Person, Name: people[k.Person].Name, Made: k.Made})
	}
	return all, err
}

// WithdrawKeyholder takes away who keeps the darkroom, with all that they are signed in with and their scripts. The last one
// stays, unless last says that it may go: the darkroom is a home again. The error is access.ErrLast.
func (d *Doors) WithdrawKeyholder(ctx context.Context, person string, last bool) error {
	return d.Store.Write(ctx, func(tx *store.Tx) error {
		all, err := tx.Keyholders(ctx, d.Room)
		if err != nil {
			return err
		}
		if len(all) == 1 && all[0].Person == person && !last {
			return access.ErrLast
		}
		return tx.WithdrawKeyholder(ctx, d.Room, person)
	})
}

// NewPassphrase gives a keyholder a new passphrase without asking for the old: from the machine itself. All that they are
// signed in with ends, and so does their second step, which may be lost with it. The error is of kind NotFound where nobody signs in by that name.
func (d *Doors) NewPassphrase(ctx context.Context, name, phrase string) error {
	hash, err := d.hash(ctx, phrase)
	if err != nil {
		return err
	}
	return d.Store.Write(ctx, func(tx *store.Tx) error {
		k, err := tx.KeyholderCalled(ctx, d.Room, access.Signs(name))
		if err != nil {
			return err
		}
		k.Passphrase = hash
		if err := tx.DropSecond(ctx, d.Room, k.Person); err != nil {
			return err
		}
		return d.renew(ctx, tx, k, "")
	})
}

// called returns the person who signs in by a name.
func (d *Doors) called(ctx context.Context, name string) (person string, err error) {
	err = d.Store.Read(ctx, func(tx *store.Tx) error {
		k, err := tx.KeyholderCalled(ctx, d.Room, access.Signs(name))
		person = k.Person
		return err
	})
	return person, err
}

// WithdrawCalled is WithdrawKeyholder by name; the error is of kind NotFound where nobody signs in by it.
func (d *Doors) WithdrawCalled(ctx context.Context, name string, last bool) error {
	person, err := d.called(ctx, name)
	if err != nil {
		return err
	}
	return d.WithdrawKeyholder(ctx, person, last)
}
