package command

import _ "embed" // for the manual

// Manual is the page of the manual on every command with its flags, in Markdown.
//
//go:embed COMMANDS.md
var Manual string
