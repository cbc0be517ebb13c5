// Package policy reads a requirement policy, makes it the one that the history is judged by, and says how complete a scope of
// jobs is. What is missing is the work of queries/measures/audit_missing.sql.
package policy
