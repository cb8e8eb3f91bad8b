package report

import _ "embed" // for the manual

// Manual is the page of the manual on the keys of all that is written as JSON, in Markdown.
//
//go:embed JSON.md
var Manual string
