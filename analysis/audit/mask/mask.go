package mask

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/base32"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strings"

	"plumbline/analysis/audit/record"
)

// A MaskField is what can be masked in a bundle.
type Field string

// The maskable fields. A complaint is dropped, for words cannot be masked; the others become tokens.
const (
	VIN        Field = "vin"
	Claim      Field = "claim"
	Technician Field = "technician"
	Complaint  Field = "complaint"
)

// MaskFields lists them.
var Fields = []Field{VIN, Claim, Technician, Complaint}

// ParseMask reads a list such as "vin,claim".
func Parse(text string) ([]Field, error) {
	var fields []Field
	for _, name := range strings.Split(text, ",") {
		field := Field(strings.ToLower(strings.TrimSpace(name)))
		if field == "" {
			continue
		}
		if !slices.Contains(Fields, field) {
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
var ErrNeedsKey = errors.New("masking needs a key of the shop's: name a key file with --key; " +
	"without one, anyone could try all numbers until one gives the token")

// maskedColumns says which field each column belongs to.
var Columns = map[string]Field{
	"vin": VIN, "claim_no": Claim, "technician": Technician, "installer": Technician,
	"complaint": Complaint,
}

// Masker replaces values by tokens that are equal where the values are, within one bundle only.
//
//	bundle key = HMAC-SHA-256(seed of the shop's key, "plumbline mask" || scope || digest of all imported files)
//	token      = first 80 bits of HMAC-SHA-256(bundle key, field || 0x1f || value), base 32
//
// The value of a VIN or claim number is its letters and digits alone.//
// The scope is the bundle's insurer, shop, period, as-of and window: another bundle has another key, and tokens of the
// two cannot be joined without the seed. A technician's code is one shop's own and is masked with the shop's name.
// Source: RFC 2104 for HMAC; the derivation is the project's own.
type Masker struct {
	fields     []Field
	key        []byte
	everywhere vocabulary
	own        map[record.Job][]ownForm // of each job met: its VIN and its claim number
	left       residue
}

// New makes a masker that changes nothing where no field is masked.
func New(fields []Field, seed []byte, scope ...string) (*Masker, error) {
	m := &Masker{fields: fields, everywhere: vocabulary{forms: map[string][]holder{}}, own: map[record.Job][]ownForm{},
		left: residue{texts: map[string]int{}}}
	if len(fields) == 0 {
		return m, nil
	}
	if seed == nil {
		return nil, ErrNeedsKey
	}
	m.key = sum(seed, append([]string{"plumbline mask"}, scope...)...)
	return m, nil
}

// sum is HMAC-SHA-256 over parts, kept apart by a character that no part holds.
func sum(key []byte, parts ...string) []byte {
	mac := hmac.New(sha256.New, key)
	mac.Write([]byte(strings.Join(parts, "\x1f")))
	return mac.Sum(nil)
}

func (m *Masker) token(field Field, shop, value string) string {
	if text := skeleton(value); field != Technician && text != "" {
		value = text // one number, however it is written
	} else if field == Technician {
		value = shop + "\x1f" + value
	}
	return m.masked(field, value)
}

// formToken is the token of a form that several values share.
func (m *Masker) formToken(field Field, shop, form string) string {
	return m.masked(field, shop+"\x1fany of\x1f"+form)
}

func (m *Masker) masked(field Field, value string) string {
	return string(field) + "-" + base32.StdEncoding.EncodeToString(sum(m.key, string(field), value)[:10])
}

// Keyed gives a number that could be guessed from what is masked in a form that nobody can compute without the key; where
// nothing is masked, the number itself. Equal numbers stay equal within one bundle.
func (m *Masker) Keyed(what, number string) string {
	if len(m.fields) == 0 {
		return number
	}
	return hex.EncodeToString(sum(m.key, what, number))[:len(number)]
}

func (m *Masker) masks(field Field) bool { return slices.Contains(m.fields, field) }

// Row masks a row in place: a value in its own column becomes its token whatever it looks like, and all other texts are
// searched. The rows of jobs come first, so that the values of the job itself are known by then.
func (m *Masker) Row(table string, columns []record.Column, row []any) {
	if len(m.fields) == 0 {
		return
	}
	job := record.KeyOf(row)
	if table == "jobs" {
		m.meet(job, columns, row)
	}
	for i, c := range columns {
		text, isText := row[i].(string)
		field, maskable := Columns[c.Name]
		switch {
		case isText && c.Name == "finding":
			row[i] = m.Keyed("finding", text)
		case !isText, SettledColumns[c.Name]:
		case !maskable || !m.masks(field):
			masked, isDoubtful := m.text(job, text)
			if row[i] = masked; isDoubtful {
				m.left.texts[table+"."+c.Name]++
			}
		case field == Complaint:
			row[i] = nil
		default:
			row[i] = m.token(field, job.Shop, text)
		}
	}
}

// meet takes note of a job's own values, before any of its texts is searched.
func (m *Masker) meet(job record.Job, columns []record.Column, row []any) {
	var own []ownForm
	for i, c := range columns {
		value, isText := row[i].(string)
		field := Columns[c.Name]
		if isText && m.masks(field) && (field == VIN || field == Claim) && !isLayoutWord(value) {
			own = append(own, ownValue(field, value))
		}
	}
	m.own[job] = own
	if m.holds(job, job.Shop) || m.holds(job, job.JobNo) {
		m.left.jobs = append(m.left.jobs, job)
	}
}
