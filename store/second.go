package store

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"wetside/book"
)

// A Second is the second step of a keyholder's sign-in.
type Second struct {
	Person string
	Secret string   // base32, shared with an app
	Step   int64    // the last step of time whose code was taken
	Words  []string // of words that are good once, the hashes that HashedWord makes
	Made   time.Time
}

// HashedWord is what is kept of a word that is good once: random and long, so that nobody guesses it from its hash.
func HashedWord(word string) string { return hashed(word) }

// PutSecond keeps a second step in place of what was there of the same person.
func (tx *Tx) PutSecond(ctx context.Context, darkroom string, s *Second) error {
	if !book.ValidID(s.Person) || !validText(s.Secret) || s.Secret == "" {
		return &book.Error{Kind: book.BadInput, Key: "keyholder_bad", Cause: fmt.Errorf("the second step of %q", s.Person)}
	}
	words, err := json.Marshal(append([]string{}, s.Words...))
	if err != nil {
		return err
	}
	return tx.exec(ctx, `INSERT INTO seconds (darkroom, person, secret, step, words, made_at) VALUES (?, ?, ?, ?, ?, ?)
		ON CONFLICT (darkroom, person) DO UPDATE SET secret = excluded.secret, step = excluded.step, words = excluded.words, made_at = excluded.made_at`,
		darkroom, s.Person, s.Secret, s.Step, string(words), s.Made.UnixMicro())
}

// Second returns the second step of a person; an error of kind NotFound where there is none.
func (tx *Tx) Second(ctx context.Context, darkroom, person string) (s Second, err error) {
	var made int64
	var words string
	err = tx.row(ctx, `SELECT person, secret, step, words, made_at FROM seconds WHERE darkroom = ? AND person = ?`, darkroom, person).
		Scan(&s.Person, &s.Secret, &s.Step, &words, &made)
	if err != nil {
		return s, tx.missing(err, "second_not_found")
	}
	s.Made = time.UnixMicro(made).UTC()
	if err := json.Unmarshal([]byte(words), &s.Words); err != nil {
		return s, damaged(err)
	}
	return s, nil
}

// AnySecond reports whether somebody of a darkroom has a second step.
func (tx *Tx) AnySecond(ctx context.Context, darkroom string) (some bool, err error) {
	err = tx.row(ctx, `SELECT EXISTS (SELECT 1 FROM seconds WHERE darkroom = ?)`, darkroom).Scan(&some)
	return some, tx.store.dialect.fail(err)
}

// DropSecond takes the second step of a person away.
func (tx *Tx) DropSecond(ctx context.Context, darkroom, person string) error {
	return tx.exec(ctx, `DELETE FROM seconds WHERE darkroom = ? AND person = ?`, darkroom, person)
}
