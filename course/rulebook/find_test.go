package rulebook

import (
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFindByName(t *testing.T) {
	for _, name := range Known() {
		assert.Equal(t, name, find(t, name).Name)
	}
	assert.Equal(t, "FCI 2012", find(t, "  fci   2012 ").Name)
	sorted := slices.Clone(Known())
	slices.Sort(sorted)
	assert.Equal(t, sorted, slices.Compact(slices.Clone(sorted)), "names are unique")
}

func TestUnknownRulesSuggestTheNearest(t *testing.T) {
	for name, want := range map[string]string{
		"FCI 2020": "FCI 2018", "FCI 2030": "FCI 2023", "FCI 2006": "FCI before 2007", "FCI 1990": "FCI before 2007",
		"FCI": "FCI 2023", "FCI2012": "FCI 2012", "FIC 2012": "FCI 2012", "KC 2015": "KC 2017", "KC 2030": "KC 2022",
		"USDA": "USDAA", "usdaa 2024": "USDAA", "OEKV 2019": "OEKV after 2018", "TKAMO": "TKAMO 2015",
		"FCI after 2012": "FCI 2012",
	} {
		_, err := Find(name)
		require.Error(t, err, name)
		assert.Contains(t, err.Error(), `did you mean "`+want+`"?`, name)
		assert.Contains(t, err.Error(), "known are FCI before 2007, FCI 2007, FCI 2012,", name)
	}
	for _, name := range []string{"", "zzzzzzzzz", "no such rules at all, by anyone"} {
		_, err := Find(name)
		require.Error(t, err)
		assert.NotContains(t, err.Error(), "did you mean")
	}
}

// Every figure names the text it is from; a doubtful one says why; no range is
// upside down. The walk covers figures that are added later.
func TestEveryFigureHasASource(t *testing.T) {
	figures := 0
	for _, r := range all {
		assert.NotEmpty(t, r.Organisation, r.Name)
		assert.NotEmpty(t, r.Edition, r.Name)
		walk(reflect.ValueOf(*r), func(v reflect.Value) {
			switch f := v.Interface().(type) {
			case Source:
				figures++
				assert.NotEmpty(t, f.Edition, "%s: %+v", r.Name, f)
				assert.Contains(t, []SourceKind{RuleMaker, Judges, SecondHand, Memory}, f.Kind, "%s: %+v", r.Name, f)
				assert.Equal(t, f.Doubtful, f.Why != "", "%s: %+v", r.Name, f)
			default:
				low, high := v.FieldByName("Min"), v.FieldByName("Max")
				if low.IsValid() && low.CanFloat() && high.Float() != 0 {
					assert.LessOrEqual(t, low.Float(), high.Float(), "%s: %+v", r.Name, f)
				}
			}
		})
	}
	assert.Greater(t, figures, 150)
}

// walk calls visit for every struct inside v.
func walk(v reflect.Value, visit func(reflect.Value)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			walk(v.Elem(), visit)
		}
	case reflect.Slice:
		for i := range v.Len() {
			walk(v.Index(i), visit)
		}
	case reflect.Struct:
		visit(v)
		for i := range v.NumField() {
			walk(v.Field(i), visit)
		}
	}
}

func TestHeightsBelongToClasses(t *testing.T) {
	for _, r := range all {
		for _, c := range r.Classes {
			if len(r.Heights) > 0 {
				_, ok := r.Height(c.Size)
				assert.True(t, ok, "%s: class %s has no height", r.Name, c.Size)
			}
		}
		if n := len(r.Classes); n > 0 {
			assert.Zero(t, r.Classes[n-1].Below, "%s: the largest class has no upper end", r.Name)
		}
	}
}

func TestBarFallsBackToFCI2023(t *testing.T) {
	assert.Equal(t, 0.60, Bar(nil, 0.50))
	assert.Equal(t, 0.50, Bar(nil, 0.45))
	assert.Equal(t, 0.40, Bar(nil, 0.40))
	assert.Equal(t, 0.30, Bar(nil, 0.30))
	assert.Equal(t, 0.60, Bar(find(t, "NALA"), 0.50), "no classes there")
	assert.Equal(t, 0.65, Bar(find(t, "FCI 2012"), 0.45))
	assert.InDelta(t, 0.508, Bar(find(t, "AKC 2010"), 0.50), 1e-12, "20 in")
}
