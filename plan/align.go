package plan

import "cuewalk/course"

// step is what becomes of one cue of a file: kept (perhaps altered), deleted
// (after is -1), or new (it comes before the cue with index before).
type step struct {
	before, after int
	isNew         bool
}

// gapCost is what a deletion or an addition costs against a differing key.
const gapCost = 3

// align pairs the cues of two plans so that the fewest keys differ (the edit
// distance with a price for each key). Cues that came from different lines of the
// file are never paired.
func align(before, after []Cue, u course.Units) []step {
	head := 0
	texts, other := written(before, u), written(after, u)
	for head < len(before) && head < len(after) && differing(texts[head], other[head]) == 0 {
		head++
	}
	n, m := len(before)-head, len(after)-head
	cost := make([][]int32, n+1) // of what is left from i and j on
	for i := range cost {
		cost[i] = make([]int32, m+1)
	}
	pair := func(i, j int) int32 {
		a, b := before[head+i].Line, after[head+j].Line
		if a != 0 && b != 0 && a != b {
			return 3 * gapCost
		}
		return int32(differing(texts[head+i], other[head+j]))
	}
	for i := n; i >= 0; i-- {
		for j := m; j >= 0; j-- {
			cost[i][j] = leastOf(cost, i, j, n, m, pair)
		}
	}
	var steps []step
	for i := range head {
		steps = append(steps, step{before: i, after: i})
	}
	for i, j := 0, 0; i < n || j < m; {
		switch {
		case i < n && j < m && cost[i][j] == pair(i, j)+cost[i+1][j+1]:
			steps = append(steps, step{before: head + i, after: head + j})
			i, j = i+1, j+1
		case i < n && cost[i][j] == gapCost+cost[i+1][j]:
			steps = append(steps, step{before: head + i, after: -1})
			i++
		default:
			steps = append(steps, step{before: head + i, after: head + j, isNew: true})
			j++
		}
	}
	return steps
}

func leastOf(cost [][]int32, i, j, n, m int, pair func(i, j int) int32) int32 {
	switch {
	case i == n:
		return int32(m-j) * gapCost
	case j == m:
		return int32(n-i) * gapCost
	}
	return min(pair(i, j)+cost[i+1][j+1], gapCost+cost[i+1][j], gapCost+cost[i][j+1])
}

func written(cues []Cue, u course.Units) [][]setting {
	all := make([][]setting, len(cues))
	for i := range cues {
		all[i] = cueSettings(&cues[i], u)
	}
	return all
}
