package source

import (
	"bufio"
	"encoding/json"
	"errors"
	"io"
	"os"
)

var ErrNoRecords = errors.New("no records")

// JsonShape tells an array, a run of objects, and an object of arrays apart.
func JsonShape(path string) (string, error) {
	in, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer in.Close()
	decoder := json.NewDecoder(bufio.NewReader(in))
	first, err := decoder.Token()
	if err == io.EOF {
		return "", errors.New("there is nothing in it")
	}
	if err != nil {
		return "", err
	}
	switch first {
	case json.Delim('['):
		return "array", nil
	case json.Delim('{'):
	default:
		return "", ErrNoRecords
	}
	if _, err := decoder.Token(); err != nil {
		return "", err
	}
	if second, err := decoder.Token(); err == nil && second == json.Delim('[') {
		return "kinds", nil
	}
	return "unstructured", nil
}
