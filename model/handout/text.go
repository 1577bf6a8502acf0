package handout

import (
	"fmt"
	"strings"

	"coach.settee/model"
)

// Text gives the page as plain text for a message: the same things in the same words, a line each, with no letters drawn.
func Text(in Input) string {
	p := newPage(in)
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	say("%s", p.Name)
	say("%s", joined(" · ", p.When, p.Place))
	if p.Guardian {
		say("\nTo %s, and to the parent or guardian of %[1]s: please read it together.", p.Name)
	}
	if p.Lead != "" {
		say("\n%s", joined(", ", p.Address, p.Lead))
	}
	if p.Sentence != "" {
		say("\nYour coach: %s", p.Sentence)
	}
	if p.Moved != nil {
		say("\n%s: %s, was %s%s", p.Moved.What, p.Moved.Now, p.Moved.Then, inBrackets(p.Moved.Counts))
	}
	b.WriteString(p.textGames())
	b.WriteString(p.textWords())
	b.WriteString(p.textPractice())
	say("\n%s", p.Cautions)
	if p.Consent != "" {
		say("%s", p.Consent)
	}
	return b.String()
}

func (p page) textGames() string {
	var b strings.Builder
	for i, r := range p.Rings {
		if i == 0 {
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "%s: %d good, %s\n", r.Name, r.Good, r.Of)
	}
	for _, s := range p.Strips {
		marks, signs := make([]string, 0, len(s.Frames)), make([]string, 0, len(s.Frames))
		for _, f := range s.Frames {
			marks = append(marks, strings.ReplaceAll(f.Marks, " ", ""))
			for _, sign := range f.Signs {
				signs = append(signs, strings.ReplaceAll(sign.Mark, " ", ":"))
			}
		}
		fmt.Fprintf(&b, "\n%s, %s\n%s\n%s\n", s.Name, s.Score, strings.Join(marks, " "), strings.Join(signs, " "))
	}
	for _, l := range p.Legend {
		fmt.Fprintf(&b, "(%s %s)\n", strings.ReplaceAll(l.Mark, " ", ":"), l.Words)
	}
	if p.Omitted != "" {
		fmt.Fprintf(&b, "(%s)\n", p.Omitted)
	}
	return b.String()
}

func (p page) textWords() string {
	var lines []string
	lines = append(lines, p.Truths...)
	if c := p.Costs; c != nil {
		lines = append(lines, c.Head+": "+c.Alt+inBrackets(strings.Join(c.Notes, "; ")))
	}
	if r := p.Results; r != nil {
		lines = append(lines, fmt.Sprintf("Good shots: %s, %d not; the others: %s, %d not",
			model.NumberOf(r.Earned, "strike"), r.Unlucky, model.NumberOf(r.Lucky, "strike"), r.Missed))
	}
	lines = append(lines, p.Spares)
	lines = append(lines, p.Drills...)
	if p.Trend != nil {
		lines = append(lines, p.Trend.Words)
	}
	if p.Keep != "" {
		lines = append(lines, "Keep: "+p.Keep)
	}
	if p.Work.What != "" {
		lines = append(lines, joined(". ", p.Work.Head+": "+p.Work.What, p.Work.Why))
	}
	if p.Work.Cue != "" {
		lines = append(lines, "Say to yourself: "+p.Work.Cue)
	}
	var b strings.Builder
	for _, l := range lines {
		if l != "" {
			b.WriteString("\n" + l)
		}
	}
	if b.Len() > 0 {
		b.WriteByte('\n')
	}
	return b.String()
}

func (p page) textPractice() string {
	var b strings.Builder
	if p.Card != nil {
		b.WriteString("\nFeet and eyes\n")
		for _, s := range p.Card.Shots {
			b.WriteString(joined("; ", joined(", ", s.Name, s.Where)+": "+s.line(), s.From) + "\n")
		}
		b.WriteString("(" + p.Card.Note + ")\n")
	}
	if h := p.Homework; h != nil {
		fmt.Fprintf(&b, "\nHomework: %s\n", joined(", ", h.Text, h.Drill, h.Count, h.Days))
		for _, box := range h.Boxes {
			if h.Of > 0 {
				fmt.Fprintf(&b, "  %s, of %d: __ good\n", box, h.Of)
			} else {
				fmt.Fprintf(&b, "  %s: [ ] done\n", box)
			}
		}
	}
	if p.Next != "" {
		fmt.Fprintf(&b, "\nNext time: %s\n", p.Next)
	}
	return b.String()
}

// line says a shot's boards, or its move.
func (s shot) line() string {
	if s.Words != "" {
		return s.Words
	}
	var parts []string
	if s.NoFeet {
		parts = append(parts, "feet ___")
	}
	if s.Feet != "" {
		parts = append(parts, "feet "+s.Feet)
	}
	if s.NoEyes {
		parts = append(parts, "eyes ___")
	}
	if s.Eyes != "" {
		parts = append(parts, "eyes "+s.Eyes+inBrackets(s.Arrow))
	}
	if s.Out != "" {
		parts = append(parts, "out to "+s.Out)
	}
	return strings.Join(parts, ", ")
}

func joined(between string, parts ...string) string {
	var some []string
	for _, p := range parts {
		if p != "" {
			some = append(some, p)
		}
	}
	return strings.Join(some, between)
}

func inBrackets(words string) string {
	if words == "" {
		return ""
	}
	return " (" + words + ")"
}
