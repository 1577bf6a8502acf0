package model

import (
	"fmt"
	"strings"
	"time"
)

// maxAhead is the farthest day that +7 and the like reach, in days.
const maxAhead = 366

// ParseDate reads a day as it is typed and gives it as 2006-01-02: "2026-12-02", "2 12" or "2.12." (day and month, the next
// such day from today on), "tue" or "tuesday" (the next one after today), "+7" (in so many days, up to 366); "" gives "". A
// day that is none is refused in words.
func ParseDate(text string, today time.Time) (string, error) {
	text = strings.TrimSpace(text)
	day := midday(today.Year(), today.Month(), today.Day())
	if text == "" {
		return "", nil
	}
	if ahead, ok := strings.CutPrefix(text, "+"); ok {
		n, ok := whole(ahead)
		if !ok || n > maxAhead {
			return "", fmt.Errorf("%q is no number of days: +7 is in a week, up to +%d", text, maxAhead)
		}
		return day.AddDate(0, 0, n).Format(time.DateOnly), nil
	}
	if weekday, ok := weekdayOf(text); ok {
		ahead := (int(weekday)-int(day.Weekday())+6)%7 + 1
		return day.AddDate(0, 0, ahead).Format(time.DateOnly), nil
	}
	if strings.Contains(text, "-") {
		return readDay(text)
	}
	return nextDay(text, day)
}

// midday gives the middle of a day, where adding days never meets a change of the clocks.
func midday(year int, month time.Month, day int) time.Time {
	return time.Date(year, month, day, 12, 0, 0, 0, time.UTC)
}

// weekdayOf reads the name of a weekday in English, or three letters of it or more.
func weekdayOf(text string) (time.Weekday, bool) {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if len(text) >= 3 && strings.HasPrefix(strings.ToLower(d.String()), strings.ToLower(text)) {
			return d, true
		}
	}
	return 0, false
}

// readDay reads a day with its year.
func readDay(text string) (string, error) {
	parts := strings.Split(text, "-")
	if len(parts) != 3 {
		return "", errNoDate(text)
	}
	year, okYear := whole(parts[0])
	month, okMonth := whole(parts[1])
	day, okDay := whole(parts[2])
	if !okYear || !okMonth || !okDay || len(parts[0]) != 4 || year < 1900 {
		return "", errNoDate(text)
	}
	if err := dayOfMonth(text, day, month, daysIn(year, month)); err != nil {
		return "", err
	}
	return midday(year, time.Month(month), day).Format(time.DateOnly), nil
}

// nextDay reads a day and a month and gives the next such day from today on.
func nextDay(text string, today time.Time) (string, error) {
	words := strings.FieldsFunc(text, func(r rune) bool { return r == '.' || r == ' ' })
	if len(words) != 2 {
		return "", errNoDate(text)
	}
	day, okDay := whole(words[0])
	month, okMonth := whole(words[1])
	if !okDay || !okMonth {
		return "", errNoDate(text)
	}
	const leap = 2024
	if err := dayOfMonth(text, day, month, daysIn(leap, month)); err != nil {
		return "", err
	}
	next := midday(today.Year(), time.Month(month), day)
	for year := today.Year(); next.Before(today) || next.Day() != day; {
		year++
		next = midday(year, time.Month(month), day)
	}
	return next.Format(time.DateOnly), nil
}

// daysIn gives how many days a month of a year has, 0 where there is no such month.
func daysIn(year, month int) int {
	if month < 1 || month > 12 {
		return 0
	}
	return midday(year, time.Month(month)+1, 0).Day()
}

// dayOfMonth tells why a day is none of a month of so many days, or nil.
func dayOfMonth(text string, day, month, days int) error {
	switch {
	case days == 0:
		return fmt.Errorf("%q: there is no month %d; %s", text, month, howDates)
	case day < 1 || day > days:
		return fmt.Errorf("%q: %s has no day %d; %s", text, time.Month(month), day, howDates)
	}
	return nil
}

const howDates = "write 2026-03-11, or 11 3 for day and month, or tue, or +7"

func errNoDate(text string) error { return fmt.Errorf("%q is no date: %s", text, howDates) }

// ParseClock reads a time of day as it is typed, "17:30" or "1730", on the day of at or, where that would be after at, on
// the day before; "2026-03-03 17:30" is taken as it is. Both are in the zone of at. It gives UTC to the minute.
func ParseClock(text string, at time.Time) (time.Time, error) {
	words := strings.Fields(text)
	day, clock := at, ""
	switch len(words) {
	case 1:
		clock = words[0]
	case 2:
		date, err := readDay(words[0])
		if err != nil {
			return time.Time{}, err
		}
		day, _ = time.Parse(time.DateOnly, date)
		clock = words[1]
	}
	hour, minute, ok := clockOf(clock)
	if !ok {
		return time.Time{}, fmt.Errorf("%q is no time of day: write 17:30, or 2026-03-11 17:30", text)
	}
	on := func(day time.Time) time.Time {
		return time.Date(day.Year(), day.Month(), day.Day(), hour, minute, 0, 0, at.Location())
	}
	read := on(day)
	if len(words) == 1 && read.After(at) {
		read = on(day.AddDate(0, 0, -1))
	}
	return read.UTC(), nil
}

// clockOf reads hours and minutes: "17:30", "9:05", "1730".
func clockOf(word string) (hour, minute int, ok bool) {
	first, last, parted := strings.Cut(word, ":")
	if !parted && len(word) == 4 {
		first, last = word[:2], word[2:]
	}
	hour, okHour := whole(first)
	minute, okMinute := whole(last)
	return hour, minute, okHour && okMinute && len(last) == 2 && hour < 24 && minute < 60
}
