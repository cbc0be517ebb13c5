package answer

import (
	"html/template"
	"strings"
)

// A formula is MathML, which browsers draw without a script. It is made only of what stands in this package.
type formula string

// id is a variable, op an operator or sign, num a number, words an upright name.
func id(name string) formula    { return formula("<mi>" + template.HTMLEscapeString(name) + "</mi>") }
func op(sign string) formula    { return formula("<mo>" + template.HTMLEscapeString(sign) + "</mo>") }
func num(digits string) formula { return formula("<mn>" + digits + "</mn>") }
func said(name string) formula {
	return formula("<mtext>" + template.HTMLEscapeString(name) + "</mtext>")
}

// row sets parts side by side.
func row(parts ...formula) formula {
	var all strings.Builder
	for _, part := range parts {
		all.WriteString(string(part))
	}
	return formula("<mrow>" + all.String() + "</mrow>")
}

func frac(above, below formula) formula {
	return formula("<mfrac>" + string(row(above)+row(below)) + "</mfrac>")
}
func root(inside formula) formula     { return formula("<msqrt>" + string(inside) + "</msqrt>") }
func sub(base, below formula) formula { return formula("<msub>" + string(base+below) + "</msub>") }
func sup(base, above formula) formula { return formula("<msup>" + string(base+above) + "</msup>") }

// paren puts parts in parentheses.
func paren(parts ...formula) formula { return row(op("("), row(parts...), op(")")) }

// sum is a sum over something.
func sum(over, of formula) formula {
	return row(formula("<munder><mo>∑</mo>"+string(over)+"</munder>"), of)
}

// HTML is the formula as a page shows it.
func (f formula) HTML() template.HTML {
	if f == "" {
		return ""
	}
	return template.HTML(`<math display="block">` + string(f) + `</math>`)
}
