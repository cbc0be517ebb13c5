package review

import (
	"crypto/sha256"
	"fmt"
	"regexp"
	"strings"

	"plumbline/analysis/quality"
)

var wellFormedVIN = regexp.MustCompile(`^[A-HJ-NPR-Z0-9]{17}$`)

// unsafe is what a file name had better not hold on any system.
var unsafe = regexp.MustCompile(`[^A-Za-z0-9_-]+`)

// vehiclePage names the page of the vehicle that a finding is about: by the VIN where it is well formed, else by the
// job. A name that had to be cleaned carries a digest, so that two jobs never share a page.
func vehiclePage(f quality.Finding) string {
	if f.VIN != nil && wellFormedVIN.MatchString(*f.VIN) {
		return *f.VIN + ".html"
	}
	plain := strings.Trim(unsafe.ReplaceAllString(f.Shop+"-"+f.JobNo, "-"), "-")
	digest := sha256.Sum256([]byte(f.Shop + "\x1f" + f.JobNo))
	return fmt.Sprintf("job-%.40s-%x.html", plain, digest[:4])
}
