package cutting

import "slices"

// sums lists the sums of sizes up to limit, 0 included, in order, by number of summands. When there are more than
// most, those of many summands are thinned out evenly and complete is false: still usable for searching, no
// longer for proving.
func sums(sizes []int64, limit int64, most int) (points []int64, complete bool) {
	sizes = slices.Clone(sizes)
	slices.Sort(sizes)
	sizes = slices.Compact(sizes)
	points = []int64{0}
	level := []int64{0}
	for len(level) > 0 {
		var next []int64
		for _, p := range level {
			for _, s := range sizes {
				if p+s > limit {
					break
				}
				next = append(next, p+s)
			}
			if len(next) > 64*most {
				slices.Sort(next)
				next = slices.Compact(next)
				if len(next) > 8*most {
					return merge(points, thin(next, max(1, most-len(points)))), false
				}
			}
		}
		slices.Sort(next)
		next = slices.Compact(next)
		next = slices.DeleteFunc(next, func(p int64) bool {
			_, known := slices.BinarySearch(points, p)
			return known
		})
		if len(points)+len(next) > most {
			return merge(points, thin(next, max(1, most-len(points)))), false
		}
		points = merge(points, next)
		level = next
	}
	return points, true
}

// thin keeps about n evenly spaced members of a sorted list, the largest among them.
func thin(list []int64, n int) []int64 {
	if len(list) <= n {
		return list
	}
	out := make([]int64, 0, n)
	for i := 1; i <= n; i++ {
		out = append(out, list[i*len(list)/n-1])
	}
	return out
}

// merge joins two sorted lists without doubles.
func merge(a, b []int64) []int64 {
	out := append(slices.Clone(a), b...)
	slices.Sort(out)
	return slices.Compact(out)
}

// snap is the index of the largest point not above v, −1 for negative v. Points begin with 0.
func snap(points []int64, v int64) int {
	i, found := slices.BinarySearch(points, v)
	if found {
		return i
	}
	return i - 1
}

// below lists, for each point, the index of the largest point not above point − size; −1 where size is larger.
func below(points []int64, size int64) []int32 {
	out := make([]int32, len(points))
	j := int32(-1)
	for i, p := range points {
		for int(j)+1 < len(points) && points[j+1] <= p-size {
			j++
		}
		out[i] = j
	}
	return out
}
