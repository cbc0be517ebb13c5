package intake

// tellOffsets tells of moments whose offset is left aside, for the import names no zone: two clocks in one file, and every
// duration between them is wrong.
func (im *importing) tellOffsets(p *part) error {
	if im.o.Zone != "" {
		return nil
	}
	k := ofKind(p.kind, false)
	for _, c := range p.kind.Columns {
		if _, has := p.places[c.Name]; has && c.IsMoment() {
			k.Texts = append(k.Texts, p.textOf(c.Name))
		}
	}
	if len(k.Texts) == 0 {
		return nil
	}
	found, err := answer[struct {
		Moments          int64
		Example, Offsets string
	}](im, k, "offsets", nil)
	if err != nil || found.Moments == 0 {
		return err
	}
	im.notice("%s: times with an offset that was left aside: %d, such as %s (offsets: %s); the clock is kept as written. "+
		"To convert them to the shop's clock name its zone: --zone Europe/Dublin", p.Name(), found.Moments, found.Example, found.Offsets)
	return nil
}
