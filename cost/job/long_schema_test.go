//go:build long

package job_test

import (
	"testing"

	"github.com/coverwright/coverwright/cost/job"
)

func TestTheProgramsOrderValidates(t *testing.T) {
	text := programsJob(t)
	specAndOrderValidate(t, text, func() (job.WorkOrder, error) { return readAny(text) })
}
