package plan

import _ "embed" // for the manual

// Manual is the page of the manual on the keys of course, team and plan files, in Markdown.
//
//go:embed FILES.md
var Manual string
