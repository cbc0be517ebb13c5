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
	fields     []MaskField
	key        []byte
	everywhere vocabulary
	own        map[jobKey][]*known // of each job met: its VIN and its claim number
	left       residue
}

// newMasker makes a masker that changes nothing where no field is masked.
func newMasker(fields []MaskField, key *Key, scope ...string) (*masker, error) {
	m := &masker{fields: fields, everywhere: vocabulary{}, own: map[jobKey][]*known{}, left: residue{texts: map[string]int{}}}
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

// row masks a row in place: a value in its own column becomes its token whatever it looks like, and all other texts are
// searched. The rows of jobs come first, so that the values of the job itself are known by then.
func (m *masker) row(table string, columns []column, row []any) {
	if len(m.fields) == 0 {
		return
	}
	job := keyOf(row)
	if table == "jobs" {
		m.meet(job, columns, row)
	}
	for i, c := range columns {
		text, isText := row[i].(string)
		field, maskable := maskedColumns[c.name]
		switch {
		case !isText, settledColumns[c.name]:
		case !maskable || !m.masks(field):
			masked, isDoubtful := m.text(job, text)
			if row[i] = masked; isDoubtful {
				m.left.texts[table+"."+c.name]++
			}
		case field == MaskComplaint:
			row[i] = nil
		default:
			row[i] = m.token(field, job.shop, text)
		}
	}
}

// meet takes note of a job's own values, before any of its texts is searched.
func (m *masker) meet(job jobKey, columns []column, row []any) {
	var own []*known
	for i, c := range columns {
		value, isText := row[i].(string)
		field := maskedColumns[c.name]
		if isText && m.masks(field) && (field == MaskVIN || field == MaskClaim) && !layoutWords()[strings.ToLower(value)] {
			own = append(own, ownValue(field, value))
		}
	}
	m.own[job] = own
	if m.holds(job, job.shop) || m.holds(job, job.jobNo) {
		m.left.jobs = append(m.left.jobs, job)
	}
}
