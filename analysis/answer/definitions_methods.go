package answer

var trendDefinitions = []Definition{
	{Figure: "Centre and limits of a month", Says: "The centre c is the pooled rate of all months before the reported one (for comebacks those wholly " +
		"matured). Two limits are worked out and on each side the wider is shown. One is three standard errors from the centre, wider where months " +
		"differ more than chance explains (sigma z above 1). The other is where a month's count lies by chance once for what the X of N behind the " +
		"centre leave open: all but 0.135 % on each side of the beta-binomial distribution with X + ½ and N − X + ½; for open faults a job of the " +
		"negative binomial, and the standard error is the root of c over n.",
		Formula: "c ± 3 √(c(1−c)/n) max(1, σ_z), σ_z = mean |z − z before| / 1.128, z = (rate − c) / √(c(1−c)/n)",
		drawn: row(id("c"), op("±"), num("3"), root(frac(row(id("c"), paren(num("1"), op("−"), id("c"))), id("n"))), said(" max"),
			paren(num("1"), op(","), sub(id("σ"), id("z"))), op(","), sub(id("σ"), id("z")), op("="),
			frac(row(said("mean "), op("|"), id("z"), op("−"), said("z before"), op("|")), num("1.128"))),
		Source: "Laney (2002) Quality Engineering 14:531-537; p and u chart: NIST/SEMATECH e-Handbook 6.3.3; Jeffreys' prior: Jeffreys (1961), section 3.1"},
	{Figure: "Signals", Says: "Patterns that chance seldom makes: beyond the limits, nine in a row on one side of the centre, six in a row rising or falling, two of three beyond " +
		"two sigma, four of five beyond one sigma on one side. A month of which fewer than 5 would be expected, or fewer than 5 spared, takes part in beyond the limits only. " +
		"Better and worse are said of a month only with a signal.",
		Source: "Nelson (1984) J. Quality Technology 16:237-239"},
	{Figure: "Comeback curve", Says: "Share of jobs that have come back, by days since they were closed, from all jobs for as long as each was followed: d of the n jobs still " +
		"followed came back on a day. It ends at the last day on which at least 10 jobs were still followed; a day beyond has no figure. Before the first comeback its upper " +
		"bound is Clopper and Pearson's for none of n.", Formula: "1 − ∏ (1 − d/n) over the days so far; log-log interval with Greenwood's variance; before the first: 1 − 0.025^(1/n)",
		drawn:  row(num("1"), op("−"), op("∏"), paren(num("1"), op("−"), frac(id("d"), id("n")))),
		Source: "Kaplan & Meier (1958) J. Am. Stat. Assoc. 53:457-481; Greenwood (1926); Kalbfleisch & Prentice (1980), section 1.3; Clopper & Pearson (1934) Biometrika 26:404-413"},
}

