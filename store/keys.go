package store

import (
	"context"
	"database/sql"
	"fmt"
	"time"

	"wetside/book"
)

// A Key is what a device, a script or a sign-in shows to come in. Of its token the SHA-256 alone is kept.
type Key struct {
	ID     string
	Sort   string // signin, device, script
	Role   string
	Person string // whose it is; empty for a device of the room
	Name   string // what the device is called
	MadeBy string // a person
	Made   time.Time
	Seen   time.Time     // the last time that it was used, to the minutes
	Ends   time.Time     // zero: never
	Idle   time.Duration // it ends when it was not used for so long; 0: never
}

// Over reports whether a key has ended at a moment.
func (k *Key) Over(now time.Time) bool {
	return !k.Ends.IsZero() && !now.Before(k.Ends) || k.Idle > 0 && now.Sub(k.Seen) >= k.Idle
}

const keyColumns = `id, sort, role, person, name, made_by, made_at, seen_at, ends_at, idle`

// PutKey keeps a key under the SHA-256 of its token.
func (tx *Tx) PutKey(ctx context.Context, darkroom, token string, k Key) error {
	if token == "" || !book.ValidID(k.ID) || !validText(k.Name) || k.Sort == "" || k.Role == "" {
		return &book.Error{Kind: book.BadInput, Key: "key_bad", Cause: fmt.Errorf("key %q", k.ID)}
	}
	if _, err := tx.Head(ctx, darkroom); err != nil {
		return err
	}
	return tx.exec(ctx, `INSERT INTO keys (darkroom, token, `+keyColumns+`) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		darkroom, hashed(token), k.ID, k.Sort, k.Role, k.Person, k.Name, k.MadeBy,
		k.Made.UnixMicro(), k.Seen.UnixMicro(), microsOrNone(k.Ends), k.Idle.Microseconds())
}

// Key returns the key of a token, whether or not it has ended; an error of kind NotFound where there is none.
func (tx *Tx) Key(ctx context.Context, darkroom, token string) (k Key, err error) {
	err = scanKey(tx.row(ctx, askKey, darkroom, hashed(token)).Scan, &k)
	return k, tx.missing(err, "key_not_found")
}

// Keys returns the keys of a darkroom, those of devices and scripts first, oldest first.
func (tx *Tx) Keys(ctx context.Context, darkroom string) (all []Key, err error) {
	err = tx.each(ctx, func(rows *sql.Rows) error {
		var k Key
		if err := scanKey(rows.Scan, &k); err != nil {
			return err
		}
		all = append(all, k)
		return nil
	}, `SELECT `+keyColumns+` FROM keys WHERE darkroom = ? ORDER BY sort, made_at, id`, darkroom)
	return all, err
}

func scanKey(scan func(...any) error, k *Key) error {
	var made, seen, ends, idle int64
	if err := scan(&k.ID, &k.Sort, &k.Role, &k.Person, &k.Name, &k.MadeBy, &made, &seen, &ends, &idle); err != nil {
		return err
	}
	k.Made, k.Seen, k.Idle = time.UnixMicro(made).UTC(), time.UnixMicro(seen).UTC(), time.Duration(idle)*time.Microsecond
	if ends != 0 {
		k.Ends = time.UnixMicro(ends).UTC()
	}
	return nil
}

func microsOrNone(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMicro()
}

// SeeKey keeps when a key was last used.
func (tx *Tx) SeeKey(ctx context.Context, darkroom, id string, at time.Time) error {
	return tx.exec(ctx, `UPDATE keys SET seen_at = ? WHERE darkroom = ? AND id = ? AND seen_at < ?`, at.UnixMicro(), darkroom, id, at.UnixMicro())
}

// WithdrawKey takes a key away; one that is not there is as good as taken.
func (tx *Tx) WithdrawKey(ctx context.Context, darkroom, id string) error {
	return tx.exec(ctx, `DELETE FROM keys WHERE darkroom = ? AND id = ?`, darkroom, id)
}

// LeaveKey takes a key away that its device leaves: a sign-in, or one of the room's. Somebody's own, and a script's, stays.
func (tx *Tx) LeaveKey(ctx context.Context, darkroom, id string) error {
	return tx.exec(ctx, `DELETE FROM keys WHERE darkroom = ? AND id = ? AND (sort = 'signin' OR sort = 'device' AND person = '')`, darkroom, id)
}

// WithdrawSignIns ends all that a person is signed in with.
func (tx *Tx) WithdrawSignIns(ctx context.Context, darkroom, person string) error {
	return tx.exec(ctx, `DELETE FROM keys WHERE darkroom = ? AND person = ? AND sort = 'signin'`, darkroom, person)
}

// WithdrawEnded takes away keys that have ended, of whatever sort: one that never ends stays.
func (tx *Tx) WithdrawEnded(ctx context.Context, darkroom string) error {
	now := tx.now.UnixMicro()
	return tx.exec(ctx, `DELETE FROM keys WHERE darkroom = ? AND (ends_at > 0 AND ends_at <= ? OR idle > 0 AND seen_at + idle <= ?)`, darkroom, now, now)
}

// A Keyholder is somebody who keeps the darkroom.
type Keyholder struct {
	Person     string
	Signs      string // the name at the door, made even
	Passphrase string // its hash, with what it was made with
	Made       time.Time
}

// PutKeyholder keeps a keyholder, in place of what was there of the same person. The error is of kind Conflict where
// somebody else signs in by that name.
func (tx *Tx) PutKeyholder(ctx context.Context, darkroom string, k Keyholder) error {
	if !book.ValidID(k.Person) || !validText(k.Signs) || k.Signs == "" || k.Passphrase == "" {
		return &book.Error{Kind: book.BadInput, Key: "keyholder_bad", Cause: fmt.Errorf("person %q", k.Person)}
	}
	was, err := tx.KeyholderCalled(ctx, darkroom, k.Signs)
	switch {
	case err == nil && was.Person != k.Person:
		return &book.Error{Kind: book.Conflict, Key: "keyholder_name_taken"}
	case err != nil && book.KindOf(err) != book.NotFound:
		return err
	}
	return tx.exec(ctx, `INSERT INTO keyholders (darkroom, person, signs, passphrase, made_at) VALUES (?, ?, ?, ?, ?)
		ON CONFLICT (darkroom, person) DO UPDATE SET signs = excluded.signs, passphrase = excluded.passphrase`,
		darkroom, k.Person, k.Signs, k.Passphrase, k.Made.UnixMicro())
}

// Keyholders returns who keeps a darkroom, by when they were made.
func (tx *Tx) Keyholders(ctx context.Context, darkroom string) (all []Keyholder, err error) {
	err = tx.each(ctx, func(rows *sql.Rows) error {
		var k Keyholder
		if err := scanKeyholder(rows.Scan, &k); err != nil {
			return err
		}
		all = append(all, k)
		return nil
	}, `SELECT person, signs, passphrase, made_at FROM keyholders WHERE darkroom = ? ORDER BY made_at, person`, darkroom)
	return all, err
}

// KeyholderCalled returns who signs in by a name; an error of kind NotFound where nobody does.
func (tx *Tx) KeyholderCalled(ctx context.Context, darkroom, signs string) (k Keyholder, err error) {
	err = scanKeyholder(tx.row(ctx, `SELECT person, signs, passphrase, made_at FROM keyholders WHERE darkroom = ? AND signs = ?`, darkroom, signs).Scan, &k)
	return k, tx.missing(err, "keyholder_not_found")
}

// Kept reports whether a darkroom has a keyholder.
func (tx *Tx) Kept(ctx context.Context, darkroom string) (kept bool, err error) {
	err = tx.row(ctx, askKept, darkroom).Scan(&kept)
	return kept, tx.store.dialect.fail(err)
}

func scanKeyholder(scan func(...any) error, k *Keyholder) error {
	var made int64
	if err := scan(&k.Person, &k.Signs, &k.Passphrase, &made); err != nil {
		return err
	}
	k.Made = time.UnixMicro(made).UTC()
	return nil
}

// WithdrawKeyholder takes away who keeps a darkroom, with all keys that are theirs. Their name stays.
func (tx *Tx) WithdrawKeyholder(ctx context.Context, darkroom, person string) error {
	if err := tx.exec(ctx, `DELETE FROM keyholders WHERE darkroom = ? AND person = ?`, darkroom, person); err != nil {
		return err
	}
	if err := tx.DropSecond(ctx, darkroom, person); err != nil {
		return err
	}
	return tx.exec(ctx, `DELETE FROM keys WHERE darkroom = ? AND person = ?`, darkroom, person)
}
