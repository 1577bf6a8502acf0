package model

import (
	"fmt"
	"hash/fnv"
	"strconv"
	"strings"
)

// SerialID gives the id of the n-th game or delivery begun in a session; games and deliveries are counted together. An id
// has room for 40 characters: a session's that is too long for a number behind it is shortened, with a hash of all of it.
func SerialID(session ID, n int) ID {
	return stem(session) + "-" + ID(strconv.Itoa(n))
}

// Serial gives the number in an id that SerialID made for the session, and whether it is one.
func Serial(session, id ID) (int, bool) {
	digits, ok := strings.CutPrefix(string(id), string(stem(session))+"-")
	if !ok || digits == "" || digits[0] < '1' || digits[0] > '9' {
		return 0, false
	}
	n, err := strconv.Atoi(digits)
	if err != nil {
		return 0, false
	}
	return n, true
}

// maxStem leaves seven digits for the number.
const maxStem = 32

func stem(session ID) ID {
	if len(session) <= maxStem {
		return session
	}
	h := fnv.New64a()
	h.Write([]byte(session))
	return session[:maxStem-17] + "-" + ID(fmt.Sprintf("%016x", h.Sum64()))
}
