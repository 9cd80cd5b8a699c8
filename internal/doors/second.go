package doors

import (
	"context"
	"slices"

	"wetside/access"
	"wetside/book"
	"wetside/store"
)

// takeCode takes a code, or a recovery word, of whoever has a second step: each once. The error is access.ErrWrong. Whoever has none needs none.
func (d *Doors) takeCode(ctx context.Context, tx *store.Tx, person, code string) error {
	if _, err := tx.Head(ctx, d.Room); err != nil { // one at a time, on whatever machine: no code is taken twice
		return err
	}
	s, err := tx.Second(ctx, d.Room, person)
	if err != nil {
		return unlessMissing(err)
	}
	if step, ok := access.FindCode(s.Secret, code, d.Now(), s.Step); ok {
		s.Step = step
		return tx.PutSecond(ctx, d.Room, &s)
	}
	word := access.PlainRecovery(code)
	i := slices.Index(s.Words, store.HashedWord(word))
	if word == "" || i < 0 {
		return access.ErrWrong
	}
	s.Words = slices.Delete(s.Words, i, i+1)
	return tx.PutSecond(ctx, d.Room, &s)
}

// AnySecond reports whether any keyholder has a second step.
func (d *Doors) AnySecond(ctx context.Context) (some bool, err error) {
	err = d.Store.Read(ctx, func(tx *store.Tx) error {
		some, err = tx.AnySecond(ctx, d.Room)
		return err
	})
	return some, err
}

// Second returns how many recovery words whoever asks has left; ok is false where they have no second step.
func (d *Doors) Second(ctx context.Context, who access.Who) (left int, ok bool, err error) {
	var s store.Second
	err = d.Store.Read(ctx, func(tx *store.Tx) error {
		s, err = tx.Second(ctx, d.Room, who.Person)
		return err
	})
	if book.KindOf(err) == book.NotFound {
		return 0, false, nil
	}
	return len(s.Words), err == nil, err
}

// MakeSecond gives whoever asks a second step in place of the one they had: from then on each sign-in asks for a code of the secret. It takes
// their passphrase and a code, which proves that their app has the secret, and returns the recovery words, which are kept as hashes and can't
// be shown again. Errors are those of SignIn, and access.ErrCode for a wrong code.
func (d *Doors) MakeSecond(ctx context.Context, who access.Who, passphrase, secret, code, address string) (words []string, err error) {
	if !access.ValidSecret(secret) {
		return nil, &book.Error{Kind: book.BadInput, Key: "bad_form"}
	}
	if err := d.Prove(ctx, who, passphrase, address); err != nil {
		return nil, err
	}
	step, ok := access.FindCode(secret, code, d.Now(), 0)
	if !ok {
		return nil, access.ErrCode
	}
	s := store.Second{Person: who.Person, Secret: secret, Step: step, Made: d.Now()}
	for range access.RecoveryWords {
		word := access.NewRecovery()
		words = append(words, word)
		s.Words = append(s.Words, store.HashedWord(access.PlainRecovery(word)))
	}
	return words, d.Store.Write(ctx, func(tx *store.Tx) error { return tx.PutSecond(ctx, d.Room, &s) })
}

// DropSecond takes the second step of whoever asks away, by their passphrase. Errors are those of SignIn.
func (d *Doors) DropSecond(ctx context.Context, who access.Who, passphrase, address string) error {
	if err := d.Prove(ctx, who, passphrase, address); err != nil {
		return err
	}
	return d.Store.Write(ctx, func(tx *store.Tx) error { return tx.DropSecond(ctx, d.Room, who.Person) })
}
