// Package handout makes the page that a student takes home after an evening: as HTML that needs nothing beside itself, and
// as plain text for a message. It decides what is told to whom: by the student's tone, and for a minor.
package handout
