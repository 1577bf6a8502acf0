package main

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/lipgloss"
)

// pageWidth is how many columns a page takes.
const pageWidth = 80

// textPage is what a command prints for people.
type textPage struct{ strings.Builder }

// flow writes a text in lines of the page's width, each with the indent, which is doubled from the second one on.
func (p *textPage) flow(indent, format string, args ...any) {
	line := indent
	room := func(word string) bool { return lipgloss.Width(line)+1+lipgloss.Width(word) <= pageWidth }
	for _, word := range strings.Fields(fmt.Sprintf(format, args...)) {
		empty := strings.TrimSpace(line) == ""
		if !empty && !room(word) {
			p.WriteString(line + "\n")
			line, empty = indent+indent, true
		}
		if !empty {
			line += " "
		}
		// A word that no line has room for is broken.
		for _, r := range word {
			if lipgloss.Width(line)+lipgloss.Width(string(r)) > pageWidth {
				p.WriteString(line + "\n")
				line = indent + indent
			}
			line += string(r)
		}
	}
	p.WriteString(line + "\n")
}
