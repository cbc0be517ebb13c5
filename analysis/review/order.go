package review

import (
	"cmp"
	"slices"

	"plumbline/analysis/quality"
)

// sortGroups puts the highest rate first; equal ones in the order of their names.
func sortGroups(groups []quality.Group) {
	slices.SortStableFunc(groups, func(one, other quality.Group) int {
		return cmp.Or(cmp.Compare(other.Rate, one.Rate), cmp.Compare(one.Group, other.Group))
	})
}
