package handout

import (
	"regexp"
	"strconv"
	"strings"
)

// homework is what to do until the next time.
type homework struct {
	// Drill, Count and Days are the parts of a homework that has them, Text one that has not.
	Drill, Count, Days string
	Text               string
	// Boxes are the places to write in how it went, each for Of balls; for a tick where Of is 0.
	Boxes []string
	Of    int
}

// homeworkOf reads homework typed as drill, count, days ("corner pin, 3 times 10, Tuesday and Thursday"); any other is told
// as it is.
func homeworkOf(text string) *homework {
	if text == "" {
		return nil
	}
	h := &homework{Text: text}
	if parts := strings.Split(text, ","); len(parts) == 3 {
		for i := range parts {
			parts[i] = strings.TrimSpace(parts[i])
		}
		if parts[0] != "" && parts[2] != "" && strings.ContainsAny(parts[1], "0123456789") {
			h.Text, h.Drill, h.Count, h.Days = "", parts[0], parts[1], parts[2]
		}
	}
	times, of := boxesOf(text, h.Count)
	h.Boxes, h.Of = boxNames[:times], of
	return h
}

// boxNames name the places to write in how homework went; the page has room for so many.
var boxNames = []string{"first time", "second time", "third time"}

// boxesOf reads from homework, and from the part of it that is its count, how many times of how many it is: "5 times 20",
// "3 sets of 10", "20 balls". Where it does not say it is three times, of ten for what is done with balls, else 0 of them.
func boxesOf(text, count string) (times, of int) {
	const usual, balls = 3, 10
	if m := timesOf.FindStringSubmatch(text); m != nil {
		times, _ = strconv.Atoi(m[1])
		of, _ = strconv.Atoi(m[2])
		if times > 0 && of > 0 {
			return min(times, len(boxNames)), of
		}
	}
	for _, written := range []struct {
		text string
		as   *regexp.Regexp
	}{{text, setsOf}, {text, ballsOf}, {text, repeatsOf}, {count, numberOf}} {
		for _, m := range written.as.FindAllStringSubmatch(written.text, -1) {
			if of, _ = strconv.Atoi(m[1]); of > 0 && !otherwise.MatchString(m[2]) {
				return usual, of
			}
		}
	}
	if withBalls.MatchString(text) {
		return usual, balls
	}
	return usual, 0
}

// How counts are written. The last group of each is what follows, by which otherwise tells a number of something else.
var (
	timesOf   = regexp.MustCompile(`(?i)\b(\d{1,3}) ?(?:times|x|×|sets? of) ?(\d{1,3})\b`)
	setsOf    = regexp.MustCompile(`(?i)\bsets? of (\d{1,3})\b()`)
	ballsOf   = regexp.MustCompile(`(?i)\b(\d{1,3}) (?:balls?|shots?|throws?|deliver(?:y|ies)|rolls?|tries)\b()`)
	repeatsOf = regexp.MustCompile(`(?i)\b(\d{1,3}) ?(?:times|x|×|repeats|reps)(?:[^\pL\pN]|$)(.*)`)
	numberOf  = regexp.MustCompile(`\b(\d{1,3})\b(.*)`)
	otherwise = regexp.MustCompile(`(?i)^[ -]*(?:(?:min|minutes?|s|sec|seconds?|h|hours?|days?|nights?|evenings?|weeks?|months?|` +
		`games?|feet|ft|boards?)\b|%|(?:times )?(?:a|per|each|every) (?:week|month)\b)`)
	withBalls = regexp.MustCompile(`(?i)\b(?:balls?|shots?|throws?|rolls?|deliver(?:y|ies)|spares?|pins?|strikes?|releases?|drills?)\b`)
)
