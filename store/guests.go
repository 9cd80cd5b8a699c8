package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"

	"wetside/book"
)

// A Guest is somebody who joined an evening with a device.
type Guest struct {
	Session string // the evening's id
	Person  string // an id
}

// PutInvitation keeps the code by which an evening is joined. An evening keeps its first: it hangs on the wall.
func (tx *Tx) PutInvitation(ctx context.Context, darkroom, session, code string) error {
	if !book.ValidID(session) || !book.ValidID(code) {
		return &book.Error{Kind: book.BadInput, Key: "invitation_bad", Cause: fmt.Errorf("session %q", session)}
	}
	if _, err := tx.Head(ctx, darkroom); err != nil {
		return err
	}
	return tx.exec(ctx, `INSERT INTO invitations (darkroom, session, code) VALUES (?, ?, ?)
		ON CONFLICT (darkroom, session) DO NOTHING`, darkroom, session, code)
}

// Invitation returns the code by which an evening is joined; an error of kind NotFound where it is not shared.
func (tx *Tx) Invitation(ctx context.Context, darkroom, session string) (code string, err error) {
	err = tx.row(ctx, `SELECT code FROM invitations WHERE darkroom = ? AND session = ?`, darkroom, session).Scan(&code)
	return code, tx.missing(err, "invitation_not_found")
}

// Invited returns the evening that a code is for; an error of kind NotFound where there is none.
func (tx *Tx) Invited(ctx context.Context, darkroom, code string) (session string, err error) {
	err = tx.row(ctx, `SELECT session FROM invitations WHERE darkroom = ? AND code = ?`, darkroom, code).Scan(&session)
	return session, tx.missing(err, "invitation_not_found")
}

// PutGuest keeps who joined with a device. Of the token that the device keeps its hash alone is kept here.
func (tx *Tx) PutGuest(ctx context.Context, darkroom, token string, g Guest) error {
	if token == "" || !book.ValidID(g.Session) || !book.ValidID(g.Person) {
		return &book.Error{Kind: book.BadInput, Key: "guest_bad", Cause: fmt.Errorf("person %q", g.Person)}
	}
	return tx.exec(ctx, `INSERT INTO guests (darkroom, token, session, person) VALUES (?, ?, ?, ?)`,
		darkroom, hashed(token), g.Session, g.Person)
}

// Guest returns who joined with the device that keeps a token; an error of kind NotFound where nobody did.
func (tx *Tx) Guest(ctx context.Context, darkroom, token string) (g Guest, err error) {
	err = tx.row(ctx, askGuest, darkroom, hashed(token)).
		Scan(&g.Session, &g.Person)
	return g, tx.missing(err, "guest_not_found")
}

// LeaveEvening ends what somebody joined an evening with.
func (tx *Tx) LeaveEvening(ctx context.Context, darkroom string, g Guest) error {
	return tx.exec(ctx, `DELETE FROM guests WHERE darkroom = ? AND session = ? AND person = ?`, darkroom, g.Session, g.Person)
}

// missing makes an error of kind NotFound of a row that is not there.
func (tx *Tx) missing(err error, key string) error {
	if errors.Is(err, sql.ErrNoRows) {
		return &book.Error{Kind: book.NotFound, Key: key, Cause: err}
	}
	return tx.store.dialect.fail(err)
}

// hashed is enough for what is random and long: nobody guesses it from its hash.
func hashed(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}
