// Package invent makes up the history of a group of calibration shops: its
// vehicles, people, stands, jobs and the records that they leave. Everything
// in it is invented; the rates are chosen to be plausible, not measured.
//
// The story that a reader may discover, and the file that plants it:
//
//   - One supplier's equivalent windshields for one model fail their first
//     calibration five to six times as often as other glass on it, and come
//     back (story_supplier.go).
//   - One stand in the first shop walks away in the summer of 2025, one in the
//     second in April 2026; each is found out, used for a few days more, and
//     repaired (story_stand.go).
//   - What the shops did about it: the first stand's repair helped, looking at
//     the supplier's glass did not, the rest is too young to tell
//     (story_actions.go).
//   - The third shop leaves out post-scans (shops.go).
//   - Aftermarket windshields look worse than the maker's own, because they
//     mostly go onto models that are hard to calibrate anyway; on the same
//     model there is no difference (glass.go, models.go).
//   - One technician of the third shop copies ride heights from the vehicle
//     before (story_copying.go).
//   - One target board failed its check and stayed in use for two days, one
//     was used before its first check, one check came late (equipment.go).
//   - Job by job, rarely: the slips of people who keep records (slips_*.go).
//
// A group has three shops and about four thousand jobs in two years. A longer
// history is more groups, each with its own shops, people and vehicles; the
// supplier and the glass are the same everywhere, the stand and the copying
// technician are the first group's.
//
// All chance comes from one PCG stream a group, so that the same plan always
// gives the same history.
package invent
