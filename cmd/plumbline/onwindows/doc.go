// Package onwindows has only a test: it builds plumbline for Windows, where shop computers run, and tries it under Wine.
package onwindows
