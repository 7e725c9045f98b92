package read

import "dryfit/check"

func (t *Tab) addOthers(j *check.Job) {}
