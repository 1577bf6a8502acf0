package model_test

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"coach.settee/model"
)

// aWednesday is the day of the tests' evening.
var aWednesday = time.Date(2026, 3, 4, 23, 30, 0, 0, time.FixedZone("west", -5*3600))

func TestADate(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "  ": "",
		"2026-12-02": "2026-12-02", "2026-3-9": "2026-03-09", " 2025-01-31 ": "2025-01-31", "2028-02-29": "2028-02-29",
		"2 12": "2026-12-02", "2.12.": "2026-12-02", "2.12": "2026-12-02", "2. 12.": "2026-12-02", "02 12": "2026-12-02",
		"4 3": "2026-03-04", "3 3": "2027-03-03", "31.1.": "2027-01-31", "29 2": "2028-02-29",
		"wed": "2026-03-11", "Wednesday": "2026-03-11", "thu": "2026-03-05", "tue": "2026-03-10", "TUESDAY": "2026-03-10",
		"thurs": "2026-03-05", "sun": "2026-03-08", "sat": "2026-03-07",
		"+7": "2026-03-11", "+0": "2026-03-04", "+28": "2026-04-01", "+366": "2027-03-05",
	} {
		if got, err := model.ParseDate(text, aWednesday); got != want || err != nil {
			t.Errorf("%q is %q, %v, want %q", text, got, err, want)
		}
	}
}

func TestNoDate(t *testing.T) {
	for text, words := range map[string]string{
		"31 2": "February has no day 31", "30.2.": "February has no day 30", "31 4": "April has no day 31",
		"2026-02-30": "February has no day 30", "2026-02-29": "February has no day 29", "2026-13-01": "no month 13",
		"13.13.": "no month 13", "0 3": "March has no day 0", "1 0": "no month 0", "12/2": "write 2026-03-11",
		"soon": "write 2026-03-11", "tu": "write 2026-03-11", "tuesdays": "write 2026-03-11", "7": "write 2026-03-11",
		"1 2 3": "write 2026-03-11", "26-03-11": "write 2026-03-11", "0000-01-01": "write 2026-03-11", "--": "write 2026-03-11",
		"2026-03-11-": "write 2026-03-11", "-1 3": "write 2026-03-11", "1 +3": "write 2026-03-11", "٤ ٣": "write 2026-03-11",
		"+": "+7 is in a week", "+367": "up to +366", "+-1": "+7 is in a week", "+99999999999999999999": "up to +366",
	} {
		got, err := model.ParseDate(text, aWednesday)
		if err == nil || got != "" || !strings.Contains(err.Error(), words) {
			t.Errorf("%q is %q, %v, want words like %q", text, got, err, words)
		}
	}
}

// typedDates gives texts like those that are typed for a date or a time, and others.
func typedDates() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.String(),
		rapid.StringMatching(`[0-9]{1,4}[-. :+]{0,2}[0-9]{1,2}[-. :]{0,2}[0-9]{0,2} ?[0-9]{0,2}:?[0-9]{0,2}`),
		rapid.StringMatching(`\+?[0-9]{1,4}`), rapid.StringMatching(`[0-9]{1,2}[. ][0-9]{1,2}\.?`),
		rapid.StringMatching(`[SMTWFsmtwf][a-z]{2,7}`),
		rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }))
}

// moments gives times of some two hundred years in zones with and without a change of the clocks.
func moments(t *rapid.T) time.Time {
	zone := rapid.SampledFrom([]*time.Location{
		time.UTC, time.FixedZone("east", 14*3600), time.FixedZone("west", -12*3600), time.FixedZone("half", 5*3600+1800),
	}).Draw(t, "zone")
	return time.Unix(rapid.Int64Range(-2e9, 4e9).Draw(t, "seconds"), 0).In(zone)
}

func TestWhatIsTakenForADateExists(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, today := typedDates().Draw(t, "text"), moments(t)
		got, err := model.ParseDate(text, today)
		if err != nil || got == "" {
			if got != "" || err == nil && strings.TrimSpace(text) != "" {
				t.Fatalf("%q gives %q and %v", text, got, err)
			}
			return
		}
		day, bad := time.Parse(time.DateOnly, got)
		if bad != nil || day.Format(time.DateOnly) != got {
			t.Fatalf("%q gives %q: %v", text, got, bad)
		}
		if again, err := model.ParseDate(got, today); again != got || err != nil {
			t.Fatalf("%q gives %q, which gives %q, %v", text, got, again, err)
		}
		if typed := strings.TrimSpace(text); !strings.Contains(typed, "-") && got < today.Format(time.DateOnly) {
			t.Fatalf("%q gives %s, before today, %s", text, got, today.Format(time.DateOnly))
		}
	})
}

