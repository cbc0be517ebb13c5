// Package audit makes the bundle that an insurer asks for: its jobs and nothing of anyone else's, as a workbook, as CSV
// and as a page to read, with what the requirement policy asks for and the record lacks, a sample to inspect, and a
// manifest by which anyone can check with standard tools that nothing was changed.
//
// What a record means and what is missing belongs to the SQL in queries/, probabilities to stats. This package writes
// files: it chooses, masks, draws, hashes, signs and verifies. Verifying reads nothing but the bundle.
package audit
