package unit

// Beside is a length that is printed next to another one, with as many decimals as it takes to show
// which is the larger: a margin of 0.05998 in beside a limit of 0.060 in must not read .060.
type Beside struct{ This, Other Length }
