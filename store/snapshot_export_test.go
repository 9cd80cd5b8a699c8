package store

import "context"

// RawSnapshot returns the bytes of a darkroom's snapshot.
func (s *Store) RawSnapshot(ctx context.Context, darkroom string) (rests []byte, err error) {
	err = s.Read(ctx, func(tx *Tx) error {
		return tx.row(ctx, `SELECT rests FROM snapshots WHERE darkroom = ?`, darkroom).Scan(&rests)
	})
	return rests, err
}

// PutRawSnapshot puts other bytes into a darkroom's snapshot.
func (s *Store) PutRawSnapshot(ctx context.Context, darkroom string, rests []byte) error {
	return s.Write(ctx, func(tx *Tx) error {
		return tx.exec(ctx, `UPDATE snapshots SET rests = ? WHERE darkroom = ?`, rests, darkroom)
	})
}
