package model

// Optional is a value that may be unknown; the zero Optional is unknown.
type Optional[T comparable] struct {
	Value T
	Known bool
}

// Known wraps a value that is known.
func Known[T comparable](v T) Optional[T] { return Optional[T]{Value: v, Known: true} }