var groupDefinitions = []Definition{
	{Figure: "Like with like", Says: "Each group is compared with all other groups together within strata of like units: for tasks of the same system, make and model, for jobs of the same " +
		"reason, make and model, leaving out what the grouping itself is made of. Expected is what the group's units would have at the others' rates in these strata. The odds ratio is " +
		"Mantel and Haenszel's, its interval and p allow for tasks of one job being alike (design effect).", Formula: "expected = Σ n₁ c₂/n₂; odds ratio = Σ(ad/n) / Σ(bc/n)",
		drawn:  row(said("expected"), op("="), sum("", row(sub(id("n"), num("1")), frac(sub(id("c"), num("2")), sub(id("n"), num("2")))))),
		Source: "Mantel & Haenszel (1959) J. Natl. Cancer Inst. 22:719-748; Robins, Breslow & Greenland (1986) Biometrics 42:311-323"},
	{Figure: "Call", Says: "Higher or lower: q of like with like below 0.05, by the side of the difference within strata. Not comparable: a group of at least 10 of which less than half has its " +
		"like among the others. Else nothing is called. Pages and sentences go by the call.", Source: house},
	{Figure: "Design effect", Says: "How much less the tasks of a comparison tell than their number, because tasks of one job are alike: the variance between jobs over what it would be if tasks " +
		"were independent; at least 1.", Formula: "m/(m−1) Σ (y − k p)² / (n p (1−p)) over m jobs of k tasks with y hits, n tasks in all",
		drawn: row(frac(id("m"), row(id("m"), op("−"), num("1"))), frac(sum("", sup(paren(id("y"), op("−"), id("k"), id("p")), num("2"))),
			row(id("n"), id("p"), paren(num("1"), op("−"), id("p"))))), Source: "Rao & Scott (1992) Biometrics 48:577-585"},
	{Figure: "p of a group, crude", Says: "Fisher's exact test, two-sided, of the group against all other groups together: the probability of all tables no more " +
		"probable than the one seen; no less than Pearson's chi-squared over the design effect gives where that is above 1.", Formula: "Σ P(k) over all k with P(k) ≤ P(seen)",
		drawn:  sum(row(id("P"), paren(id("k")), op("≤"), id("P"), paren(said("seen"))), row(id("P"), paren(id("k")))),
		Source: "Fisher (1935) J. R. Stat. Soc. 98:39-54"},
	{Figure: "q", Says: "p allowing for the number of things looked at in one answer. Where nothing truly differs, one answer in twenty holds any q below 0.05. Only groups of 10 or more " +
		"units take part.", Formula: "q of the i-th smallest p = min over j ≥ i of p(j) m / j",
		drawn: row(sub(id("q"), id("i")), op("="), formula("<munder><mi>min</mi><mrow><mi>j</mi><mo>≥</mo><mi>i</mi></mrow></munder>"),
			frac(row(sub(id("p"), id("j")), id("m")), id("j"))),
		Source: "Benjamini & Hochberg (1995) J. R. Stat. Soc. B 57:289-300"},
	{Figure: "Seen against expected", Says: "The drawing of a comparison: each group's count over what is expected of the others in like work. The limits are z standard deviations of a count whose " +
		"variance is its expectation times the share spared, times the design effect or the spread of the groups among themselves, whichever is wider; the farthest tenth at each end " +
		"sets no spread. It is a guide for the eye: the call is made by q.", Formula: "E ± z √(φ E (1−c)), z = 1.96 and 3.09",
		drawn:  row(id("E"), op("±"), id("z"), root(row(id("φ"), id("E"), paren(num("1"), op("−"), id("c"))))),
		Source: "Spiegelhalter (2005) Stat. Med. 24:1185-1202, section 4"},
	{Figure: "Funnel limits", Says: "Where 95 % and 99.8 % of groups of a size lie if their true rate is that of all together, from the binomial " +
		"distribution F, smoothed between counts: r is the smallest count with F(r) at least a.",
		Formula: "(r − (F(r) − a) / (F(r) − F(r−1))) / n, a = 0.025, 0.975, 0.001, 0.999",
		drawn: frac(row(id("r"), op("−"), frac(row(id("F"), paren(id("r")), op("−"), id("a")),
			row(id("F"), paren(id("r")), op("−"), id("F"), paren(id("r"), op("−"), num("1"))))), id("n")),
		Source: "Spiegelhalter (2005) Stat. Med. 24:1185-1202, appendix A.1.1"},
	{Figure: "Shrunken rate", Says: "A group's rate drawn toward the mean of all groups, the more the fewer its units; α and β are fitted to all groups.",
		Formula: "(x + α) / (n + α + β)",
		drawn:   frac(row(id("x"), op("+"), id("α")), row(id("n"), op("+"), id("α"), op("+"), id("β"))),
		Source:  "Skellam (1948) J. R. Stat. Soc. B 10:257-261; fit: Smith (1983) Appl. Stat. 32:196-204"},
}

