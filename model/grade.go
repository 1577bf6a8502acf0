package model

import "fmt"

// ShotGrade is the letter with plus or minus that a delivery's letters give. The zero ShotGrade is "not graded".
type ShotGrade uint8

// The shot grades, worst first, so that a better grade compares greater.
const (
	Ungraded ShotGrade = iota
	GradeF
	GradeDMinus
	GradeD
	GradeDPlus
	GradeCMinus
	GradeC
	GradeCPlus
	GradeBMinus
	GradeB
	GradeBPlus
	GradeAMinus
	GradeA
)

var gradeNames = [...]string{"", "F", "D-", "D", "D+", "C-", "C", "C+", "B-", "B", "B+", "A-", "A"}

// gradePoints holds the usual 4.0 scale; cuts has its source.
var gradePoints = [...]float64{0, 0, 0.7, 1.0, 1.3, 1.7, 2.0, 2.3, 2.7, 3.0, 3.3, 3.7, 4.0}

// cuts holds, for each grade from A down to D-, the hundredths of a point above which a shot earns it. They lie half way
// between neighbours of the usual 4.0 scale (A 4.0, A- 3.7, B+ 3.3, B 3.0, B- 2.7, C+ 2.3, C 2.0, C- 1.7, D+ 1.3,
// D 1.0, D- 0.7, F 0.0: Quinebaug Valley Community College handbook, 2006), and a tie goes to the lower grade.
var cuts = [...]struct {
	grade ShotGrade
	above int
}{
	{GradeA, 385}, {GradeAMinus, 350}, {GradeBPlus, 315}, {GradeB, 285}, {GradeBMinus, 250}, {GradeCPlus, 215},
	{GradeC, 185}, {GradeCMinus, 150}, {GradeDPlus, 115}, {GradeD, 85}, {GradeDMinus, 35},
}

// Grade gives the shot grade of a delivery's letters under the weights: the nearest on the 4.0 scale, the lower one on a
// tie, Ungraded where no watched axis has a weight. The arithmetic is in integers.
func Grade(l Letters, w Weights) ShotGrade {
	points, watched := 0, 0
	for _, a := range Axes {
		if l[a] == NoLetter {
			continue
		}
		points += w[a] * l[a].Points()
		watched += w[a]
	}
	if watched == 0 {
		return Ungraded
	}
	for _, c := range cuts {
		if points*100 > c.above*watched {
			return c.grade
		}
	}
	return GradeF
}

// IsGood tells whether letters make a good shot: a shot grade at or above the bar and no axis below C.
func IsGood(l Letters, w Weights, bar ShotGrade) bool {
	for _, letter := range l {
		if letter != NoLetter && letter < C {
			return false
		}
	}
	g := Grade(l, w)
	return g != Ungraded && g >= bar
}

// Points gives the grade on the usual 4.0 scale: 4.0 for A, 3.7 for A-, down to 0 for F and for not graded.
func (g ShotGrade) Points() float64 {
	if int(g) < len(gradePoints) {
		return gradePoints[g]
	}
	return 0
}

// String gives "A-" and the like, "" for not graded.
func (g ShotGrade) String() string {
	if int(g) < len(gradeNames) {
		return gradeNames[g]
	}
	return fmt.Sprintf("grade(%d)", uint8(g))
}

// ParseShotGrade reads "A", "A-", "B+" and so on to "F".
func ParseShotGrade(s string) (ShotGrade, error) {
	for i, name := range gradeNames {
		if i > 0 && s == name {
			return ShotGrade(i), nil
		}
	}
	return Ungraded, fmt.Errorf("%q is no shot grade: use A, A-, B+ and so on to F", s)
}
