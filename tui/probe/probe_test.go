package probe

import (
	"strings"
	"testing"
)

func TestDecide(t *testing.T) {
	for name, c := range map[string]struct {
		args, env string
		dark      bool
	}{
		"nothing said":                       {"", "", true},
		"flag light":                         {"--light", "", false},
		"flag dark":                          {"--dark", "", true},
		"flag after a command":               {"stats --light Ada", "", false},
		"last flag":                          {"--light --dark", "", true},
		"no flag after the end of flags":     {"score -- --light", "", true},
		"environment light":                  {"", "SETTEE_BACKGROUND=light", false},
		"flag before environment":            {"--dark", "SETTEE_BACKGROUND=light", true},
		"environment before COLORFGBG":       {"", "SETTEE_BACKGROUND=dark COLORFGBG=0;15", true},
		"unknown word asks COLORFGBG":        {"", "SETTEE_BACKGROUND=grey COLORFGBG=0;15", false},
		"COLORFGBG white":                    {"", "COLORFGBG=0;15", false},
		"COLORFGBG light grey":               {"", "COLORFGBG=0;7", false},
		"COLORFGBG black":                    {"", "COLORFGBG=15;0", true},
		"COLORFGBG dark grey":                {"", "COLORFGBG=15;8", true},
		"COLORFGBG of three fields":          {"", "COLORFGBG=0;default;15", false},
		"COLORFGBG without a number":         {"", "COLORFGBG=default;default", true},
		"COLORFGBG outside of sixteen":       {"", "COLORFGBG=0;231", true},
		"flag as part of another is nothing": {"--lighter", "", true},
	} {
		t.Run(name, func(t *testing.T) {
			env := map[string]string{}
			for _, pair := range strings.Fields(c.env) {
				key, value, _ := strings.Cut(pair, "=")
				env[key] = value
			}
			look := func(key string) string { return env[key] }
			if got := decide(choose(strings.Fields(c.args), look), look); got != c.dark {
				t.Errorf("dark = %v, want %v", got, c.dark)
			}
		})
	}
}

// What the terminal says of itself is no choice of the coach's: a settings file may say otherwise.
func TestChoose(t *testing.T) {
	env := map[string]string{"COLORFGBG": "0;15"}
	look := func(key string) string { return env[key] }
	if got := choose(nil, look); got != "" {
		t.Errorf("without a choice it chose %q", got)
	}
	env[Environment] = "grey"
	if got := choose(nil, look); got != "" {
		t.Errorf("an unknown word chose %q", got)
	}
	if got := choose([]string{"demo", "--light"}, look); got != "light" {
		t.Errorf("--light chose %q", got)
	}
}
