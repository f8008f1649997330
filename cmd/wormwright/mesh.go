package main

import (
	"sync"

	"wormwright/gen"
	"wormwright/gen/proof"
	"wormwright/posts/mesh"
)

// withMeshes adds the solids of the pair and of its hob to what a maker makes,
// before the programs.
func withMeshes(format string, made maker) maker {
	return func(std stdio, p *gen.Plan) ([]file, *proof.Report, error) {
		files, report, err := made(std, p)
		if err != nil {
			return nil, nil, err
		}
		solids, err := meshes(p, format)
		return append(solids, files...), report, err
	}
}

// meshes makes the files of wheel, worm and hob, each proved to be closed.
func meshes(p *gen.Plan, format string) ([]file, error) {
	var (
		makers = [...]func(*gen.Plan, float64) (mesh.Solid, error){mesh.WheelOf, mesh.WormOf, mesh.HobOf}
		solids [len(makers)]file
		errs   [len(makers)]error
		group  sync.WaitGroup
	)
	for i, made := range makers {
		group.Go(func() {
			s, err := made(p, mesh.Chord)
			if err == nil && len(s.Facets) > 0 {
				err = s.Check()
			}
			if errs[i] = err; err != nil || len(s.Facets) == 0 {
				return
			}
			solids[i] = file{s.Name + ".3mf", nil}
			if format == "stl" {
				solids[i] = file{s.Name + ".stl", s.STL()}
			} else {
				solids[i].data = s.ThreeMF(p.Job.Title)
			}
		})
	}
	group.Wait()
	var files []file
	for i, f := range solids {
		if errs[i] != nil {
			return nil, errs[i]
		}
		if f.name != "" {
			files = append(files, f)
		}
	}
	return files, nil
}
