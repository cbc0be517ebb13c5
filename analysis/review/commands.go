package review

import "fmt"

// A page names the command that gives its numbers, with the filters and the point of view that it was made with.

// allCommand is a command over all records up to the month's end.
func (a About) allCommand(command string) string {
	if a.Filter.From != nil {
		command += " --from " + a.Filter.From.Format("2006-01-02T15:04:05")
	}
	if a.Scope.LastMonth == nil || a.Month != *a.Scope.LastMonth {
		command += " --to " + a.Month
	}
	return a.pointOfView(command)
}

// yearCommand is a command over the twelve months that end with the review's.
func (a About) yearCommand(command string) string {
	return a.pointOfView(fmt.Sprintf("%s --from %s --to %s", command, a.From.AddDate(0, -11, 0).Format("2006-01"), a.Month))
}

// monthCommand is a command over the month alone.
func (a About) monthCommand(command string) string {
	return a.pointOfView(fmt.Sprintf("%s --from %s --to %s", command, a.Month, a.Month))
}

// pointOfView adds shop, as-of and window where they are not the usual ones.
func (a About) pointOfView(command string) string {
	if a.Filter.Shop != "" {
		command += " --shop " + argument(a.Filter.Shop)
	}
	if a.AsOfAsked {
		command += " --as-of " + a.Scope.AsOf.Format("2006-01-02T15:04:05")
	}
	if a.Scope.WindowDays != 90 {
		command += fmt.Sprintf(" --window %d", a.Scope.WindowDays)
	}
	return command
}
