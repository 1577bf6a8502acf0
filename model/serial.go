package model

import (
	"strconv"
	"strings"
)

// SerialID gives the id of the n-th game or delivery begun in a session; games and deliveries are counted together.
func SerialID(session ID, n int) ID {
	return session + "-" + ID(strconv.Itoa(n))
}

// Serial gives the number in an id that SerialID made for the session, and whether it is one.
func Serial(session, id ID) (int, bool) {
	digits, ok := strings.CutPrefix(string(id), string(session)+"-")
	if !ok || digits == "" || digits[0] == '0' {
		return 0, false
	}
	n, err := strconv.Atoi(digits)
	return n, err == nil && n > 0 && digits[0] != '+'
}
