package policy

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

// A Policy says what a job must have on record to be complete.
type Policy struct {
	Name  string `toml:"name"`
	Rules []Rule `toml:"require"`

	Text []byte // as it was read, for the bundle
}

// A Rule asks something of the closed calibrated jobs that it is for. An empty list of insurers, systems, reasons or
// glass sources means any.
type Rule struct {
	Insurer oneOrMore[insurerName, *insurerName] `toml:"insurer"`
	System  oneOrMore[systemWord, *systemWord]   `toml:"system"`
	Reason  oneOrMore[reasonWord, *reasonWord]   `toml:"reason"`
	Source  oneOrMore[sourceWord, *sourceWord]   `toml:"source"`

	Scans             []stageWord           `toml:"scans"`
	Documents         map[documentWord]int  `toml:"documents"` // kind and least number
	RoadTest          bool                  `toml:"road_test"`
	Measurements      []quantityWord        `toml:"measurements"`
	EquipmentVerified bool                  `toml:"equipment_verified"`
	ProcedureNamed    bool                  `toml:"procedure_named"`
	Sequence          []sequenceWord        `toml:"sequence"`
	Hours             map[limitWord]float64 `toml:"hours"`
}

//go:embed policies/common-practice.toml
var commonPractice []byte

// CommonPractice is the policy that counts where the user names none: common practice, no source.
func CommonPractice() Policy {
	policy, err := Read("common-practice.toml", commonPractice)
	if err != nil {
		panic(err) // the file is embedded and tested
	}
	return policy
}

// LoadPolicy reads a policy from a TOML file.
func Load(path string) (Policy, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return Policy{}, fmt.Errorf("policy: %w", err)
	}
	return Read(path, text)
}

// A PolicyError says what is wrong with a policy, in which line, and what to write instead.
type Error struct {
	File   string
	Line   int // from 1; 0 where no single line is at fault
	Detail string
	Remedy string
}

// Error gives the place first and the remedy in a second line.
func (e *Error) Error() string {
	place := e.File
	if e.Line > 0 {
		place = fmt.Sprintf("%s:%d", e.File, e.Line)
	}
	return fmt.Sprintf("%s: %s\n  %s", place, e.Detail, e.Remedy)
}

// ReadPolicy reads a policy from TOML; name stands in messages. An unknown key, a word outside its list or a value of
// the wrong type is a PolicyError.
func Read(name string, text []byte) (Policy, error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	var policy Policy
	err := toml.NewDecoder(bytes.NewReader(text)).DisallowUnknownFields().Decode(&policy)
	if err != nil {
		return Policy{}, policyError(name, text, err)
	}
	policy.Text = text
	if strings.TrimSpace(policy.Name) == "" {
		return Policy{}, &Error{name, 0, "the policy has no name", `write name = "…" in the first line`}
	}
	return policy, policy.check(name, text)
}

// policyError finds the line in what the TOML reader says.
func policyError(name string, text []byte, err error) error {
	var unknown *toml.StrictMissingError
	if errors.As(err, &unknown) && len(unknown.Errors) > 0 {
		first := unknown.Errors[0]
		line, _ := first.Position()
		return &Error{name, line, fmt.Sprintf("%q is not a key of a policy", strings.Join(first.Key(), ".")),
			"keys of a rule are " + strings.Join(ruleKeys(), ", ")}
	}
	var wrong *wordError
	if errors.As(err, &wrong) { // a key: its place is not told
		detail, remedy, _ := strings.Cut(wrong.Error(), "\n")
		return &Error{name, lineOf(text, wrong.text), detail, remedy}
	}
	var at *toml.DecodeError
	if !errors.As(err, &at) {
		return &Error{name, 0, strings.TrimPrefix(err.Error(), "toml: "), compareDefault}
	}
	line, _ := at.Position()
	message := strings.TrimPrefix(at.Error(), "toml: ")
	if detail, remedy, isWord := strings.Cut(message, "\n"); isWord {
		return &Error{name, line, detail, remedy}
	}
	if strings.Contains(message, "cannot ") { // the rest names our types
		message = "a value of another type belongs here"
	}
	return &Error{name, line, message, compareDefault}
}

const compareDefault = "compare with policy.toml in any bundle, which shows the form"

// lineOf tells the first line that holds a word outside comments; 0 where none does.
func lineOf(text []byte, word string) int {
	for i, line := range strings.Split(string(text), "\n") {
		if code, _, _ := strings.Cut(line, "#"); strings.Contains(code, word) {
			return i + 1
		}
	}
	return 0
}
