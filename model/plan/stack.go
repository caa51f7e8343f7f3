package plan

import "keeperbook/model/unit"

// Stack is a stack of shims: how many of each size, how many in all, and how thick it is.
type Stack struct {
	Use   []int
	Shims int
	Total unit.Length
}

// Stacks returns every stack that sizes, counts and limits allow, the empty one first.
func Stacks(sizes []Shim, most Most) []Stack {
	var all []Stack
	use := make([]int, len(sizes))
	var fill func(size, shims int, total unit.Length)
	fill = func(size, shims int, total unit.Length) {
		if size == len(sizes) {
			all = append(all, Stack{append([]int(nil), use...), shims, total})
			return
		}
		for n := 0; n <= sizes[size].Count && shims+n <= most.Shims; n++ {
			thick := total + unit.Length(n)*sizes[size].Thick
			if thick > most.Total {
				break
			}
			use[size] = n
			fill(size+1, shims+n, thick)
		}
		use[size] = 0
	}
	fill(0, 0, 0)
	return all
}

// ways counts stacks without writing them down, as far as up to a limit.
func ways(sizes, shims, limit int) int {
	// (sizes + shims) over shims; every step divides evenly.
	n := 1
	for k := 1; k <= shims && n <= limit; k++ {
		n = n * (sizes + k) / k
	}
	return n
}
