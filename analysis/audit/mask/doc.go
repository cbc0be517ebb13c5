// Package mask replaces vehicle identification numbers, claim numbers and technicians by tokens that are equal where the
// values are, in their own columns and in every other text.
package mask
