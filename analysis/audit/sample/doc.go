// Package sample draws the jobs to inspect: a single sampling plan by lot, level and AQL, a discovery sample, or both, from a
// seed, so that anyone can repeat the draw.
package sample
