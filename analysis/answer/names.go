package answer

import (
	"strings"

	"plumbline/analysis/exhibit/say"
	"plumbline/analysis/quality"
)

// sourceName is a windshield's source for a reader: the trade's abbreviations in capitals.
func sourceName(source string) string {
	if source == "oem" || source == "oee" {
		return strings.ToUpper(source)
	}
	return say.Plain(source)
}

// outcomes in words, as the name of what a chart shows.
var outcomeNames = map[quality.Outcome]string{
	quality.NotFirstPass:  "not first pass",
	quality.Comeback:      "comebacks",
	quality.PostScanFault: "jobs with a fault left",
	quality.OpenFaults:    "open faults",
}

func outcomeName(outcome string) string { return outcomeNames[quality.Outcome(outcome)] }

// what an outcome is counted in: one, several.
var outcomeUnits = map[quality.Outcome][2]string{
	quality.NotFirstPass:  {"task", "tasks"},
	quality.Comeback:      {"job followed for the whole window", "jobs followed for the whole window"},
	quality.PostScanFault: {"job scanned before and after", "jobs scanned before and after"},
	quality.OpenFaults:    {"job scanned after", "jobs scanned after"},
}

func unitsOf(o quality.Outcome) string { return outcomeUnits[o][1] }

// groupings in words, where a reader would not know the word of the records.
var groupingNames = map[string]string{
	"equipment": "stand or frame", "target": "target board", "source": "glass source",
	"software_version": "software version", "hour": "hour of the day", "weekday": "day of the week",
	"brand": "glass brand", "supplier": "glass supplier",
}

// GroupingName is what makes a group, for a reader.
func GroupingName(by string) string {
	if name, ok := groupingNames[by]; ok {
		return name
	}
	return say.Plain(by)
}

func groupingHeading(by string) string { return say.Sentence(GroupingName(by)) }

// article puts a or an before a noun.
func article(noun string) string {
	if strings.ContainsAny(noun[:1], "aeiou") {
		return "an " + noun
	}
	return "a " + noun
}

// SubjectName is a stand, a board, a bay or a person for a reader.
func SubjectName(kind, name string) string { return groupingHeading(kind) + " " + name }
