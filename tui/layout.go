package tui

// roomyWidth is the width from which score, highest possible, letters with plus and minus, and chances are shown.
const roomyWidth = 100

// boardColumns are the widths, in cells, of what stands side by side in a row of the board.
type boardColumns struct {
	// lane is the digits of the highest lane, name the name's cells, figure the good count's, of the goal's beside it.
	lane, name, figure, of int
	// cell is a frame's cells with the blank before it, tenth the last one's.
	cell, tenth int
	// stats is for score, highest possible and chance; 0 where they are not shown.
	stats int
	// all is the cells of a row.
	all int
}

// edge is what stands before the lane: a marker and a bracket or blank.
const edge = 2

// left gives the cells before the frames.
func (c boardColumns) left() int { return edge + c.lane + 1 + c.name + 1 + c.figure + c.of }

// frames gives the cells of ten frames.
func (c boardColumns) frames() int { return 9*c.cell + c.tenth }

// columnsFor shares out w cells for rows of some lines. What is over goes to the name first, then to the frames.
func columnsFor(w, lane, lines int) boardColumns {
	c := boardColumns{lane: lane, figure: figureCells(lines), of: 6, cell: 5, tenth: 6}
	if w >= roomyWidth {
		c.stats = width(statsCells("", "", ""))
	}
	switch {
	case lines == 1:
		c.figure, c.of = 5, 0
	case w < 80:
		c.of = 0
	}
	if w < 80 {
		c.cell, c.tenth = 4, 6
	}
	const name, longestName = 8, 16
	over := func() int { return w - c.stats - c.left() - c.frames() }
	c.name = min(max(over(), name), longestName)
	for c.cell >= 5 && c.cell < 8 && over() >= 10 {
		c.cell++
		c.tenth++
	}
	if over() < 0 {
		c.name = max(c.name+over(), 1)
	}
	c.all = w
	return c
}

// figureCells gives the cells that a good count of two digits takes in rows of some lines.
func figureCells(lines int) int {
	switch {
	case lines >= 4:
		return 11
	case lines == 3:
		return 7
	}
	return 6
}

// boardPlan shares out the lines of the board.
type boardPlan struct {
	// row is the lines of a student's row, gap the blank lines after each.
	row, gap int
	// headings tells whether each pair has a heading; otherwise only the first row has one.
	headings bool
	// panel is the lines at the foot for the student up.
	panel int
	// shown is how many students are shown.
	shown int
}

// The panel's lines: the least that says everything, and those with letters in block figures.
const smallPanel, largePanel = 6, 10

// planFor shares out h lines among students on pairs: the rows as high as they can be with everyone in view, then headings,
// then the panel, then gaps.
func planFor(students, pairs, h, highest int) boardPlan {
	room := h - smallPanel
	for row := highest; row > 0; row-- {
		for _, headings := range []bool{true, false} {
			p := boardPlan{row: row, headings: headings, panel: smallPanel, shown: students}
			if over := room - p.rows(students, pairs); over >= 0 {
				return p.spread(over, students)
			}
		}
	}
	panel := max(min(smallPanel, h-2), 0)
	return boardPlan{row: 1, panel: panel, shown: max(h-panel-1, 0)}
}

// highestRow gives the lines of the highest row in which w cells leave enough for the name.
func (p boardPicture) highestRow(w int) int {
	switch {
	case p.Tight:
		return 1
	case w < 72:
		return 2
	case w < 120:
		return 3
	}
	return 4
}

// rows gives the lines that all students take.
func (p boardPlan) rows(students, pairs int) int {
	if !p.headings {
		pairs = 1
	}
	return students*(p.row+p.gap) + pairs
}

// spread gives lines that are over to the panel and to gaps between the rows.
func (p boardPlan) spread(over, students int) boardPlan {
	const more = largePanel - smallPanel
	// Only the smallest figures fill their lines, and grow together without a gap.
	if p.row == smallFont.lines && over >= students {
		p.gap = 1
		over -= students
	}
	if over >= more {
		p.panel = largePanel
		over -= more
	}
	if p.row > 1 && p.gap == 0 && over >= students {
		p.gap = 1
	}
	return p
}
