package main

import (
	"bufio"
	"bytes"
	"path/filepath"
	"strings"

	"coach.settee/model"
	"coach.settee/store"
)

// isTable tells whether what is to be imported is a table of students: a file that ends in .csv, or any that does not begin
// as an export does.
func isTable(file string, data *bufio.Reader) bool {
	if strings.EqualFold(filepath.Ext(file), ".csv") {
		return true
	}
	// The bytes of a byte order mark are passed over with the blanks.
	const before = " \t\r\n\xef\xbb\xbf"
	for n := 1; ; n++ {
		begun, err := data.Peek(n)
		if err != nil {
			return false
		}
		if last := begun[n-1]; bytes.IndexByte([]byte(before), last) < 0 {
			return last != '{'
		}
	}
}

// foldedColumns lists the columns that a table may have beside those that it must have, in lines for the help.
func foldedColumns() string {
	var out strings.Builder
	width := len("any of ")
	for i, column := range store.RosterColumns()[3:] {
		switch {
		case i == 0:
		case width+len(column)+len(", ,") > 80:
			out.WriteString(",\n")
			width = 0
		default:
			out.WriteString(", ")
			width += len(", ")
		}
		out.WriteString(column)
		width += len(column)
	}
	return out.String()
}

// rosteredWords says in one line what became of a table of students.
func rosteredWords(students store.Rostered) string {
	labels := func(some []model.Student) string {
		names := make([]string, len(some))
		for i, s := range some {
			names[i] = model.LabelAmong(s, students.All)
		}
		return strings.Join(names, ", ")
	}
	words := "nothing new"
	if n := len(students.Taken); n > 0 {
		words = "taken: " + model.NumberOf(n, "new student")
	}
	if len(students.Namesakes) > 0 {
		words += "; new beside another of the name: " + labels(students.Namesakes)
	}
	if len(students.Known) > 0 {
		words += "; known already: " + labels(students.Known)
	}
	if len(students.Taken)+len(students.Known) == 0 {
		words += ": the table names no student"
	}
	return words
}
