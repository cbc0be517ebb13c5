// Package record writes down what a bundle holds: names of jobs, fields and lines of tables, moments, and names that are safe
// for files and for eyes. One form each, so that a hash can stand on it. It reads and writes no files.
package record
