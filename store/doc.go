// Package store keeps what the coach records in one bbolt file: the book of cues, students, sessions, games with their
// tallies, deliveries, and the list of an evening's actions that can be taken back.
//
// What is kept is kept: Keep returns after the disk has it, all of a step or nothing. Steps go to a journal inside the file
// first, which costs one sync, and are settled into their places together. A Recorder stands between the program's loop
// and the disk, in order and without waiting. A file that is not a store, is newer than this program or is damaged is
// refused in words and not touched.
//
// The package knows bytes, files and transactions. It does not know the rules of the game, how a shot is graded or what
// is on the screen, and has no opinion on what may be recorded: package model decides that before.
package store
