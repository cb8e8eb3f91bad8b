package plan

import "testing"

// What an alteration on the screen costs before any run: checking and filling in.
func BenchmarkCheckAndResolve(b *testing.B) {
	c, tm := mill(b)
	p := parseFile(b, "testdata/right/whole.toml")
	b.ReportAllocs()
	for b.Loop() {
		if len(p.Check(c, tm)) > 0 {
			b.Fatal("the plan is right")
		}
		p.Resolve(c, tm)
	}
}
