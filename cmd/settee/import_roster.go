package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
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

// mostNamed is how many students are named in a line.
const mostNamed = 10

// rosteredWords says in one line what became of a table of students.
func rosteredWords(students store.Rostered) string {
	labels := func(some []model.Student) string {
		names := make([]string, min(len(some), mostNamed))
		for i := range names {
			names[i] = model.LabelAmong(some[i], students.All)
		}
		words := strings.Join(names, ", ")
		if more := len(some) - len(names); more > 0 {
			words += fmt.Sprintf(" and %d more", more)
		}
		return words
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

// refusedRows writes the rows that are in the way one a line, where there are several, and gives an error that tells of them.
func refusedRows(told io.Writer, err error) error {
	var refused *store.RosterRefused
	if !errors.As(err, &refused) || len(refused.Rows) < 2 {
		return err
	}
	for _, row := range refused.Rows {
		if _, err := fmt.Fprintln(told, row); err != nil {
			return err
		}
	}
	words := amount(len(refused.Rows)+refused.More, "row is", "rows are") + " refused"
	if refused.More > 0 {
		return fmt.Errorf("%s, the first %d of them told above: mend them and import it again", words, len(refused.Rows))
	}
	return errors.New(words + ", told above: mend them and import it again")
}
