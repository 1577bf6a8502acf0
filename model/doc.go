// Package model knows the words of the lesson as Go types: students, evenings, games, deliveries, letters and
// grades, the call being made, who is up, and what taking back means.
//
// Everything in it is a pure function of what is handed in: time comes as an argument, identities are derived from
// the session's. It must not know a clock, a disk or a screen, and reads no keys; a key's meaning ("b lowers balance")
// belongs to the screen, what lowering does and when it is refused belongs here. The words of a refusal name the board's
// keys, as the README does, since they tell the coach what to press next.
package model
