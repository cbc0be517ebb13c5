package invent

import "fmt"

const vinLetters = "ABCDEFGHJKLMNPRSTUVWXYZ"

// yearCodes are the letters and digits of position 10 for 2010 to 2039
// (49 CFR 565.15(c), Table VII).
const yearCodes = "ABCDEFGHJKLMNPRSTVWXY123456789"

// vin makes a vehicle identification number of an invented maker. serial must
// differ between vehicles; a bijection on six digits scatters it, so that
// numbers made one after the other do not look it.
func vin(m *model, year, serial int, free byte) string {
	plant := vinLetters[serial/1_000_000]
	scattered := serial % 1_000_000 * 387_421 % 1_000_000
	number := []byte(fmt.Sprintf("%s%s%c%c%c%06d", m.wmi, m.vds, free, yearCode(year), plant, scattered))
	if number[0] >= '1' && number[0] <= '5' {
		number[8] = checkDigit(number)
	}
	return string(number)
}

func yearCode(year int) byte { return yearCodes[(year-2010)%len(yearCodes)] }

// checkDigit computes position 9 after 49 CFR 565.15(c): the products of the
// transliterated characters (Table III) and the weights (Table IV), summed,
// modulo 11, where ten is written X. The character at position 9 has weight 0.
func checkDigit(number []byte) byte {
	weights := [17]int{8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2}
	sum := 0
	for i, c := range number {
		sum += weights[i] * transliterate(c)
	}
	return "0123456789X"[sum%11]
}

// transliterate gives A to H 1 to 8, J to R 1 to 9, S to Z 2 to 9; I, O and Q
// do not occur, but keep their places in the count.
func transliterate(c byte) int {
	switch {
	case c >= 'S':
		return int(c-'S') + 2
	case c >= 'J':
		return int(c-'J') + 1
	case c >= 'A':
		return int(c-'A') + 1
	default:
		return int(c - '0')
	}
}