var glassDefinitions = []Definition{
	{Figure: "Odds ratio, crude", Says: "Odds of the outcome with the glass asked about over those with OEM glass, all vehicles together: a and b are those " +
		"with and without the outcome, c and d the same for OEM. Its interval is Woolf's.", Formula: "ad / (bc)",
		drawn: frac(row(id("a"), id("d")), row(id("b"), id("c"))), Source: "Woolf (1955) Ann. Hum. Genet. 19:251-253"},
	{Figure: "Odds ratio, like with like", Says: "The same within each make and model, put together over all of them. Its p is the Mantel-Haenszel test with " +
		"continuity correction, its interval that of Robins, Breslow and Greenland.", Formula: "Σ(ad/n) / Σ(bc/n)",
		drawn:  frac(sum("", frac(row(id("a"), id("d")), id("n"))), sum("", frac(row(id("b"), id("c")), id("n")))),
		Source: "Mantel & Haenszel (1959) J. Natl. Cancer Inst. 22:719-748; Robins, Breslow & Greenland (1986) Biometrics 42:311-323"},
	{Figure: "Strata agree", Says: "Whether one odds ratio fits all makes and models; a small p says look at them one by one.",
		Source: "Breslow & Day (1980), section 4.4; Tarone (1985) Biometrika 72:91-95"},
	{Figure: "Glass verdict", Says: "The first that holds, a crude difference being told where q < 0.05 and one like with like where its q is. Too little: fewer than 10 on a side or fewer than " +
		"5 events in all. Not comparable: no make and model holds both kinds of glass and both results. Reverses: both told, on opposite sides. Differs: both told. Emerges: only like with " +
		"like. Fades: only crude, and like with like the logarithm of the odds ratio is at most half as large, or of the other sign. Unsettled: only crude, and it does not go. Not shown: " +
		"neither. All are associations, not causes.", Source: house},
	{Figure: "Smallest difference that could show", Says: "The nearest rates that two groups of these sizes would be told apart by with a power of 80 % at 5 % " +
		"two-sided.", Source: "Fleiss, Levin & Paik (2003), section 4.2-4.4; Casagrande, Pike & Smith (1978) Biometrics 34:483-486"},
}

var timeDefinitions = []Definition{
	{Figure: "When did it start, and has it ended", Says: "The split of a group's tasks in time that makes the results before and after most likely, between days, with at least 10 tasks on each " +
		"side; p is how often a random order of the same jobs gives a split at least as good. Where it is told, each part is searched once more in the same way (p < 0.025). What is reported is " +
		"the state now, against the first: a rise that ended is told as ended.", Source: "binomial likelihood with a permutation p, " + house},
	{Figure: "Before and after an action", Says: "Tasks not first pass of the action's subject in the 180 days before it and after it, each cut off by the action before or after; the others are the shop's " +
		"tasks of other subjects of that kind, or the other shops'. Like with like is within system, make and model. Better or worse is said only where that is told (q < 0.05) and the change " +
		"less that of the others lies wholly on one side of 0. A month that was the worst of many falls back by itself.", Formula: "d − d₀ − √((d−l)² + (u₀−d₀)²) to d − d₀ + √((u−d)² + (d₀−l₀)²)",
		drawn: row(id("d"), op("−"), sub(id("d"), num("0")), op("−"), root(row(sup(paren(id("d"), op("−"), id("l")), num("2")), op("+"),
			sup(paren(sub(id("u"), num("0")), op("−"), sub(id("d"), num("0"))), num("2")))), op("…")),
		Source: "Newcombe (1998) Stat. Med. 17:873-890, method 10, twice; power: Fleiss, Levin & Paik (2003), section 4.4"},
	{Figure: "What stands out", Says: "Over all pages, groups that are called higher, changes to a higher rate that hold, signals of the reported month on the bad side, glass verdicts and shops whose records " +
		"lack something, of those with q < 0.05 over everything looked at together. In the order of what can happen to people on the road, then of how many more than expected.", Source: house},
	{Figure: "Shift of measured values", Says: "The most likely shift of level in a series of readings, by ranks; limits of single readings come from their " +
		"moving ranges before it.", Source: "Pettitt (1979) Appl. Stat. 28:126-135; NIST/SEMATECH e-Handbook 6.3.2.2"},
	{Figure: "Cpk", Says: "How far the mean lies from the nearer bound of its tolerance, in units of three sigma: below 1 the readings do not all fit.",
		Formula: "min(upper − mean, mean − lower) / (3σ)",
		drawn: frac(row(said("min"), paren(said("upper"), op("−"), said("mean"), op(","), said("mean"), op("−"), said("lower"))),
			row(num("3"), id("σ"))), Source: "NIST/SEMATECH e-Handbook 6.1.6"},
}
