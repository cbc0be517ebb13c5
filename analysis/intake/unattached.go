package intake

import (
	"fmt"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/layout"
)

// This file tells, when all files of an import are in, which records belong to nothing on record: the file of another
// department that writes job numbers otherwise would else come in whole and be counted nowhere.

// tellUnattached tells of each kind.
func (im *importing) tellUnattached() error {
	for i := range layout.Kinds {
		kind := &layout.Kinds[i]
		if !kind.HasJob() || kind.Name == "jobs" || !im.hasBrought(kind) {
			continue
		}
		if err := im.tellUnattachedOf(kind); err != nil {
			return err
		}
	}
	return im.tellZeros()
}

func (im *importing) hasBrought(kind *layout.Kind) bool {
	for _, file := range im.result.Files {
		if file.Kind == kind.Name && file.Read > file.Rejected {
			return true
		}
	}
	return false
}

func (im *importing) tellUnattachedOf(kind *layout.Kind) error {
	found, err := answer[struct {
		Records, Lost, Stray, Zeros int64
		Shop, JobNo, Alike          string
	}](im, ofKind(kind, true), "unattached", nil)
	if err != nil {
		return err
	}
	if found.Lost > 0 {
		like, err := im.likeJob(found.Shop, found.JobNo)
		if err != nil {
			return err
		}
		text := fmt.Sprintf("%s no job on record, such as %s; %s", counted(found.Lost, kind.Name, "names", "name"), found.JobNo, like)
		if found.Zeros > 0 {
			text += fmt.Sprintf("; only zeros tell %d of them from a job on record, such as %s: where that is the same job, write its number alike in both files",
				found.Zeros, found.Alike)
		}
		im.result.Unattached = append(im.result.Unattached, text)
	}
	if found.Stray > 0 {
		im.result.Unattached = append(im.result.Unattached, counted(found.Stray, kind.Name, "belongs", "belong")+" to a job on record, "+
			"but not to one of its "+kind.Numbering().Owner+": no number that was read, or no single moment, is theirs")
	}
	if 2*(found.Lost+found.Stray) > found.Records {
		im.result.MostUnattached = append(im.result.MostUnattached, kind.Name)
	}
	return nil
}

// likeJob says what job numbers on record look like, by the one that is most like a number that is not.
func (im *importing) likeJob(shop, jobNo string) (string, error) {
	near, err := history.Select[struct{ Shop, JobNo string }](im.ctx, im.h, "intake/nearest_job", history.Params{"shop": shop, "job_no": jobNo})
	switch {
	case err != nil:
		return "", err
	case len(near) == 0:
		return "no job is on record", nil
	case near[0].Shop != shop && near[0].JobNo == jobNo:
		return fmt.Sprintf("a job of this number is on record for the shop %q, and not for %q", near[0].Shop, shop), nil
	case near[0].Shop != shop:
		return fmt.Sprintf("jobs on record look like %s, and none is of the shop %q", near[0].JobNo, shop), nil
	}
	return "jobs on record look like " + near[0].JobNo, nil
}

// tellZeros tells of jobs that may be one job twice.
func (im *importing) tellZeros() error {
	if !im.hasBrought(layout.KindNamed("jobs")) {
		return nil
	}
	found, err := history.Select[struct {
		Jobs    int64
		Example string
	}](im.ctx, im.h, "intake/jobs_but_for_zeros", history.Params{"import": im.number})
	if err == nil && found[0].Jobs > 0 {
		im.result.Unattached = append(im.result.Unattached, fmt.Sprintf("job numbers that differ from another of their shop only by zeros: %d, such as %s; "+
			"where that is one job, write its number alike", found[0].Jobs, found[0].Example))
	}
	return err
}

// counted writes 1 road test names, 2 road tests name.
func counted(n int64, kind, one, several string) string {
	things := strings.Replace(strings.ReplaceAll(kind, "_", " "), "glass", "panes", 1)
	if n != 1 {
		return fmt.Sprintf("%d %s %s", n, things, several)
	}
	return fmt.Sprintf("1 %s %s", strings.TrimSuffix(things, "s"), one)
}
