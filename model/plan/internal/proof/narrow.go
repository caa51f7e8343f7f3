package proof

// narrow takes out of a case what cannot be in it, and reports whether nothing can.
func (k *checker) narrow(s state) (state, bool) {
	low, high := make([]int64, k.t.Valves), make([]int64, k.t.Valves)
	for {
		for i := range low {
			low[i], high[i] = huge, -huge
		}
		ways := s.ways[:0]
		for _, w := range s.ways {
			if g := k.t.Group[w.Valve]; g >= 0 && (w.Value < s.edges[g].a || w.Value > s.edges[g].d) {
				continue
			}
			ways = append(ways, w)
			low[w.Valve], high[w.Valve] = min(low[w.Valve], w.Value), max(high[w.Valve], w.Value)
		}
		s.ways = ways
		for i := range low {
			if low[i] > high[i] {
				return s, true
			}
		}
		if len(s.edges) == 0 {
			return s, false
		}
		before := append([]edges(nil), s.edges...)
		for i := range low {
			if g := k.t.Group[i]; g >= 0 {
				e := &s.edges[g]
				e.b, e.c = min(e.b, high[i]), max(e.c, low[i])
			}
		}
		if room, fits := times(k.claim.Limit, k.t.Step); fits {
			for g := range s.edges {
				e := &s.edges[g]
				e.a, e.d = max(e.a, e.c-room), min(e.d, e.b+room)
			}
		}
		k.meet(s)
		same := true
		for g, e := range s.edges {
			if e.a > e.b || e.c > e.d {
				return s, true
			}
			same = same && e == before[g]
		}
		if same {
			return s, false
		}
	}
}

// meet moves edges to values that the groups can have: the least and the greatest are among them.
func (k *checker) meet(s state) {
	met := make([]edges, len(s.edges))
	for g := range met {
		met[g] = edges{huge, -huge, huge, -huge}
	}
	for _, w := range s.ways {
		g := k.t.Group[w.Valve]
		if g < 0 {
			continue
		}
		e, m := s.edges[g], &met[g]
		if w.Value >= e.a && w.Value <= e.b {
			m.a, m.b = min(m.a, w.Value), max(m.b, w.Value)
		}
		if w.Value >= e.c && w.Value <= e.d {
			m.c, m.d = min(m.c, w.Value), max(m.d, w.Value)
		}
	}
	copy(s.edges, met)
}
