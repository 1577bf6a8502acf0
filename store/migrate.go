package store

import (
	"encoding/binary"
	"fmt"

	bolt "go.etcd.io/bbolt"
)

// migrations lead from one version of the schema to the next: the first from version 1 to 2. A migration finds what its
// version wrote and leaves what the next one reads; all of them run in one transaction, after a copy of the file was made.
// One that was released is never changed again.
var migrations = []func(*bolt.Tx) error{listOpen}

// listOpen makes the list of the open sessions, which version 2 begins with.
func listOpen(tx *bolt.Tx) error {
	if _, err := tx.CreateBucket(bucketOpen); err != nil {
		return err
	}
	return fillOpen(tx)
}

// fillOpen puts every session that is open on the list of them, which is empty.
func fillOpen(tx *bolt.Tx) error {
	return each(bucket(tx, bucketSessions), nil, func(k, v []byte) error {
		head, err := decodeSessionHead(k, v)
		if err != nil || !head.open {
			return bad(err, "session %s", k)
		}
		return putOpen(tx, k, true)
	})
}

// schema is a version of the schema with the way to it.
type schema struct {
	version    uint32
	migrations []func(*bolt.Tx) error
}

// migrate brings an older store to this program's schema. The file as it was is kept beside it before, under the name
// that beforeName gives, unless the store is a copy itself.
func (s *Store) migrate(o Options) error {
	to := schema{schemaVersion, migrations}
	if o.schema != nil {
		to = *o.schema
	}
	var from uint32
	if err := s.read(func(tx *bolt.Tx) error { from = versionIn(tx); return nil }); err != nil {
		return err
	}
	if from >= to.version {
		return nil
	}
	if !o.isCopy {
		if err := s.copyBefore(from); err != nil {
			return fmt.Errorf("the store %s is of version %d and has to be copied before it becomes %d: %w",
				s.path, from, to.version, err)
		}
	}
	err := s.update(func(tx *bolt.Tx) error {
		for n := from; n < to.version; n++ {
			if err := to.migrations[n-1](tx); err != nil {
				return fmt.Errorf("from version %d: %w", n, err)
			}
		}
		return putVersion(tx, to.version)
	})
	if err != nil {
		return fmt.Errorf("the store %s cannot be brought from version %d to %d and is left as it is: %w",
			s.path, from, to.version, err)
	}
	return nil
}

// copyBefore keeps the file as it is under the name that beforeName gives, unless an attempt that got no further has.
func (s *Store) copyBefore(version uint32) error {
	path := resolved(s.path)
	name := beforeName(path, version, 1)
	for n := 2; isThere(name); n++ {
		if same, err := s.sameAs(name); same || err != nil {
			return err
		}
		name = beforeName(path, version, n)
	}
	temp, err := s.copyWhole(name, nil)
	if err != nil {
		return err
	}
	return nameNew(temp, name)
}

// beforeName gives the name of the n-th copy that is made of a store before it is of a later version than this one.
func beforeName(path string, version uint32, n int) string {
	name := fmt.Sprintf("%s.before-schema-%d", path, version+1)
	if n > 1 {
		name = fmt.Sprintf("%s-%d", name, n)
	}
	return name
}

// versionIn gives the version that a store says it is of, 0 where it says none.
func versionIn(tx *bolt.Tx) uint32 {
	v := tx.Bucket(bucketAbout).Get(keySchema)
	if len(v) != 4 {
		return 0
	}
	return binary.BigEndian.Uint32(v)
}

func putVersion(tx *bolt.Tx, version uint32) error {
	return tx.Bucket(bucketAbout).Put(keySchema, binary.BigEndian.AppendUint32(nil, version))
}
