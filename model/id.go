package model

import "fmt"

// ID names a record: 1 to 40 of A-Z a-z 0-9 _ and -.
type ID string

// Validate tells what is wrong with the id, or nil.
func (id ID) Validate() error {
	if len(id) == 0 || len(id) > 40 {
		return fmt.Errorf("an id of %d characters: ids have 1 to 40", len(id))
	}
	for i := range len(id) {
		if !idByte(id[i]) {
			return fmt.Errorf("the id %q has a character that is none of A-Z a-z 0-9 _ -", string(id))
		}
	}
	return nil
}

func idByte(c byte) bool {
	switch {
	case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '_', c == '-':
		return true
	}
	return false
}
