package store

import "path/filepath"

// Free gives how many bytes the disk on which the store lies has left for this user. The journal takes calls on a full
// disk too, up to some two hundred, and only then do they go to where there is no room: so it is worth looking before.
func (s *Store) Free() (int64, error) { return FreeIn(filepath.Dir(s.path)) }

// FreeIn gives how many bytes the disk on which a directory lies has left for this user.
func FreeIn(dir string) (int64, error) { return freeBytes(dir) }
