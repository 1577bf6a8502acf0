package tui

import (
	"fmt"
	"math"
	"strconv"
	"testing"
)

// rgb is a colour in sRGB, each part from 0 to 1.
type rgb [3]float64

// hex reads a colour written #rrggbb.
func hex(t tester, s string) rgb {
	t.Helper()
	n, err := strconv.ParseUint(s[1:], 16, 32)
	if err != nil || len(s) != 7 {
		t.Fatalf("%q is no colour", s)
	}
	return rgb{float64(n>>16) / 255, float64(n>>8&255) / 255, float64(n&255) / 255}
}

func (c rgb) String() string {
	return fmt.Sprintf("#%02x%02x%02x", int(c[0]*255+.5), int(c[1]*255+.5), int(c[2]*255+.5))
}

// xterm gives a colour of the 256 from 16 on: a cube of 6x6x6 with the levels 0, 95, 135, 175, 215, 255, then 24 greys from
// 8 in steps of 10 (xterm's 256colres, from memory). The first 16 are the terminal's own.
func xterm(n int) rgb {
	level := func(i int) float64 {
		if i == 0 {
			return 0
		}
		return float64(55+40*i) / 255
	}
	if n >= 232 {
		grey := float64(8+10*(n-232)) / 255
		return rgb{grey, grey, grey}
	}
	n -= 16
	return rgb{level(n / 36), level(n / 6 % 6), level(n % 6)}
}

