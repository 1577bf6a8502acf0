package main

import (
	"errors"
	"strconv"

	"coach.settee/model"
)

// setting is one key of the settings file.
type setting struct {
	// what says what the key is for and what it takes.
	key, what string
	// set takes in a value, or says what the key takes.
	set func(c *config, value string) error
	// value gives it as it is written.
	value func(c config) string
}

// settings are the keys, in the order in which they are listed.
var settings = []setting{
	oneOf("theme", "the background that is drawn for: light, dark or auto, what the terminal says of itself; none: no colours",
		"use light, dark, none or auto", func(c *config) *string { return &c.theme }, "light", "dark", "none", "auto"),
	oneOf("density", "the board's rows: roomy, as high as the window allows, or tight, one line a student",
		"use roomy or tight", func(c *config) *string { return &c.density }, "roomy", "tight"),
	oneOf("ascii", "draw with ASCII characters only: yes, no or auto, where the terminal or the locale has no others",
		"use yes, no or auto", func(c *config) *string { return &c.ascii }, "yes", "no", "auto"),
	yesOrNo("mouse", "clicks and the wheel go to Settee: yes or no, to leave them to the terminal",
		func(c *config) *bool { return &c.mouse }),
	{
		"place", "where a new evening is; empty: where the last one was",
		func(c *config, value string) error { c.place = value; return nil },
		func(c config) string { return c.place },
	},
	yesOrNo("rotate", "in a new evening the next student is put up after a frame: yes or no, by hand only",
		func(c *config) *bool { return &c.rotate }),
	yesOrNo("block", "in a new evening a student stays up to the end of a drill: yes or no, after each delivery the next",
		func(c *config) *bool { return &c.block }),
	{
		"arrows_ft", "how far the arrows of a new evening are from the foul line, 12 to 18 feet; empty: not said",
		setArrows, func(c config) string {
			if !c.arrowsFt.Known {
				return ""
			}
			return strconv.FormatFloat(c.arrowsFt.Value, 'f', -1, 64)
		},
	},
}

// oneOf is a setting that takes one of some words.
func oneOf(key, what, use string, field func(*config) *string, words ...string) setting {
	return setting{key, what,
		func(c *config, value string) error {
			for _, word := range words {
				if value == word {
					*field(c) = word
					return nil
				}
			}
			return errors.New(use)
		},
		func(c config) string { return *field(&c) },
	}
}

func yesOrNo(key, what string, field func(*config) *bool) setting {
	return setting{key, what,
		func(c *config, value string) error {
			if value != "yes" && value != "no" {
				return errors.New("use yes or no")
			}
			*field(c) = value == "yes"
			return nil
		},
		func(c config) string {
			if *field(&c) {
				return "yes"
			}
			return "no"
		},
	}
}

func setArrows(c *config, value string) (err error) {
	c.arrowsFt, err = model.ParseArrows(value)
	return err
}
