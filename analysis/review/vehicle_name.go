package review

import (
	"crypto/sha256"
	"fmt"
	"regexp"
	"strings"
)

var wellFormedVIN = regexp.MustCompile(`^[A-HJ-NPR-Z0-9]{17}$`)

// unsafe is what a file name had better not hold on any system.
var unsafe = regexp.MustCompile(`[^A-Za-z0-9_-]+`)

// vehiclePage names the page of a vehicle: by the VIN where it is well formed, else by the
// job. A name that had to be cleaned carries a digest, so that two jobs never share a page.
func vehiclePage(shop, jobNo string, vin *string) string {
	if vin != nil && wellFormedVIN.MatchString(*vin) {
		return *vin + ".html"
	}
	plain := strings.Trim(unsafe.ReplaceAllString(shop+"-"+jobNo, "-"), "-")
	digest := sha256.Sum256([]byte(shop + "\x1f" + jobNo))
	return fmt.Sprintf("job-%.40s-%x.html", plain, digest[:4])
}
