package audit

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/base32"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// A MaskField is what can be masked in a bundle.
type MaskField string

// The maskable fields. A complaint is dropped, for words cannot be masked; the others become tokens.
const (
	MaskVIN        MaskField = "vin"
	MaskClaim      MaskField = "claim"
	MaskTechnician MaskField = "technician"
	MaskComplaint  MaskField = "complaint"
)

// MaskFields lists them.
var MaskFields = []MaskField{MaskVIN, MaskClaim, MaskTechnician, MaskComplaint}

// ParseMask reads a list such as "vin,claim".
func ParseMask(text string) ([]MaskField, error) {
	var fields []MaskField
	for _, name := range strings.Split(text, ",") {
		field := MaskField(strings.ToLower(strings.TrimSpace(name)))
		if field == "" {
			continue
		}
		if !slices.Contains(MaskFields, field) {
			return nil, fmt.Errorf("%q cannot be masked; write one or more of vin, claim, technician, complaint", name)
		}
		if !slices.Contains(fields, field) {
			fields = append(fields, field)
		}
	}
	if len(fields) == 0 {
		return nil, fmt.Errorf("%q names nothing to mask; write one or more of vin, claim, technician, complaint", text)
	}
	slices.Sort(fields)
	return fields, nil
}

// errMaskNeedsKey says why a mask does not go without a key: a vehicle identification number can be guessed, and what
// anyone can compute from a guess hides nothing.
var errMaskNeedsKey = errors.New("masking needs a key of the shop's: name a key file with --key; " +
	"without one, anyone could try all numbers until one gives the token")

// maskedColumns says which field each column belongs to.
var maskedColumns = map[string]MaskField{
	"vin": MaskVIN, "claim_no": MaskClaim, "technician": MaskTechnician, "installer": MaskTechnician,
	"complaint": MaskComplaint,
}

// masker replaces values by tokens that are equal where the values are, within one bundle only.
//
//	bundle key = HMAC-SHA-256(seed of the shop's key, "plumbline mask" || scope || digest of all imported files)
//	token      = first 80 bits of HMAC-SHA-256(bundle key, field || 0x1f || value), base 32
//
// The scope is the bundle's insurer, shop, period, as-of and window: another bundle has another key, and tokens of the
// two cannot be joined without the seed. A technician's code is one shop's own and is masked with the shop's name.
// Source: RFC 2104 for HMAC; the derivation is the project's own.
type masker struct {
	fields []MaskField
	key    []byte
	known  map[jobKey][]string // values to look for in a job's other texts, and their tokens, in turn
}

// newMasker makes a masker that changes nothing where no field is masked.
func newMasker(fields []MaskField, key *Key, scope ...string) (*masker, error) {
	m := &masker{fields: fields, known: map[jobKey][]string{}}
	if len(fields) == 0 {
		return m, nil
	}
	if key == nil {
		return nil, errMaskNeedsKey
	}
	m.key = sum(key.private.Seed(), append([]string{"plumbline mask"}, scope...)...)
	return m, nil
}

// sum is HMAC-SHA-256 over parts, kept apart by a character that no part holds.
func sum(key []byte, parts ...string) []byte {
	mac := hmac.New(sha256.New, key)
	mac.Write([]byte(strings.Join(parts, "\x1f")))
	return mac.Sum(nil)
}

func (m *masker) token(field MaskField, shop, value string) string {
	if field == MaskTechnician {
		value = shop + "\x1f" + value
	}
	return string(field) + "-" + base32.StdEncoding.EncodeToString(sum(m.key, string(field), value)[:10])
}

func (m *masker) masks(field MaskField) bool { return slices.Contains(m.fields, field) }

// row masks a row in place. Jobs come first: their VIN and claim number are then looked for in all other texts of the
// job too, such as the name of a document.
func (m *masker) row(columns []column, row []any) {
	if len(m.fields) == 0 {
		return
	}
	job := keyOf(row)
	for i, c := range columns {
		value, isText := row[i].(string)
		field, maskable := maskedColumns[c.name]
		if !isText || !maskable || !m.masks(field) {
			continue
		}
		if field == MaskComplaint {
			row[i] = nil
			continue
		}
		token := m.token(field, job.shop, value)
		row[i] = token
		if field != MaskTechnician && len(value) >= 4 { // shorter ones stand in other texts by chance
			m.known[job] = append(m.known[job], value, token)
		}
	}
	m.scrub(columns, row, strings.NewReplacer(m.known[job]...))
}

func (m *masker) scrub(columns []column, row []any, tokens *strings.Replacer) {
	for i := 2; i < len(row) && i < len(columns); i++ {
		if text, isText := row[i].(string); isText && maskedColumns[columns[i].name] == "" {
			row[i] = tokens.Replace(text)
		}
	}
}
