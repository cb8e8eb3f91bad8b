// Package demo holds the files of the demonstration, as the program ships them.
package demo

import "embed"

// Files are the courses, plans and teams of the demonstration, one TOML file each.
//
//go:embed *.toml
var Files embed.FS
