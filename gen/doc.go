// Package gen turns a job and a machine into a cutting plan: the pair, the
// blank, the setup and a cycle of phases, with findings on all that is wrong
// or doubtful.
//
// Lengths are millimetres, angles radians and rotations turns, with the signs
// of package geometry, unless a name says otherwise. A strategy, one way of
// feeding the hob, is one file and one row of the table strategies.
package gen
