package rulebook

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"cuewalk/course"
)

// The checks in this file are published figures and worked examples; the source is
// named beside each. "Second-hand" marks those that only make a result plausible.

func find(t testing.TB, name string) *Rules {
	t.Helper()
	r, err := Find(name)
	require.NoError(t, err)
	return r
}

func hundredths(t testing.TB, s string) Hundredths {
	t.Helper()
	h, err := ParseHundredths(s)
	require.NoError(t, err)
	return h
}

// Source: FCI text before 2007 (k9puppydogs.com, course times): 150 m at 2.50 m/s.
func TestCourseTimesBefore2007(t *testing.T) {
	times, ok := find(t, "FCI before 2007").Times(150, 2.50, false)
	require.True(t, ok)
	assert.Equal(t, Times{SCT: 6000, MCT: 12000, LeastMCT: 9000}, times)
}

// Source, second-hand: ANKC extract (tdtc.org.au): 120 m at 2.0 m/s and a table.
func TestTableAllowance(t *testing.T) {
	r := find(t, "ANKC")
	with, ok := r.Times(120, 2.0, true)
	require.True(t, ok)
	assert.Equal(t, hundredths(t, "65"), with.SCT)
	without, _ := r.Times(120, 2.0, false)
	assert.Equal(t, hundredths(t, "60"), without.SCT)
	assert.Zero(t, with.MCT, "no maximum time was seen")
}

// Source: Austrian rules 2.3 (agility.oekv.at), the 2018 text and the amended one.
func TestMaximumTimeBands(t *testing.T) {
	for name, most := range map[string]string{"OEKV 2018": "80", "OEKV after 2018": "100"} {
		times := find(t, name).MaximumFor(4000)
		assert.Equal(t, hundredths(t, "60"), times.LeastMCT, name)
		assert.Equal(t, hundredths(t, most), times.MostMCT, name)
		assert.Equal(t, times.MostMCT, times.MCT, "%s: no usual time is given, so the longest allowed", name)
	}
}

// Source: DGI (Denmark), course time: SCT 65, run 68.17, 2 faults, 1 refusal. Its
// text counts faults and refusals 5 each: 3.17 + 10 + 5.
func TestFaultsAndTime(t *testing.T) {
	s, ok := find(t, "DGI 2018").Score(Run{Time: hundredths(t, "68.17"), Faults: 2, Refusals: 1}, 6500, 13000)
	require.True(t, ok)
	assert.Equal(t, "3.17", s.Overtime.String())
	assert.Equal(t, "15.00", s.Course.String())
	assert.Equal(t, "18.17", s.Total.String())
	assert.Empty(t, s.Eliminated)
}

// Source: DGI (Denmark), course time: the published ranking at SCT 65. Row 3 also
// shows that exactly the standard time costs nothing, rows 2 and 3 that fewer
// course faults go first.
func TestPublishedRanking(t *testing.T) {
	r := find(t, "DGI 2018")
	rows := []struct {
		time             string
		faults, refusals int
		total            string
		place            int
	}{
		{"34.19", 1, 1, "10.00", 4},
		{"65.00", 1, 0, "5.00", 3},
		{"70.00", 0, 0, "5.00", 2},
		{"47.23", 0, 0, "0.00", 1},
	}
	scores := make([]Score, len(rows))
	for i, row := range rows {
		scores[i], _ = r.Score(Run{Time: hundredths(t, row.time), Faults: row.faults, Refusals: row.refusals}, 6500, 0)
		assert.Equal(t, row.total, scores[i].Total.String(), row.time)
	}
	assert.Zero(t, scores[1].Overtime, "exactly the standard time")
	for i, place := range Places(scores) {
		assert.Equal(t, rows[i].place, place, rows[i].time)
	}
}

// Source: the same, and FCI text before 2007 (faults): then the faster time.
func TestFasterTimeGoesFirst(t *testing.T) {
	r := find(t, "FCI before 2007")
	slow, _ := r.Score(Run{Time: 5000}, 6000, 0)
	fast, _ := r.Score(Run{Time: 4999}, 6000, 0)
	assert.Equal(t, []int{2, 1}, Places([]Score{slow, fast}))
}

// Source: Swiss regulations about 2015, 4.2.1: 0.01 fault per 0.01 s.
func TestHundredthOfAFaultPerHundredth(t *testing.T) {
	r := find(t, "TKAMO 2015")
	for over, want := range map[Hundredths]string{1: "0.01", 317: "3.17", 0: "0.00", -500: "0.00"} {
		s, ok := r.Score(Run{Time: 6500 + over}, 6500, 0)
		require.True(t, ok)
		assert.Equal(t, want, s.Overtime.String(), "over by %s", over)
	}
}

// Source: FCI text before 2007 (elimination); Swiss 4.4.
func TestThirdRefusalEliminates(t *testing.T) {
	for _, name := range []string{"FCI before 2007", "TKAMO 2015"} {
		r := find(t, name)
		two, _ := r.Score(Run{Time: 4000, Refusals: 2}, 5000, 0)
		assert.Equal(t, "10.00", two.Total.String(), name)
		assert.Empty(t, two.Eliminated, name)
		three, _ := r.Score(Run{Time: 4000, Refusals: 3}, 5000, 0)
		assert.Equal(t, "too many refusals", three.Eliminated, name)
	}
}

// Source: the same two texts: over the maximum time eliminates.
func TestOverMaximumTimeEliminates(t *testing.T) {
	r := find(t, "TKAMO 2015")
	on, _ := r.Score(Run{Time: 10000}, 5000, 10000)
	assert.Empty(t, on.Eliminated)
	over, _ := r.Score(Run{Time: 10001}, 5000, 10000)
	assert.Equal(t, "over the maximum course time", over.Eliminated)
}

