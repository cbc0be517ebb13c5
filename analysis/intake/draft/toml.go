package draft

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// render writes the draft as a profile. A record is written where every column that it must have was found for sure;
// else it is commented out as a whole, and what it lacks is told.
func (d *drafting) render() {
	var out strings.Builder
	base := filepath.Base(d.File)
	fmt.Fprintf(&out, "# Draft of a mapping profile for %s. Each line says how sure it is and shows values.\n", base)
	out.WriteString("# What is commented out was not sure enough: look at it, and take the # away where it is right.\n")
	for _, notice := range d.Notices {
		fmt.Fprintf(&out, "# Look: %s\n", strings.Join(strings.Fields(notice), " "))
	}
	fmt.Fprintf(&out, "name = %s\n\n[source]\n", tomlText(strings.TrimSuffix(base, filepath.Ext(base))))
	if d.sheet != "" {
		fmt.Fprintf(&out, "sheet = %s\n", tomlText(d.sheet))
	}
	switch {
	case d.headless != "":
		fmt.Fprintf(&out, "header_row = 0   # no row names the columns; by their place they are column 1, column 2 …\n")
	case len(d.headerRows) > 0:
		fmt.Fprintf(&out, "header_rows = [%d, %d]\n", d.headerRows[0], d.headerRows[1])
	default:
		fmt.Fprintf(&out, "header_row = %d\n", d.HeaderRow)
	}
	out.WriteString(d.dateLines() + d.markLines())
	if job := d.found("jobs", "job_no", ""); job != nil {
		fmt.Fprintf(&out, "skip = [{ column = %s, matches = '(?i)^\\s*$|^(sub)?total' }]   # rows without a job number, and totals\n", tomlText(d.header[job.at]))
	}
	out.WriteString("\n[shared]   # what every record has\n")
	for _, name := range []string{"shop", "job_no"} {
		out.WriteString(d.sharedLine(name) + "\n")
	}
	for _, record := range d.records() {
		d.renderRecord(&out, record)
	}
	d.renderUnmapped(&out)
	d.TOML = out.String()
}

// sharedLine is the line of the shop or the job's number.
func (d *drafting) sharedLine(name string) string {
	g := d.found("jobs", name, "")
	switch {
	case g == nil && name == "shop":
		d.Missing = append(d.Missing, "jobs.shop")
		return `# shop = { constant = "the shop's name" }   # no column found: write the name and take the first # away`
	case g == nil:
		d.Missing = append(d.Missing, "jobs."+name)
		return fmt.Sprintf("# %s = \"\"   # no column found", name)
	case g.score < sure:
		d.Missing = append(d.Missing, "jobs."+name)
		return fmt.Sprintf("# %s = %s%s", name, tomlText(d.header[g.at]), d.note(g))
	}
	return fmt.Sprintf("%s = %s%s", name, tomlText(d.header[g.at]), d.note(g))
}

// found is the column taken for one of the layout; nil where there is none.
func (d *drafting) found(kind, field, place string) *guess {
	for i := range d.taken {
		if g := &d.taken[i]; g.kind == kind && g.field == field && g.place == place {
			return g
		}
	}
	return nil
}

// note says how sure a guess is, and what its values are.
func (d *drafting) note(g *guess) string {
	return fmt.Sprintf("   # %.0f %% sure; %s", 100*g.score, samplesOf(d.values[g.at]))
}

// renderUnmapped lists the columns that nothing was found for, with what they might be.
func (d *drafting) renderUnmapped(out *strings.Builder) {
	title := "\n# Not mapped:\n"
	for i, name := range d.header {
		isTaken := slices.ContainsFunc(d.taken, func(g guess) bool { return g.at == i })
		if name == "" || isTaken || d.used[i] {
			continue
		}
		out.WriteString(title)
		title = ""
		fmt.Fprintf(out, "#   %s   %s%s\n", tomlText(name), samplesOf(d.values[i]), candidates(d.others[i]))
	}
}

func candidates(guesses []guess) string {
	var names []string
	for _, g := range guesses[:min(3, len(guesses))] {
		names = append(names, fmt.Sprintf("%s.%s (%.0f %%)", g.kind, g.field, 100*g.score))
	}
	if len(names) == 0 {
		return ""
	}
	return "; might be " + strings.Join(names, ", ")
}

