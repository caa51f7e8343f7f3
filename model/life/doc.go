// Package life tells what became of the springs of a head in service: how far it ran, what load each spring lost against which
// baseline, how that goes on, and what falls due. It takes a set-up with what was worked out of it, runs and checks, and gives
// numbers and lines; it reads no file and no clock.
//
// A loss is of two loads at one height, from one tester. A load that was read at another height is carried to the baseline's by
// the rate of the spring between seat and full lift, and says so; without a rate it is not compared, since a valve that sank is
// not a spring that lost load. What all readings of a tester share changes no loss and is left out of its uncertainty.
package life
