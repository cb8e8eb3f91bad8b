package sim

import _ "embed" // for the manual

// Manual is the page of the manual on what the model does and does not claim, and its sources, in Markdown.
//
//go:embed MODEL.md
var Manual string
