package answer

var trendDefinitions = []Definition{
	{Figure: "Centre and limits of a month", Says: "The centre c is the pooled rate of all months before the reported one (for comebacks those wholly " +
		"matured). Limits are three standard errors around it, wider where months differ more than chance explains (sigma z above 1). For " +
		"open faults a job the standard error is the root of c over n.",
		Formula: "c ± 3 √(c(1−c)/n) max(1, σ_z), σ_z = mean |z − z before| / 1.128, z = (rate − c) / √(c(1−c)/n)",
		drawn: row(id("c"), op("±"), num("3"), root(frac(row(id("c"), paren(num("1"), op("−"), id("c"))), id("n"))), said(" max"),
			paren(num("1"), op(","), sub(id("σ"), id("z"))), op(","), sub(id("σ"), id("z")), op("="),
			frac(row(said("mean "), op("|"), id("z"), op("−"), said("z before"), op("|")), num("1.128"))),
		Source: "Laney (2002) Quality Engineering 14:531-537; p and u chart: NIST/SEMATECH e-Handbook 6.3.3"},
	{Figure: "Signals", Says: "Patterns that chance seldom makes: beyond limits (test 1), nine in a row on one side (2), six in a row rising or falling " +
		"(3), two of three beyond two sigma (5), four of five beyond one sigma (6). Better and worse are said of a month only with a signal.",
		Source: "Nelson (1984) J. Quality Technology 16:237-239"},
	{Figure: "Comeback curve", Says: "Share of jobs that have come back, by days since they were closed, from all jobs for as long as each was " +
		"followed: d of the n jobs still followed came back on a day.", Formula: "1 − ∏ (1 − d/n) over the days so far; log-log interval with Greenwood's variance",
		drawn:  row(num("1"), op("−"), op("∏"), paren(num("1"), op("−"), frac(id("d"), id("n")))),
		Source: "Kaplan & Meier (1958) J. Am. Stat. Assoc. 53:457-481; Greenwood (1926); Kalbfleisch & Prentice (1980), section 1.3"},
}

var groupDefinitions = []Definition{
	{Figure: "p of a group", Says: "Fisher's exact test, two-sided, of the group against all other groups together: the probability of all tables no more " +
		"probable than the one seen.", Formula: "Σ P(k) over all k with P(k) ≤ P(seen)",
		drawn:  sum(row(id("P"), paren(id("k")), op("≤"), id("P"), paren(said("seen"))), row(id("P"), paren(id("k")))),
		Source: "Fisher (1935) J. R. Stat. Soc. 98:39-54"},
	{Figure: "q", Says: "p allowing for the number of groups looked at: of the groups called different at q < 0.05, at most one in twenty is expected to " +
		"be chance. Only groups of 10 or more units take part.", Formula: "q of the i-th smallest p = min over j ≥ i of p(j) m / j",
		drawn: row(sub(id("q"), id("i")), op("="), formula("<munder><mi>min</mi><mrow><mi>j</mi><mo>≥</mo><mi>i</mi></mrow></munder>"),
			frac(row(sub(id("p"), id("j")), id("m")), id("j"))),
		Source: "Benjamini & Hochberg (1995) J. R. Stat. Soc. B 57:289-300"},
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
	{Figure: "Glass verdict", Says: "Too little: fewer than 10 on a side or fewer than 5 events in all. Not comparable: no make and model holds both kinds of " +
		"glass and both results. Differs: p below 0.05 crude and like with like. Fades: crude only. Emerges: like with like only. Else no " +
		"difference. All are associations, not causes.", Source: house},
	{Figure: "Smallest difference that could show", Says: "The nearest rates that two groups of these sizes would be told apart by with a power of 80 % at 5 % " +
		"two-sided.", Source: "Fleiss, Levin & Paik (2003), section 4.2-4.4; Casagrande, Pike & Smith (1978) Biometrics 34:483-486"},
}

var timeDefinitions = []Definition{
	{Figure: "When did it start", Says: "The split of a group's tasks in time that makes the results before and after most likely; p is how often a random order " +
		"of the same results gives a split at least as good.", Source: "binomial likelihood with a permutation p, " + house},
	{Figure: "Shift of measured values", Says: "The most likely shift of level in a series of readings, by ranks; limits of single readings come from their " +
		"moving ranges before it.", Source: "Pettitt (1979) Appl. Stat. 28:126-135; NIST/SEMATECH e-Handbook 6.3.2.2"},
	{Figure: "Cpk", Says: "How far the mean lies from the nearer bound of its tolerance, in units of three sigma: below 1 the readings do not all fit.",
		Formula: "min(upper − mean, mean − lower) / (3σ)",
		drawn: frac(row(said("min"), paren(said("upper"), op("−"), said("mean"), op(","), said("mean"), op("−"), said("lower"))),
			row(num("3"), id("σ"))), Source: "NIST/SEMATECH e-Handbook 6.1.6"},
}
