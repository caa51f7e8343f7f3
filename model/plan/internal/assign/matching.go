package assign

// Match gives as many rows as possible a column of their own, by the algorithm of Hopcroft and Karp,
// SIAM J. Comput. 2 (1973) 225. may[i] lists the columns that row i may have, out of m. It returns the
// column of each row, −1 for none, and how many rows have one.
func Match(m int, may [][]int32) (column []int, size int) {
	h := hopcroftKarp{may: may, column: make([]int, len(may)), row: make([]int, m), layer: make([]int, len(may))}
	for i := range h.column {
		h.column[i] = -1
	}
	for j := range h.row {
		h.row[j] = -1
	}
	for h.layers() {
		for i := range may {
			if h.column[i] < 0 && h.grow(i) {
				size++
			}
		}
	}
	return h.column, size
}

type hopcroftKarp struct {
	may    [][]int32
	column []int // of rows
	row    []int // of columns
	layer  []int // of rows, −1 where not reached
	queue  []int
}

// layers measures how many steps each row is from a row without a column, and reports whether a free
// column is in reach.
func (h *hopcroftKarp) layers() bool {
	h.queue = h.queue[:0]
	for i := range h.layer {
		h.layer[i] = -1
		if h.column[i] < 0 {
			h.layer[i] = 0
			h.queue = append(h.queue, i)
		}
	}
	free := false
	for at := 0; at < len(h.queue); at++ {
		i := h.queue[at]
		for _, j := range h.may[i] {
			switch k := h.row[j]; {
			case k < 0:
				free = true
			case h.layer[k] < 0:
				h.layer[k] = h.layer[i] + 1
				h.queue = append(h.queue, k)
			}
		}
	}
	return free
}

// grow looks for a path from row i to a free column, layer by layer.
func (h *hopcroftKarp) grow(i int) bool {
	for _, j := range h.may[i] {
		k := h.row[j]
		if k < 0 || h.layer[k] == h.layer[i]+1 && h.grow(k) {
			h.column[i], h.row[j] = int(j), i
			return true
		}
	}
	h.layer[i] = -1
	return false
}
