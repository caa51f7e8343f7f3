package record

import "slices"

// Lies reports whether a shim lies in one place of the stack.
func (v Valve) Lies(under Under) bool {
	return slices.ContainsFunc(v.Stack, func(s Shim) bool { return s.Under == under })
}

// StackSaid reports whether the whole stack is known: shims lie under the locator, or somebody said that there is none. Shims
// under the outer coil alone do not say what lies under the locator.
func (v Valve) StackSaid() bool { return v.NoShim != "" || v.Lies(UnderLocator) }