func TestEveryDayIsReadAsItIsTyped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		today := moments(t)
		ahead := rapid.IntRange(0, 364).Draw(t, "days ahead")
		day := time.Date(today.Year(), today.Month(), today.Day()+ahead, 12, 0, 0, 0, time.UTC)
		want := day.Format(time.DateOnly)
		for _, layout := range []string{time.DateOnly, "2006-1-2", "2 1", "2.1.", "02.01."} {
			if got, err := model.ParseDate(day.Format(layout), today); got != want || err != nil {
				t.Fatalf("%s is %s, %v, want %s", day.Format(layout), got, err, want)
			}
		}
		if ahead < 1 || ahead > 7 {
			return
		}
		for _, name := range []string{day.Format("Monday"), day.Format("Mon"), strings.ToLower(day.Format("Mon"))} {
			if got, err := model.ParseDate(name, today); got != want || err != nil {
				t.Fatalf("%s is %s, %v, want %s", name, got, err, want)
			}
		}
	})
}

func TestATimeOfDay(t *testing.T) {
	zone := time.FixedZone("west", -5*3600)
	at := time.Date(2026, 3, 4, 18, 0, 30, 0, zone)
	for text, want := range map[string]string{
		"17:30": "2026-03-04 22:30", "1730": "2026-03-04 22:30", "9:05": "2026-03-04 14:05", " 18:00 ": "2026-03-04 23:00",
		"18:01": "2026-03-03 23:01", "23:59": "2026-03-04 04:59", "0:00": "2026-03-04 05:00", "0000": "2026-03-04 05:00",
		"2026-03-03 17:30": "2026-03-03 22:30", "2026-3-5 1730": "2026-03-05 22:30",
	} {
		got, err := model.ParseClock(text, at)
		if err != nil || got.Format("2006-01-02 15:04") != want || got.Location() != time.UTC {
			t.Errorf("%q is %v, %v, want %s", text, got, err, want)
		}
	}
	if got, err := model.ParseClock("18:00", at.Truncate(time.Minute)); err != nil || !got.Equal(at.Truncate(time.Minute)) {
		t.Errorf("the time it is now is %v, %v", got, err)
	}
	for text, words := range map[string]string{
		"": "write 17:30", "24:00": "write 17:30", "17:60": "write 17:30", "17:3": "write 17:30", "930": "write 17:30",
		"17.30": "write 17:30", "5pm": "write 17:30", "-1:30": "write 17:30", "1 2 3": "write 17:30", "17:30 x": "write 2026-03-11",
		"2026-02-30 17:30": "February has no day 30", "4.3. 17:30": "write 2026-03-11", "2026-03-03 25:00": "write 17:30",
	} {
		if got, err := model.ParseClock(text, at); err == nil || !got.IsZero() || !strings.Contains(err.Error(), words) {
			t.Errorf("%q is %v, %v, want words like %q", text, got, err, words)
		}
	}
}

func TestATimeOfDayIsTheLastOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, at := typedDates().Draw(t, "text"), moments(t)
		got, err := model.ParseClock(text, at)
		if err != nil {
			if !got.IsZero() {
				t.Fatalf("%q is refused and gives %v", text, got)
			}
			return
		}
		if got.Second() != 0 || got.Nanosecond() != 0 || got.Location() != time.UTC {
			t.Fatalf("%q is %v", text, got)
		}
		if len(strings.Fields(text)) == 1 && (got.After(at) || at.Sub(got) >= 24*time.Hour) {
			t.Fatalf("%q at %v is %v", text, at, got)
		}
	})
}

func TestATimeOfDayIsReadByTheClockOnTheWall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := moments(t)
		hour, minute := rapid.IntRange(0, 23).Draw(t, "hour"), rapid.IntRange(0, 59).Draw(t, "minute")
		typed := time.Date(2000, 1, 1, hour, minute, 0, 0, time.UTC)
		for _, layout := range []string{"15:04", "1504"} {
			got, err := model.ParseClock(typed.Format(layout), at)
			if err != nil || got.In(at.Location()).Format(layout) != typed.Format(layout) {
				t.Fatalf("%s at %v is %v, %v", typed.Format(layout), at, got, err)
			}
		}
	})
}
