package model

import "strings"

// withoutPartingCommas gives a text that names a student with blanks for the commas that part the name from what is told
// behind it, and for those at its ends. A comma within a number stays, and so does one between words of the name.
func withoutPartingCommas(text string) string {
	text = CleanText(text)
	runes := []rune(text)
	for i, r := range text {
		if r != ',' {
			continue
		}
		before, after := text[:i], text[i+1:]
		if decimalComma(before, after) {
			continue
		}
		last, next := lastPart(before), firstPart(after)
		if last == "" || next == "" || isNumber(last) || toldBehind(next) {
			runes[len([]rune(before))] = ' '
		}
	}
	return strings.TrimSpace(string(runes))
}

// decimalComma tells whether a comma between two texts stands within a number.
func decimalComma(before, after string) bool {
	return before != "" && after != "" && isNumber(before[len(before)-1:]) && isNumber(after[:1])
}

// toldBehind tells whether a part after a comma can only be what is told behind a name: a capital L or R may be an initial.
func toldBehind(part string) bool {
	_, inFull := handOf(part)
	return inFull || part == "l" || part == "r" || isNumber(part) || part[0] == '#'
}

func lastPart(text string) string {
	parts := commaParts(text)
	if len(parts) == 0 {
		return ""
	}
	return parts[len(parts)-1]
}

func firstPart(text string) string {
	parts := commaParts(text)
	if len(parts) == 0 {
		return ""
	}
	return parts[0]
}

func commaParts(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' })
}
