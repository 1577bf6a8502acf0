// Package tenpin knows the pins and the score of ten-pin bowling: which pins
// stand, what counts as a split and what a leave is called, where a game
// stands before each ball, what a ball adds, the running totals, the highest
// score still possible, the written notation, and the chance of every score.
//
// There is one machine for the score, [Position.Next]. [Score], [Parse], the
// notation and [ScoreChances] all run through it.
//
// The package must not know who bowled, how a shot was graded, where anything
// is kept or how it is drawn. It uses the standard library only and has no
// state of its own.
package tenpin
