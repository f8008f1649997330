// Package job reads job and machine files. It alone knows YAML and units:
// what it returns is plain gen.Job and gen.Machine in mm and radians, with
// the place of every key, or all faults of the file at once.
package job
