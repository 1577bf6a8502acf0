// Package tui is the program on the terminal: the app that passes keys and messages on, the screens with their tables of
// bindings, the prompt, the status line, the theme and the layout, and the way to the terminal and back.
//
// It knows what a key means and what a thing looks like. It must not know how a shot is graded, who is up next or what a
// game scores, which package model decides, nor how anything is kept: steps go to a recorder and come back as kept.
package tui