var (
	slashedDay   = regexp.MustCompile(`^(\d{1,2})[/.-] ?(\d{1,2})[/.-] ?(\d{2}|\d{4})\b`)
	serialDay    = regexp.MustCompile(`^[34]\d{4}(\.\d+)?$`)
	commaDecimal = regexp.MustCompile(`^[+-]?(\d{1,3}(\.\d{3})+|\d+),(\d{1,2}|\d{4,})$|^[+-]?\d{1,3}(\.\d{3})+,\d+$`)
	commaGroups  = regexp.MustCompile(`^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$`)
	pointGroups  = regexp.MustCompile(`^[+-]?\d{1,3}(\.\d{3})+$`)
)

// dateLines finds the order of the dates; what the values leave open is commented out.
func (d *drafting) dateLines() string {
	slashed, dayFirst, monthFirst, serial := 0, 0, 0, 0
	for _, g := range d.taken {
		if column := layout.KindNamed(g.kind).Column(g.field); column == nil || !column.IsMoment() {
			continue
		}
		for _, value := range d.values[g.at] {
			if serialDay.MatchString(value) {
				serial++
			}
			if match := slashedDay.FindStringSubmatch(value); match != nil {
				one, _ := strconv.Atoi(match[1])
				other, _ := strconv.Atoi(match[2])
				slashed++
				dayFirst += btoi(one > 12)
				monthFirst += btoi(other > 12)
			}
		}
	}
	lines := ""
	switch {
	case slashed > 0 && monthFirst > 0 && dayFirst == 0:
		lines = "date_order = \"mdy\"\n"
	case slashed > 0 && dayFirst > 0 && monthFirst == 0:
		lines = "date_order = \"dmy\"\n"
	case slashed > 0:
		d.Missing = append(d.Missing, "source.date_order")
		lines = "# date_order = \"mdy\"   # or \"dmy\": the dates do not tell\n"
	}
	if serial > 0 && d.sheet == "" {
		lines += "date_serials = \"1900\"   # numbers that are days of a spreadsheet; \"1904\" where it counts from 1904\n"
	}
	return lines
}

func btoi(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// markLines finds the marks in the numbers.
func (d *drafting) markLines() string {
	commaIsDecimal, commaParts, pointParts := 0, 0, ""
	for i, values := range d.values {
		if share(values, source.LooksNumber.MatchString) < 0.6 {
			values = itemNumbers(values)
		}
		for _, value := range values {
			commaIsDecimal += btoi(commaDecimal.MatchString(value))
			commaParts += btoi(commaGroups.MatchString(value))
		}
		if len(values) > 0 && share(values, pointGroups.MatchString) > 0.9 {
			pointParts = d.header[i]
		}
	}
	switch {
	case commaIsDecimal > 0:
		return "decimal = \",\"\nthousands = \".\"\n"
	case commaParts > 0:
		return "thousands = \",\"\n"
	case pointParts != "":
		return fmt.Sprintf("# thousands = \".\"   # if the point parts thousands in %s\n", pointParts)
	}
	return ""
}

// itemNumbers takes the numbers out of cells that hold a unit too.
func itemNumbers(values []string) []string {
	var numbers []string
	for _, value := range values {
		if match := numberInUnit.FindStringSubmatch(value); match != nil {
			numbers = append(numbers, match[1])
		}
	}
	return numbers
}

// tomlText writes a basic string: TOML takes all escapes of JSON, but wants one for DEL too.
func tomlText(text string) string {
	var out strings.Builder
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(text); err != nil {
		panic(err) // a text always encodes
	}
	return strings.ReplaceAll(strings.TrimSpace(out.String()), "\x7f", `\u007F`)
}

func samplesOf(values []string) string {
	var shown []string
	for _, value := range distinct(values)[:min(3, len(distinct(values)))] {
		shown = append(shown, strconv.Quote(source.Shortened(value)))
	}
	if len(shown) == 0 {
		return "no values"
	}
	return "such as " + strings.Join(shown, ", ")
}
