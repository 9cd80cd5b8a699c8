package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"strings"
	"unicode/utf8"

	"wetside/book"
)

// People returns the erasable record of a darkroom.
func (tx *Tx) People(ctx context.Context, darkroom string) (book.People, error) {
	all := book.People{}
	err := tx.each(ctx, func(rows *sql.Rows) error {
		var p book.Person
		var notes string
		if err := rows.Scan(&p.ID, &p.Name, &notes); err != nil {
			return err
		}
		if err := json.Unmarshal([]byte(notes), &p.Notes); err != nil {
			return damaged(err)
		}
		all[p.ID] = p
		return nil
	}, askPeople, darkroom)
	return all, err
}

// PutPerson keeps a name and notes in place of what was there.
func (tx *Tx) PutPerson(ctx context.Context, darkroom string, p book.Person) error {
	if !book.ValidID(p.ID) || !validText(p.Name) {
		return &book.Error{Kind: book.BadInput, Key: "person_bad", Cause: fmt.Errorf("person %q", p.ID)}
	}
	if p.Notes == nil {
		p.Notes = []string{}
	}
	notes, err := json.Marshal(p.Notes)
	if err != nil {
		return err
	}
	if _, err := tx.Head(ctx, darkroom); err != nil {
		return err
	}
	return tx.exec(ctx, `INSERT INTO people (darkroom, id, name, notes) VALUES (?, ?, ?, ?)
		ON CONFLICT (darkroom, id) DO UPDATE SET name = excluded.name, notes = excluded.notes`,
		darkroom, p.ID, p.Name, string(notes))
}

// NotePerson keeps notes of somebody in place of those before, which are overwritten in the files, too. The error is of kind NotFound
// where no name is kept under that id.
func (s *Store) NotePerson(ctx context.Context, darkroomID, id string, notes []string) error {
	err := s.Write(ctx, func(tx *Tx) error {
		all, err := tx.People(ctx, darkroomID)
		if err != nil {
			return err
		}
		p, known := all[id]
		if !known {
			return &book.Error{Kind: book.NotFound, Key: "no_person", Cause: fmt.Errorf("person %q", id)}
		}
		p.Notes = notes
		return tx.PutPerson(ctx, darkroomID, p)
	})
	if err != nil {
		return err
	}
	return s.dialect.fail(s.dialect.forget(ctx, s.writer, "people"))
}

// validText accepts UTF-8 without NUL, which not every engine keeps.
func validText(s string) bool { return utf8.ValidString(s) && !strings.ContainsRune(s, 0) }

// erasePerson forgets a name and notes, and whatever let them in. The entries keep the id.
func (tx *Tx) erasePerson(ctx context.Context, darkroom, id string) error {
	if err := tx.WithdrawKeyholder(ctx, darkroom, id); err != nil {
		return err
	}
	if err := tx.exec(ctx, `DELETE FROM guests WHERE darkroom = ? AND person = ?`, darkroom, id); err != nil {
		return err
	}
	return tx.exec(ctx, `DELETE FROM people WHERE darkroom = ? AND id = ?`, darkroom, id)
}
