// Package insight holds the figures that a coach reads off what was recorded.
//
// It knows counts, rates and distributions, and what can be said of them and what cannot: [NewReport] reckons every figure
// over games, each with its counts and its uncertainty, and each figure has its words. The statistics behind them are
// functions of their own, held against published examples. The pace is apart, because the board shows it with every key.
//
// It must not know keys, screens, the disk or the clock, nor how a delivery is graded or scored: that is package model's.
// The same deliveries always give the same figures. Nothing here ranks one student against another.
package insight
