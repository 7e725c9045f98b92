package check

// kept is what was worked out of a job, by its type.
type kept struct {
	of *Job // a copy of the job has no part in it
	by map[any]any
}

// Once gives what find works out of a job. While the job keeps it, as it does when it is
// examined, that is done once for all checks; at any other time it is done anew. What is kept
// is known by its type, which wants a name of its own.
func Once[T any](j *Job, find func(*Job) T) T {
	if !j.keeps() {
		return find(j)
	}
	key := (*T)(nil)
	if found, ok := j.kept.by[key]; ok {
		return found.(T)
	}
	found := find(j)
	j.kept.by[key] = found
	return found
}

// OnceFor is Once for one thing of many: a material by its text, a shelf by its part.
func OnceFor[M ~map[K]V, K comparable, V any](j *Job, key K, find func() V) V {
	known := Once(j, func(*Job) M { return M{} })
	if found, ok := known[key]; ok {
		return found
	}
	found := find()
	known[key] = found
	return found
}

func (j *Job) keeps() bool { return j.kept != nil && j.kept.of == j }

// Keep lets the job keep what is worked out of it until forget is called. Nobody may change
// parts, joints, loads or openings in between.
func (j *Job) Keep() (forget func()) {
	before := j.kept
	j.kept = &kept{of: j, by: map[any]any{}}
	return func() { j.kept = before }
}
