package jobtest

import (
	"path/filepath"
	"testing"

	"wormwright/gen"
	"wormwright/gen/job"
)

// Lathe reads an example lathe.
func Lathe(t testing.TB, name string) gen.Lathe {
	t.Helper()
	return open(t, filepath.Join(fixtures, "lathes", name+".yaml"), job.ReadLathe).Lathe
}
