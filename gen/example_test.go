package gen_test

import (
	"fmt"
	"os"

	"wormwright/gen"
	"wormwright/gen/job"
	"wormwright/posts/rs274"
)

// From two files to a plan, its last step and the program that cuts it.
func ExampleNewPlan() {
	jobFile, err := os.Open("../fixtures/jobs/sluice-hoist.yaml")
	if err != nil {
		panic(err)
	}
	defer jobFile.Close()
	read, err := job.Read("sluice-hoist.yaml", jobFile)
	if err != nil {
		panic(err)
	}
	machineFile, err := os.Open("../fixtures/machines/knee-mill.yaml")
	if err != nil {
		panic(err)
	}
	defer machineFile.Close()
	machine, err := job.ReadMachine("knee-mill.yaml", machineFile)
	if err != nil {
		panic(err)
	}

	p := gen.NewPlan(read.Job, machine.Machine, "example")
	for _, f := range p.Findings {
		fmt.Println(f.Severity, f.Path)
	}
	last := p.Cycle.Steps[len(p.Cycle.Steps)-1]
	fmt.Printf("step %d, %s: %.3f mm deep, %v work turn\n", last.Number, last.Stage, last.Depth, last.WorkTurns)

	program := rs274.Read(rs274.Wheel(&p), machine.Machine.Language, p.Axes(p.Cycle.Start, 0))
	fmt.Println("fault:", program.Fault)
	// Output:
	// caution setup.swivel
	// step 22, spark-out: 4.735 mm deep, 1 work turn
	// fault: <nil>
}
