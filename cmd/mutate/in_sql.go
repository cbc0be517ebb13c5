package main

import (
	"regexp"
	"strconv"
	"strings"
)

// sqlTokens splits a query: what is quoted and what is said in a comment are no sites.
var sqlTokens = regexp.MustCompile(`(?s)--[^\n]*|'[^']*'|"[^"]*"|\$\w+|\bis not null\b|\bis null\b|\bis not distinct from\b|` +
	`\bis distinct from\b|\bleft join\b|\bnulls (?:first|last)\b|\bunion all\b|\bunion\b|\w+(?:\.\d+)?|<>|<=|>=|\|\||->|::|[^\s\w]`)

var sqlTurned = map[string]string{
	"<": "<=", "<=": "<", ">": ">=", ">=": ">", "=": "<>", "<>": "=", "and": "or", "or": "and", "+": "-", "-": "+", "/": "*",
	"is null": "is not null", "is not null": "is null", "is distinct from": "is not distinct from",
	"is not distinct from": "is distinct from", "left join": "join", "nulls first": "nulls last", "nulls last": "nulls first",
	"union all": "union", "not": "", "distinct": "", "desc": "asc", "min": "max", "max": "min", "lead": "lag", "lag": "lead",
	"greatest": "least", "least": "greatest", "coalesce": "nullif", "semi": "anti", "anti": "semi", "sum": "max",
	"bool_and": "bool_or", "bool_or": "bool_and", "true": "false", "false": "true", "preceding": "following",
}

// inSQL finds sites in a query: operators, words that have an opposite, and whole numbers.
func inSQL(text []byte) ([]site, error) {
	var found []site
	between := false
	for _, place := range sqlTokens.FindAllIndex(text, -1) {
		word := strings.ToLower(string(text[place[0]:place[1]]))
		new, ok := sqlTurned[word]
		if number, err := strconv.ParseInt(word, 10, 62); err == nil {
			new, ok = strconv.FormatInt(number+1, 10), true
		}
		if word == "between" {
			between = true
		} else if word == "and" && between { // the two ends of a span, not two conditions
			between, ok = false, false
		}
		if ok {
			found = append(found, site{from: place[0], to: place[1], new: new})
		}
	}
	return found, nil
}
