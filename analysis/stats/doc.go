// Package stats holds the inference behind the figures: intervals, exact and stratified tests, control charts,
// survival curves, shrinkage and sample plans. It takes plain counts and numbers and gives plain numbers back. It knows
// nothing of jobs, tables, files or printing, keeps no state and never changes an argument.
//
// A figure that the input does not determine (a ratio over a zero count, an interval where nothing was observed) is
// reported as not defined and never as NaN or infinity. An error is returned only for input that no history can hold:
// a count above its number of units, a level outside 0 to 1, a probability that is not one.
//
// Sums and differences that hold a product write it as float64(a*b), which forbids the compiler to fuse the two
// operations: the last digit is then the same on every processor.
package stats