// linear undoes sRGB's gamma below the threshold given.
func (c rgb) linear(threshold float64) [3]float64 {
	var out [3]float64
	for i, v := range c {
		if v <= threshold {
			out[i] = v / 12.92
		} else {
			out[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return out
}

// contrast is that of WCAG 2.1, "relative luminance" and "contrast ratio": https://www.w3.org/TR/WCAG21/#dfn-relative-luminance
// with its threshold of 0.03928, and (L1+0.05)/(L2+0.05).
func contrast(a, b rgb) float64 {
	luminance := func(c rgb) float64 {
		l := c.linear(0.03928)
		return 0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2]
	}
	bright, dim := luminance(a), luminance(b)
	if bright < dim {
		bright, dim = dim, bright
	}
	return (bright + 0.05) / (dim + 0.05)
}

// deficiencies are the matrices for severity 1.0 over linear RGB of Machado, Oliveira and Fernandes, "A Physiologically-based
// Model for Simulation of Color Vision Deficiency", IEEE TVCG 15 (2009), table of precomputed matrices; from memory.
var deficiencies = map[string][3][3]float64{
	"none": {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protanopia": {
		{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998},
	},
	"deuteranopia": {
		{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881},
	},
	"tritanopia": {
		{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900},
	},
}

// seenWith gives a colour in linear RGB as eyes with a deficiency see it, inside what a screen shows.
func (c rgb) seenWith(m [3][3]float64) [3]float64 {
	l := c.linear(0.04045)
	var out [3]float64
	for i, row := range m {
		out[i] = min(max(row[0]*l[0]+row[1]*l[1]+row[2]*l[2], 0), 1)
	}
	return out
}

// lab is CIE 1976 L*a*b* for the white D65, from linear sRGB (IEC 61966-2-1, the matrix from memory).
func lab(l [3]float64) [3]float64 {
	f := func(v float64) float64 {
		const e = 216.0 / 24389
		if v > e {
			return math.Cbrt(v)
		}
		return (24389.0/27*v + 16) / 116
	}
	x := f((0.4124564*l[0] + 0.3575761*l[1] + 0.1804375*l[2]) / 0.95047)
	y := f(0.2126729*l[0] + 0.7151522*l[1] + 0.0721750*l[2])
	z := f((0.0193339*l[0] + 0.1191920*l[1] + 0.9503041*l[2]) / 1.08883)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

// ciede2000 is the colour difference of CIE 142-2001 with weights of 1, as Sharma, Wu and Dalal write it down, Color Research
// and Application 30 (2005), equations 2 to 22.
func ciede2000(p, q [3]float64) float64 {
	const degree = math.Pi / 180
	far := func(c float64) float64 { return math.Sqrt(math.Pow(c, 7) / (math.Pow(c, 7) + math.Pow(25, 7))) }
	g := 1 + 0.5*(1-far((math.Hypot(p[1], p[2])+math.Hypot(q[1], q[2]))/2))
	c1, c2 := math.Hypot(g*p[1], p[2]), math.Hypot(g*q[1], q[2])
	hue := func(v [3]float64) float64 { return math.Mod(math.Atan2(v[2], g*v[1])/degree+360, 360) }
	h1, h2 := hue(p), hue(q)
	turn, mean := h2-h1, (h1+h2)/2
	switch {
	case c1*c2 == 0:
		turn, mean = 0, h1+h2
	case turn > 180:
		turn, mean = turn-360, math.Mod(mean+180, 360)
	case turn < -180:
		turn, mean = turn+360, math.Mod(mean+180, 360)
	}
	l, c := (p[0]+q[0])/2, (c1+c2)/2
	cos := func(d float64) float64 { return math.Cos(d * degree) }
	t := 1 - 0.17*cos(mean-30) + 0.24*cos(2*mean) + 0.32*cos(3*mean+6) - 0.20*cos(4*mean-63)
	dl := (q[0] - p[0]) / (1 + 0.015*(l-50)*(l-50)/math.Sqrt(20+(l-50)*(l-50)))
	dc := (c2 - c1) / (1 + 0.045*c)
	dh := 2 * math.Sqrt(c1*c2) * math.Sin(turn/2*degree) / (1 + 0.015*c*t)
	r := -2 * far(c) * math.Sin(60*degree*math.Exp(-math.Pow((mean-275)/25, 2)))
	return math.Sqrt(dl*dl + dc*dc + dh*dh + r*dc*dh)
}

// TestColourArithmetic holds what the theme is measured with against published values and what has to be so.
func TestColourArithmetic(t *testing.T) {
	near := func(what string, got, want, within float64) {
		t.Helper()
		if math.Abs(got-want) > within {
			t.Errorf("%s is %.4f, wanted %.4f", what, got, want)
		}
	}
	// WCAG 2.1: black on white is 21:1. #767676 is the darkest usual example of a grey that passes on white, 4.54 (from memory).
	near("black on white", contrast(hex(t, "#000000"), hex(t, "#ffffff")), 21, 1e-9)
	near("#767676 on white", contrast(hex(t, "#767676"), hex(t, "#ffffff")), 4.54, 0.005)
	// Sharma, Wu and Dalal (2005), table 1, pairs 1, 7, 9 and 17 (from memory).
	for _, c := range []struct {
		p, q [3]float64
		want float64
	}{
		{[3]float64{50, 2.6772, -79.7751}, [3]float64{50, 0, -82.7485}, 2.0425},
		{[3]float64{50, 0, 0}, [3]float64{50, -1, 2}, 2.3669},
		{[3]float64{50, 2.49, -0.001}, [3]float64{50, -2.49, 0.0009}, 7.1792},
		{[3]float64{50, 2.5, 0}, [3]float64{73, 25, -18}, 27.1492},
	} {
		near(fmt.Sprint(c.p, c.q), ciede2000(c.p, c.q), c.want, 5e-5)
		near(fmt.Sprint(c.q, c.p), ciede2000(c.q, c.p), c.want, 5e-5)
	}
	near("white's lightness", lab([3]float64{1, 1, 1})[0], 100, 1e-4)
	for name, m := range deficiencies {
		for _, row := range m {
			// What has no colour keeps its grey.
			near(name+": a row's sum", row[0]+row[1]+row[2], 1, 2e-6)
		}
	}
	if red, green := hex(t, "#b03030"), hex(t, "#4c7a2e"); ciede2000(lab(red.seenWith(deficiencies["deuteranopia"])),
		lab(green.seenWith(deficiencies["deuteranopia"]))) > ciede2000(lab(red.linear(0.04045)), lab(green.linear(0.04045)))/2 {
		t.Error("red and green are as far apart without the middle cones")
	}
}
