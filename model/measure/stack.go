package measure

import (
	"slices"

	"keeperbook/model/unit"
)

// Stacks returns every stack of at most most shims that adds up to want exactly, thickest first within
// a stack and the fewest shims first. Sizes may be used again and again; those of nought or less are
// passed over.
func Stacks(want unit.Length, sizes []unit.Length, most int) [][]unit.Length {
	sizes = ladder(sizes)
	var all [][]unit.Length
	var fill func(left unit.Length, from int, stack []unit.Length)
	fill = func(left unit.Length, from int, stack []unit.Length) {
		if left == 0 {
			all = append(all, slices.Clone(stack))
			return
		}
		if len(stack) == most {
			return
		}
		for i := from; i < len(sizes); i++ {
			if sizes[i] <= left {
				fill(left-sizes[i], i, append(stack, sizes[i]))
			}
		}
	}
	if want >= 0 {
		fill(want, 0, nil)
	}
	slices.SortStableFunc(all, func(a, b []unit.Length) int { return len(a) - len(b) })
	return all
}

// NearestStack returns the stack of at most most shims that comes nearest to want without passing it,
// with the fewest shims, and what it adds up to. Less shim leaves more margin, so it never passes.
func NearestStack(want unit.Length, sizes []unit.Length, most int) ([]unit.Length, unit.Length) {
	sizes = ladder(sizes)
	var best []unit.Length
	sum := unit.Length(0)
	var fill func(total unit.Length, from int, stack []unit.Length)
	fill = func(total unit.Length, from int, stack []unit.Length) {
		if total > sum || total == sum && len(stack) < len(best) {
			best, sum = slices.Clone(stack), total
		}
		if len(stack) == most {
			return
		}
		for i := from; i < len(sizes); i++ {
			if total+sizes[i] <= want {
				fill(total+sizes[i], i, append(stack, sizes[i]))
			}
		}
	}
	fill(0, 0, nil)
	return best, sum
}

// ladder returns the sizes above nought, thickest first, each once.
func ladder(sizes []unit.Length) []unit.Length {
	sizes = slices.DeleteFunc(slices.Clone(sizes), func(s unit.Length) bool { return s <= 0 })
	slices.Sort(sizes)
	slices.Reverse(sizes)
	return slices.Compact(sizes)
}
