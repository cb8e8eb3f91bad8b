package drill

import _ "embed" // for the manual

// Manual is the page of the manual on the drills of "cuewalk rehearse", in Markdown.
//
//go:embed LEARNING.md
var Manual string
