package tenpin

import (
	"errors"
	"fmt"
	"unicode"
)

// Parse reads a game in the usual notation and scores it: X a strike, / a
// spare, 1 to 9 a count, the count in parentheses where it left a split, - or G
// for no pin, F for a foul; small letters are read too. Spaces may stand
// anywhere or nowhere. A game in progress is read as far as it goes.
//
// What is no notation, or no game, is refused with an [*Error] that names the
// sign and its place, counted in characters from 1.
func Parse(s string) (Card, error) {
	balls, err := ParseFrom(Position{}, s)
	if err != nil {
		return Card{}, err
	}
	return Score(balls)
}

// ParseFrom reads the balls that follow a position, in the notation that
// [Parse] reads, and refuses as it does. The balls are numbered from p on in
// the refusal.
func ParseFrom(p Position, s string) ([]Ball, error) {
	balls := make([]Ball, 0, min(len(s), maxBalls))
	signs := reader{rest: []rune(s)}
	for signs.more() {
		at := signs.at
		b, reason := signs.ball(p)
		if reason != "" {
			return nil, numbered(p.refuse(reason), len(balls))
		}
		next, _, err := p.Next(b)
		if err != nil {
			return nil, numbered(placed(err, at), len(balls))
		}
		balls = append(balls, b)
		p = next
	}
	return balls, nil
}

// reader takes signs off the front of a game's notation.
type reader struct {
	rest []rune
	at   int // characters taken
}

// more skips spaces and tells whether a sign follows.
func (r *reader) more() bool {
	for len(r.rest) > 0 && unicode.IsSpace(r.rest[0]) {
		r.take()
	}
	return len(r.rest) > 0
}

func (r *reader) take() rune {
	sign := r.rest[0]
	r.rest = r.rest[1:]
	r.at++
	return sign
}

// ball takes one ball, bowled from p. If it cannot be read there, it says why.
func (r *reader) ball(p Position) (b Ball, reason string) {
	sign := r.take()
	if p.Over() {
		return Ball{}, fmt.Sprintf("%q at character %d is a ball after the game's end", sign, r.at)
	}
	standing := p.StandingCount()
	switch sign {
	case 'X', 'x':
		if !p.FullRack() {
			return Ball{}, fmt.Sprintf("%q at character %d is no strike: %s", sign, r.at, noStrike(standing))
		}
		return Ball{Pins: standing}, ""
	case '/':
		if p.FullRack() {
			return Ball{}, fmt.Sprintf("'/' at character %d is a spare on a first ball; a strike is X", r.at)
		}
		return Ball{Pins: standing}, ""
	case '-', 'G', 'g':
		return Ball{}, ""
	case 'F', 'f':
		return Ball{Foul: true}, ""
	case '(':
		return r.split()
	}
	if sign < '1' || sign > '9' {
		return Ball{}, fmt.Sprintf("%q at character %d is no sign of the notation: "+
			"X / - F, 1 to 9, or a split's count in parentheses", sign, r.at)
	}
	pins := int(sign - '0')
	if pins == standing {
		return Ball{}, fmt.Sprintf("%q at character %d is all that stands; a spare is /", sign, r.at)
	}
	return Ball{Pins: pins}, ""
}

// split takes the count and the closing sign of a split.
func (r *reader) split() (b Ball, reason string) {
	opened := r.at
	if !r.more() {
		return Ball{}, fmt.Sprintf("'(' at character %d is not closed", opened)
	}
	sign := r.take()
	if sign < '1' || sign > '9' {
		return Ball{}, fmt.Sprintf("%q at character %d is no count of a split: 1 to 8", sign, r.at)
	}
	if !r.more() || r.take() != ')' {
		return Ball{}, fmt.Sprintf("'(' at character %d is not closed after the count", opened)
	}
	return Ball{Pins: int(sign - '0'), Split: SplitYes}, ""
}

// placed gives the character where a ball was read, counted from 0, to the
// refusal of it.
func placed(err error, at int) error {
	var refused *Error
	if errors.As(err, &refused) {
		refused.Reason += fmt.Sprintf(" (character %d)", at+1)
	}
	return err
}

func noStrike(standing int) string {
	if standing == 10 {
		return "ten on a spare shot are a spare, /"
	}
	return fmt.Sprintf("%d %s", standing, verb(standing, "stands", "stand"))
}
