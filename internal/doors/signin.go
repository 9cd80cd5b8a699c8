package doors

import (
	"context"

	"wetside/access"
	"wetside/book"
	"wetside/store"
)

// SignIn lets a keyholder in by name, passphrase and, where they have a second step, its code or a recovery word, from an address, and returns
// a new token; the sign-in that the device had before (with the key was, empty for none) ends. The error is access.ErrWrong, the same for a name
// that nobody has and for a wrong code, an *access.LimitedError, or access.ErrBusy.
func (d *Doors) SignIn(ctx context.Context, name, passphrase, code, address, was string) (token string, err error) {
	signs := access.Signs(name)
	k, err := d.checks(ctx, signs, passphrase, address)
	if err != nil {
		return "", err
	}
	token = access.Token()
	err = d.Store.Write(ctx, func(tx *store.Tx) error {
		// Whoever was withdrawn while they typed stays out.
		if now, err := tx.KeyholderCalled(ctx, d.Room, signs); err != nil || now.Passphrase != k.Passphrase {
			return wrongUnless(err)
		}
		if err := d.takeCode(ctx, tx, k.Person, code); err != nil {
			return err
		}
		if err := tx.WithdrawEnded(ctx, d.Room); err != nil {
			return err
		}
		if err := d.signOut(ctx, tx, was); err != nil {
			return err
		}
		return tx.PutKey(ctx, d.Room, token, d.signedIn(k.Person))
	})
	if err != nil {
		return "", err
	}
	d.limits.give(signs, address)
	return token, nil
}

// signedIn is the key of a new sign-in.
func (d *Doors) signedIn(person string) store.Key {
	now := d.Now()
	return store.Key{
		ID: d.NewID(), Sort: access.SignIn, Role: access.Keyholder.String(), Person: person, MadeBy: person,
		Made: now, Seen: now, Ends: now.Add(access.SignInMost), Idle: access.SignInIdle,
	}
}

// proves returns the keyholder whose passphrase it is.
func (d *Doors) proves(ctx context.Context, signs, passphrase, address string) (k store.Keyholder, err error) {
	if k, err = d.checks(ctx, signs, passphrase, address); err == nil {
		d.limits.give(signs, address)
	}
	return k, err
}

// checks is proves for what is not all that is asked: the try is not given back. An unknown name takes as long as a wrong passphrase.
func (d *Doors) checks(ctx context.Context, signs, passphrase, address string) (k store.Keyholder, err error) {
	if wait := d.limits.take(signs, address); wait > 0 {
		return k, &access.LimitedError{Wait: wait}
	}
	err = d.Store.Read(ctx, func(tx *store.Tx) error {
		k, err = tx.KeyholderCalled(ctx, d.Room, signs)
		return err
	})
	if err != nil && book.KindOf(err) != book.NotFound {
		return k, err
	}
	fits, err := d.hasher.Fits(ctx, access.Typed(passphrase), k.Passphrase)
	switch {
	case err != nil:
		return k, err
	case !fits:
		return k, access.ErrWrong
	}
	return k, nil
}

func wrongUnless(err error) error {
	if err == nil || book.KindOf(err) == book.NotFound {
		return access.ErrWrong
	}
	return err
}

// signOut ends what a device showed until now: a sign-in, or the room's own key.
func (d *Doors) signOut(ctx context.Context, tx *store.Tx, key string) error {
	if key == "" {
		return nil
	}
	return tx.LeaveKey(ctx, d.Room, key)
}

// SignOut ends what this device shows: a sign-in, the room's own key, a member's, or what somebody joined with.
func (d *Doors) SignOut(ctx context.Context, who access.Who) error {
	return d.Store.Write(ctx, func(tx *store.Tx) error {
		if who.Role == access.Member {
			return tx.WithdrawKey(ctx, d.Room, who.Key)
		}
		if who.Role == access.Joined {
			return tx.LeaveEvening(ctx, d.Room, store.Guest{Session: who.Session, Person: who.Person})
		}
		return d.signOut(ctx, tx, who.Key)
	})
}

// Prove asks whoever is signed in for their passphrase once more. Errors are those of SignIn.
func (d *Doors) Prove(ctx context.Context, who access.Who, passphrase, address string) error {
	k, err := d.keyholder(ctx, who.Person)
	if err != nil {
		return err
	}
	_, err = d.proves(ctx, k.Signs, passphrase, address)
	return err
}

// SignOutAll ends all sign-ins of whoever asks, this one too.
func (d *Doors) SignOutAll(ctx context.Context, who access.Who) error {
	return d.Store.Write(ctx, func(tx *store.Tx) error { return tx.WithdrawSignIns(ctx, d.Room, who.Person) })
}

// ChangePassphrase gives whoever asks a new passphrase, where the old one is right; their other sign-ins end, and this one
// goes on under a new token. fresh is what access.Passphrase made of it. Errors are those of SignIn.
func (d *Doors) ChangePassphrase(ctx context.Context, who access.Who, old, fresh, address string) (token string, err error) {
	k, err := d.keyholder(ctx, who.Person)
	if err != nil {
		return "", err
	}
	if _, err := d.proves(ctx, k.Signs, old, address); err != nil {
		return "", err
	}
	was := k.Passphrase
	if k.Passphrase, err = d.hash(ctx, fresh); err != nil {
		return "", err
	}
	token = access.Token()
	return token, d.Store.Write(ctx, func(tx *store.Tx) error {
		if now, err := tx.KeyholderCalled(ctx, d.Room, k.Signs); err != nil || now.Passphrase != was {
			return wrongUnless(err)
		}
		return d.renew(ctx, tx, k, token)
	})
}

// renew keeps a new passphrase and ends all sign-ins but one, which it begins; an empty token begins none.
func (d *Doors) renew(ctx context.Context, tx *store.Tx, k store.Keyholder, token string) error {
	if err := tx.PutKeyholder(ctx, d.Room, k); err != nil {
		return err
	}
	if err := tx.WithdrawSignIns(ctx, d.Room, k.Person); err != nil || token == "" {
		return err
	}
	return tx.PutKey(ctx, d.Room, token, d.signedIn(k.Person))
}

func (d *Doors) keyholder(ctx context.Context, person string) (k store.Keyholder, err error) {
	all, err := d.keyholders(ctx)
	for _, x := range all {
		if x.Person == person {
			return x, nil
		}
	}
	if err == nil {
		err = &book.Error{Kind: book.NotFound, Key: "keyholder_not_found"}
	}
	return k, err
}

func (d *Doors) keyholders(ctx context.Context) (all []store.Keyholder, err error) {
	err = d.Store.Read(ctx, func(tx *store.Tx) error {
		all, err = tx.Keyholders(ctx, d.Room)
		return err
	})
	return all, err
}
