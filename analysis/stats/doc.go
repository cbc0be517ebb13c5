// Package stats holds the inference behind the figures: intervals, exact and stratified tests, control charts,
// survival curves, shrinkage and sample plans. It takes plain counts and numbers and gives plain numbers back. It knows
// nothing of jobs, tables, files or printing, keeps no state and never changes an argument.
//
// # Where to look
//
//	one rate             Wilson, ClopperPearson
//	two rates            NewcombeDifference, KatzRatio, WoolfOddsRatio, FisherExact, TwoRatePower, DetectableRates
//	tables               PearsonChiSquared
//	like with like       MantelHaenszel, BreslowDay, Clusters, FisherInClusters
//	many groups          BenjaminiHochberg, FunnelLimits, BetaBinomialFit
//	over time            PChart, UChart, EWMAOfRates, RateCUSUM, ChangePoint
//	measured values      Individuals, EWMA, CUSUM, Pettitt, CapabilityIndices, TerminalDigits
//	time to an event     KaplanMeier, Restrict, LogRankTest
//	sampling             AcceptanceProbability, DiscoverySampleSize
//
// # What comes back
//
// A figure that the input does not determine (a ratio over a zero count, an interval where nothing was observed) is
// reported as not defined and never as NaN or infinity. An error is returned only for input that no history can hold:
// a count above its number of units, a level outside 0 to 1, a probability that is not one.
//
// A p-value lies above 0 and up to 1. It keeps its digits down to about 1e-300; below 5e-324, where a float64 holds only 0,
// that number stands for it.
//
// # Sameness
//
// Sums and differences that hold a product write it as float64(a*b), which forbids the compiler to fuse the two operations;
// fused ones would differ between processors. Sums run in a fixed order. Exponentials and logarithms can still differ in
// their last digit, far below the ten digits that are ever written. What is drawn at random comes from a seed that the
// caller gives and that is handed back with the result.
package stats