// Source: Swiss 4.3.6: every wrong entry a refusal, later errors together 5, most
// that one weave can cost 15.
func TestWeaveCost(t *testing.T) {
	s := find(t, "TKAMO 2015").Scoring
	for _, later := range []int{1, 2, 7} {
		faults, refusals := s.Weave(0, later)
		assert.Equal(t, 500, int(s.Fault)*faults, "later errors %d", later)
		assert.Zero(t, refusals)
	}
	faults, refusals := s.Weave(2, 3)
	assert.Equal(t, []int{1, 2}, []int{faults, refusals})
	assert.Equal(t, "15.00", s.WeaveMost().String())
}

// Source: FCI text before 2007 (marks): 0-5.99, 6-15.99, 16-25.99, 26 and more.
func TestMarks(t *testing.T) {
	r := find(t, "FCI before 2007")
	for total, want := range map[string]string{
		"0": "excellent", "5.99": "excellent", "6": "very good", "15.99": "very good",
		"16": "good", "25.99": "good", "26": "", "400": "",
	} {
		assert.Equal(t, want, r.MarkFor(hundredths(t, total)), total)
	}
}

// Source: FCI 2023 categories (skc.org.sg); FCI 2007 (iltys.lt) and 2012 (ksk.rs)
// categories; 2018 second-hand (extremedog.pl).
func TestSizeClasses(t *testing.T) {
	check := func(name string, withers float64, want Size) {
		t.Helper()
		c, ok := find(t, name).Class(withers)
		require.True(t, ok)
		assert.Equal(t, want, c.Size, "%s at %g", name, withers)
	}
	for w, want := range map[float64]Size{0.349: "S", 0.35: "M", 0.429: "M", 0.43: "I", 0.479: "I", 0.48: "L"} {
		check("FCI 2023", w, want)
	}
	for w, want := range map[float64]Size{0.349: "S", 0.35: "M", 0.429: "M", 0.43: "L"} {
		check("FCI 2007", w, want)
		check("FCI 2012", w, want)
		check("FCI 2018", w, want)
	}
	// USDAA performance programme (usdaa.com): 8 in up to 12 in and so on, inclusive.
	for inches, want := range map[float64]Size{12: "8 in", 12.1: "12 in", 16: "12 in", 19: "14 in", 21: "16 in", 21.1: "20 in"} {
		check("USDAA Performance", inches*0.0254, want)
	}
	// Second-hand: areyou4it.org.uk (KC before 2020): up to and including 350 and 430 mm.
	for w, want := range map[float64]Size{0.35: "S", 0.351: "M", 0.43: "M", 0.431: "L"} {
		check("KC 2017", w, want)
	}
}

// Source: KC current page and page of 2016 to 2019: 60/50/40/30 and 65/45/35 cm.
func TestKennelClubHeights(t *testing.T) {
	for size, want := range map[Size]float64{"L": 0.60, "I": 0.50, "M": 0.40, "S": 0.30} {
		h, ok := find(t, "KC 2022").Height(size)
		assert.True(t, ok)
		assert.Equal(t, want, h, size)
	}
	for size, want := range map[Size]float64{"L": 0.65, "M": 0.45, "S": 0.35} {
		h, _ := find(t, "KC 2017").Height(size)
		assert.Equal(t, want, h, size)
	}
}

// Source, second-hand: international trials under FCI 2018 (agilitynews.eu): the best
// time and 15 %, rounded up. The inputs are our own arithmetic.
func TestInternationalTime(t *testing.T) {
	r := find(t, "FCI 2018")
	for best, want := range map[string]string{"31.27": "36.00", "40.00": "46.00", "34.19": "40.00"} {
		got, ok := r.FromBest(hundredths(t, best))
		require.True(t, ok)
		assert.Equal(t, want, got.String(), best)
	}
}

// Source: Czech Open event rules (czechopen.grantagility.com): winner and 20 %,
// rounded half up, maximum twice that. The inputs are our own arithmetic.
func TestEventTime(t *testing.T) {
	r := find(t, "Czech Open")
	for best, want := range map[string]string{"31.27": "38.00", "31.20": "37.00"} {
		got, ok := r.FromBest(hundredths(t, best))
		require.True(t, ok)
		assert.Equal(t, want, got.String(), best)
	}
	assert.Equal(t, hundredths(t, "76"), r.MaximumFor(3800).MCT)
}

// Source, second-hand: clubcanindedumbea.com: a see-saw's pivot lies at 1/6 of its
// length, 60 to 70 cm for 3.65 to 4.25 m. The usual see-saw of package course fits.
func TestSeesawHeightPlausible(t *testing.T) {
	o := course.Obstacle{Kind: course.Seesaw}
	o.Defaults(0.6)
	assert.InDelta(t, o.Length/6, o.Height, 0.01)
}

// Source: FCI 2023 faults (skc.org.sg): down only on A-frame and dog walk, both on
// the see-saw; before 2007 up and down on all three (k9puppydogs.com).
func TestContactZonesJudged(t *testing.T) {
	for _, kind := range contacts {
		judged, known := find(t, "FCI before 2007").ZoneJudged(kind, true)
		assert.True(t, judged && known, kind)
		judged, known = find(t, "FCI 2023").ZoneJudged(kind, true)
		assert.True(t, known)
		assert.Equal(t, kind == course.Seesaw, judged, kind)
		judged, _ = find(t, "FCI 2023").ZoneJudged(kind, false)
		assert.True(t, judged, kind)
	}
	_, known := find(t, "FCI 2012").ZoneJudged(course.AFrame, true)
	assert.False(t, known, "that text was not seen on this point")
}
