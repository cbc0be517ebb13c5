// Package folder writes folders and files whole or not at all: what was half written is never left where something finished is
// expected, whether the disk is full, the program is killed or a person interrupts it.
package folder
