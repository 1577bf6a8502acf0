// Package lane knows the lane and what a ball does on it: boards and feet, where the pins and the pocket are, the path of
// a ball over oil and dry, what a move of feet and target does, and what the hits of an evening say of the lane and of the
// next move.
//
// All boards are real numbers counted from the student's own side, 1 to 39; the middle of the lane is board 20. A
// left-hander's lane is the mirror image of a right-hander's, so every formula is the same for both hands; [Mirror] is for
// drawing them on one lane. Plus is towards the bowler's inside, to higher boards. Distances are in feet from the foul line,
// the head pin at 60. A launch angle is plus towards the gutter on the bowler's own side, an entry angle plus towards the
// other.
//
// A board at the pins foretold from speed, revs and friction is worth little; differences are good to tenths. So what is
// built on the path speaks of moves and differences. [LeftOut] says what the path leaves out.
//
// The package must not know keys, screens, the disk or the clock.
package lane
