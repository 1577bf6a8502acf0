package model

// LoadState is how the deliveries that a student has thrown tonight stand against the limit.
type LoadState uint8

// The states. LoadNear is from 80% of the limit on and LoadReached from 100% on: common practice, no source.
const (
	LoadFree LoadState = iota
	LoadNear
	LoadReached
)

// LoadState tells how a load of some deliveries stands against the student's limit; without a limit it is LoadFree.
func (s Student) LoadState(load int) LoadState {
	switch {
	case s.LoadLimit <= 0:
		return LoadFree
	case load >= s.LoadLimit:
		return LoadReached
	case load*100 >= s.LoadLimit*80:
		return LoadNear
	}
	return LoadFree
}
