package store

import bolt "go.etcd.io/bbolt"

// keyIntroduced is there in bucketAbout once the coach has been through the introduction.
var keyIntroduced = []byte("introduced")

// Introduced tells whether the coach has been through the introduction.
func (s *Store) Introduced() (is bool, err error) {
	err = s.view(func(tx *bolt.Tx) error {
		is = bucket(tx, bucketAbout).Get(keyIntroduced) != nil
		return nil
	})
	return is, err
}

// SetIntroduced keeps that the coach has been through the introduction, and returns when the disk has it. It is no record:
// neither an export nor a repaired store has it.
func (s *Store) SetIntroduced() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.guarded(func() error {
		if err := stillThere(s.held, s.path); err != nil {
			return errGone
		}
		if err := s.settle(); err != nil {
			return err
		}
		s.sure = false
		err := s.db.Update(func(tx *bolt.Tx) error {
			if err := bucket(tx, bucketAbout).Put(keyIntroduced, []byte{1}); err != nil {
				return err
			}
			return recount(tx)
		})
		s.sure = err == nil
		return s.worded(err)
	})
}
