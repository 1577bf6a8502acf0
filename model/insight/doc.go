// Package insight holds the figures that a coach reads off what was recorded.
//
// It knows counts, rates and distributions, and how a ten-pin game goes on
// from where it stands. So far it holds the pace: the good count that a game
// or a drill is heading for, and the chance of the goal.
//
// It must not know keys, screens, the disk or the clock, nor how a delivery
// is graded: what it is handed are counts that were taken elsewhere, and the
// same counts always give the same figures. Nothing here ranks one student
// against another.
package insight
