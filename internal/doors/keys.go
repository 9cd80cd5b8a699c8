package doors

import (
	"context"
	"time"

	"wetside/access"
	"wetside/book"
	"wetside/store"
)

// MakeKey makes a key of a role. A wall and a sink are nobody's; a member's is of a person whose name it keeps; a keyholder's is a script, in the
// name of whoever makes it. It ends after lasts; 0: not by itself.
func (d *Doors) MakeKey(ctx context.Context, who access.Who, role access.Role, name string, lasts time.Duration) (made access.KeyMade, err error) {
	made.Token = access.Token()
	return made, d.Store.Write(ctx, func(tx *store.Tx) error {
		k := d.device(who, role, name)
		if made.ID = k.ID; lasts > 0 {
			k.Ends = k.Made.Add(lasts)
		}
		switch role {
		case access.Member:
			k.Person = d.NewID()
			if err := tx.PutPerson(ctx, d.Room, book.Person{ID: k.Person, Name: name}); err != nil {
				return err
			}
			k.Name = "" // it stands with the person, and goes with them
		case access.Keyholder:
			k.Sort, k.Person = access.Script, who.Person
		case access.Wall, access.Sink:
		case access.Stranger, access.Joined:
			return &book.Error{Kind: book.BadInput, Key: "key_bad"}
		}
		return tx.PutKey(ctx, d.Room, made.Token, k)
	})
}

func (d *Doors) device(who access.Who, role access.Role, name string) store.Key {
	now := d.Now()
	return store.Key{ID: d.NewID(), Sort: access.Device, Role: role.String(), Name: name, MadeBy: who.Person, Made: now, Seen: now}
}

// Become makes the device of whoever asks a wall or a sink of the room: it gets a key of its own, and the sign-in there ends.
func (d *Doors) Become(ctx context.Context, who access.Who, role access.Role, name string) (token string, err error) {
	token = access.Token()
	return token, d.Store.Write(ctx, func(tx *store.Tx) error {
		if role != access.Wall && role != access.Sink {
			return &book.Error{Kind: book.BadInput, Key: "key_bad"}
		}
		if err := d.signOut(ctx, tx, who.Key); err != nil {
			return err
		}
		return tx.PutKey(ctx, d.Room, token, d.device(who, role, name))
	})
}

// Take finds what a token that was typed in at a device is for; false where it is for nothing that a device keeps. Tries from an
// address are limited: the error is an *access.LimitedError.
func (d *Doors) Take(ctx context.Context, token, address string) (role access.Role, ok bool, err error) {
	if wait := d.limits.address.Take(address); wait > 0 {
		return 0, false, &access.LimitedError{Wait: wait}
	}
	var k store.Key
	err = d.Store.Read(ctx, func(tx *store.Tx) error {
		k, err = tx.Key(ctx, d.Room, token)
		return err
	})
	if err != nil {
		return 0, false, unlessMissing(err)
	}
	role, ok = access.RoleOf(k.Role)
	if ok = ok && k.Sort == access.Device && !k.Over(d.Now()); ok {
		d.limits.address.Give(address)
	}
	return role, ok, nil
}

func unlessMissing(err error) error {
	if book.KindOf(err) == book.NotFound {
		return nil
	}
	return err
}

// Keys returns the keys that hold, devices first.
func (d *Doors) Keys(ctx context.Context) (all []access.Key, err error) {
	var found []store.Key
	err = d.Store.Read(ctx, func(tx *store.Tx) error {
		found, err = tx.Keys(ctx, d.Room)
		return err
	})
	now := d.Now()
	for _, k := range found {
		if role, ok := access.RoleOf(k.Role); ok && !k.Over(now) {
			all = append(all, access.Key{
				ID: k.ID, Sort: k.Sort, Role: role, Person: k.Person, Name: k.Name, MadeBy: k.MadeBy, Made: k.Made, Seen: k.Seen, Ends: k.Ends,
			})
		}
	}
	return all, err
}

// Withdraw takes a key away. Whoever shows it is a stranger from the next request on.
func (d *Doors) Withdraw(ctx context.Context, id string) error {
	return d.Store.Write(ctx, func(tx *store.Tx) error { return tx.WithdrawKey(ctx, d.Room, id) })
}
